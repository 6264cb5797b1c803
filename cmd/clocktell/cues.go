package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"time"

	"clocktell/relay"
	"clocktell/relay/cue"
	"clocktell/relay/journal"
	"clocktell/relay/recap"
)

// cueOptions says what is written of a show's cues.
type cueOptions struct {
	rate   cue.Rate
	marks  []relay.StartMark // of recordings; nil: those of the show
	groups []string          // of scenes whose channels are written; "" is the one that is not held back. nil: all
	least  time.Duration     // between chapters; 0: cue.LeastBetween
	zone   *time.Location    // of the times of day
}

// collectCues plays a recorded show through and returns its cues. What cannot be read is
// left out and told; it stands for nothing that was on the screen either. The end of ctx ends it.
func collectCues(ctx context.Context, plan relay.Plan, records iter.Seq2[journal.Record, error], began time.Time) (*cue.Log, []error) {
	var errs []error
	var collector *cue.Collector
	for event, err := range make(intakes).events(records) {
		if ctx.Err() != nil {
			break
		}
		if err != nil {
			if len(errs) < errsMost {
				errs = append(errs, err)
			}
			continue
		}
		if collector == nil {
			collector = cue.NewCollector(relay.NewShow(plan, event.When()))
		}
		collector.After(event)
	}
	if collector == nil {
		collector = cue.NewCollector(relay.NewShow(plan, began))
	}
	return collector.Log(), errs
}

// writeCues writes chapters, cue list and cut lists of every recording of every channel,
// and returns the files' names.
func writeCues(log *cue.Log, o cueOptions, to recap.Sink) ([]string, error) {
	marks, groups := o.marks, o.groups
	if marks == nil {
		marks = log.Marks
	}
	if groups == nil {
		groups = append([]string{""}, log.Groups()...)
	}
	var files []string
	for _, group := range groups {
		tapes, err := log.Tapes(o.rate, group, marks)
		if err != nil {
			return files, fmt.Errorf("cues: %w", err)
		}
		for i, tape := range tapes {
			suffix := ""
			if group != "" {
				suffix = "-" + group
			}
			if len(tapes) > 1 {
				suffix += fmt.Sprintf("-recording%d", i+1)
			}
			written, err := writeTape(log, tape, o, suffix, to)
			files = append(files, written...)
			if err != nil {
				return files, fmt.Errorf("cues: %w", err)
			}
		}
	}
	return files, nil
}

// writeTape writes the files of one recording.
func writeTape(log *cue.Log, tape cue.Tape, o cueOptions, suffix string, to recap.Sink) ([]string, error) {
	least := o.least
	if least == 0 {
		least = cue.LeastBetween
	}
	var files []string
	var errs []error
	put := func(name string, write func(io.Writer) error) {
		var data bytes.Buffer
		err := write(&data)
		if err == nil {
			err = to(name, data.Bytes())
		}
		if err != nil {
			errs = append(errs, err)
			return
		}
		files = append(files, name)
	}
	put("chapters"+suffix+".vtt", func(w io.Writer) error {
		return cue.WriteVTT(w, log.Title, tape.Chapters(log.Cues, log.Title, least))
	})
	put("cues"+suffix+".csv", func(w io.Writer) error { return tape.WriteCSV(w, log, o.zone) })
	lists := tape.EDL(log.Title+suffix, suffix, log.Cues)
	for i, text := range lists {
		part := ""
		if len(lists) > 1 {
			part = fmt.Sprintf("-part%d", i+1)
		}
		put("cues"+suffix+part+"-"+tape.Rate.Name+"fps.edl", func(w io.Writer) error {
			_, err := io.WriteString(w, text)
			return err
		})
	}
	return files, errors.Join(errs...)
}
