package main

import (
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/journal"
	"clocktell/relay/prompt"
)

// openJournal opens the journal and restores from it the show as it was.
func openJournal(ctx context.Context, c config.Config, plan relay.Plan, tb relay.Timebase, log *slog.Logger, took func(time.Duration)) (*journal.Journal, restored, error) {
	text, err := json.Marshal(plan)
	if err != nil {
		return nil, restored{}, err
	}
	keeper := newKeeper()
	o := journal.Options{
		Dir: c.Journal.Dir, Title: plan.Title, Plan: string(text), MaxBytes: c.Journal.MaxBytes, ResumeWithin: c.Journal.ResumeWithin.Duration, Fresh: c.Journal.ResumeWithin.Duration == 0,
		Now: tb.Now, Sent: keeper.take, Key: keeper.events, Took: took,
	}
	var kept *journal.Journal
	err = whenFree(ctx, journal.ErrInUse, func() (err error) {
		kept, err = journal.Open(ctx, o)
		return err
	})
	if err != nil {
		return nil, restored{}, err
	}
	began := time.Now()
	r := restore(plan, kept.Records(), tb.Now(), keeper.take)
	for _, err := range r.errs {
		log.Error("the journal could not be read whole", "err", err)
	}
	if cut := kept.Cut(); cut != "" {
		log.Error("the journal was damaged", "cut", cut)
	}
	if r.records > 0 {
		log.Info("the show goes on from its journal", "file", kept.Path(), "records", r.records, "boards", len(r.show.Boards), "took", time.Since(began))
	}
	return kept, r, nil
}

// keepLog writes the show log down. It can be made again from the records, so a line
// that is missing after a crash is written then.
func (st *station) keepLog(ctx context.Context) error {
	changes := st.relay.Subscribe()
	defer changes.Close()
	written := uint64(0)
	for {
		select {
		case <-changes.C:
		case <-ctx.Done():
			return nil
		}
		lines := st.relay.Show().Log.After(written)
		if len(lines) == 0 {
			continue
		}
		if err := st.journal.WriteLog(logEntries(lines)); err != nil {
			st.log.Warn("show log", "err", err) // the journal's own state tells the producer
			continue
		}
		written = lines[len(lines)-1].Seq
	}
}

func logEntries(lines []relay.Noted) []journal.LogEntry {
	out := make([]journal.LogEntry, len(lines))
	for i, n := range lines {
		out[i] = journal.LogEntry{
			Seq: int64(n.Seq), At: n.At, Board: n.Board, Kind: string(n.Kind), Ply: n.Ply, Was: n.Was, Is: n.Is, Text: n.Text,
		}
	}
	return out
}

// recordedPlan returns the plan that a show was recorded under.
func recordedPlan(recording *journal.Recording) (relay.Plan, error) {
	var plan relay.Plan
	if err := json.Unmarshal([]byte(recording.Plan), &plan); err != nil {
		return plan, fmt.Errorf("%s: the plan of the show cannot be read: %w", recording.File, err)
	}
	if _, err := prompt.LanguageOf(plan.Language); plan.Language != "" && err != nil {
		return plan, fmt.Errorf("%s: the plan of the show: %w", recording.File, err)
	}
	return plan, nil
}
