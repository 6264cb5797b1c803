package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"

	"clocktell/relay"
	"clocktell/relay/bus"
	"clocktell/relay/config"
	"clocktell/relay/journal"
	"clocktell/relay/metrics"
)

// opened is a show as it is when a process comes to it.
type opened struct {
	restored
	journal *journal.Journal // nil: nothing is kept
	sharing *sharing         // nil: nobody else has it
}

// openShow opens the show of a configuration: a new one, or that of its journal or of the bus.
func openShow(ctx context.Context, c config.Config, tb relay.Timebase, log *slog.Logger, figures *metrics.Metrics) (opened, error) {
	plan := planOf(c, tb)
	switch {
	case c.Bus.On():
		return openSharedShow(ctx, c, plan, tb, log, figures)
	case c.Journal.Dir != "":
		kept, r, err := openJournal(ctx, c, plan, tb, log, figures.Commit)
		return opened{restored: r, journal: kept}, err
	}
	return opened{restored: restored{show: relay.NewShow(plan, tb.Now()), past: relay.NewHistory(), intakes: make(intakes)}}, nil
}

func openSharedShow(ctx context.Context, c config.Config, plan relay.Plan, tb relay.Timebase, log *slog.Logger, figures *metrics.Metrics) (o opened, err error) {
	if o.sharing, err = newSharing(c.Bus, &tb, log); err != nil {
		return o, err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, o.sharing.close())
		}
	}()
	if err = o.sharing.open(ctx); err != nil {
		return o, err
	}
	text, err := json.Marshal(plan)
	if err != nil {
		return o, err
	}
	begin := bus.Beginning{Epoch: newEpoch(), Title: plan.Title, Plan: string(text), Rate: tb.Rate, Began: tb.Now(), By: o.sharing.options.ID}
	past, err := o.sharing.past(ctx, c, begin, tb.Now())
	if err != nil {
		return o, err
	}
	o.sharing.epoch = past.begin.Epoch
	o.restored = past.fold(plan, tb.Now())
	o.intakes = o.sharing.intakes
	log.Info("the show is shared", "events", o.records, "boards", len(o.show.Boards), "bus", o.sharing.options.Show)
	if c.Journal.Dir != "" {
		o.journal, err = openSharedJournal(ctx, c, plan, past, tb, figures)
	}
	return o, err
}

// openSharedJournal writes down what has happened, and opens the file for what will.
func openSharedJournal(ctx context.Context, c config.Config, plan relay.Plan, past sharedPast, tb relay.Timebase, figures *metrics.Metrics) (*journal.Journal, error) {
	keeper := newKeeper()
	for _, e := range past.events {
		keeper.take(e)
	}
	var kept *journal.Journal
	err := whenFree(ctx, journal.ErrInUse, func() (err error) {
		kept, err = journal.Open(ctx, journal.Options{
			Dir: c.Journal.Dir, Title: plan.Title, Plan: past.begin.Plan, MaxBytes: c.Journal.MaxBytes, Now: tb.Now,
			Sent: keeper.take, Key: keeper.events, Took: figures.Commit,
			Shared: &journal.Shared{Epoch: past.begin.Epoch, Began: past.begin.Began, Past: past.events, Was: past.was},
		})
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("the journal of a shared show: %w", err)
	}
	return kept, nil
}
