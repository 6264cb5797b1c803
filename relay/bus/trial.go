package bus

import (
	"context"
	"errors"
)

// A bus may answer and yet keep nothing, as one does whose disk is full: to find that out takes as
// long as an answer may. So the first message that waits for it is tried beside the show, which
// goes on meanwhile.

// trial is a message that is to be tried; none if there is nothing to try.
type trial struct {
	message message
	behind  uint64 // the number of the last one
	none    bool
}

// result is what became of a trial.
type result struct {
	trial
	seq  uint64 // its number
	err  error
	lost bool // the bus has lost the show
}

// trials are between the show and what tries beside it.
type trials struct {
	back chan struct{} // the bus answers again: a trial is wanted
	of   chan trial
	done chan result
	more chan struct{} // the bus takes messages again, of which more are kept
}

func newTrials() trials {
	return trials{back: make(chan struct{}, 1), of: make(chan trial, 1), done: make(chan result), more: make(chan struct{}, 1)}
}

// askWhileCut asks the bus for its state as long as it takes nothing, and tries a message whenever
// it has answered.
func (b *Bus) askWhileCut(ctx context.Context, t trials) error {
	for pause(ctx, retryEvery) {
		if !b.Now().Cut {
			continue
		}
		if _, _, err := b.stream.end(ctx); err != nil {
			continue
		}
		again(t.back)
		select {
		case of := <-t.of:
			b.try(ctx, t, of)
		case <-ctx.Done():
		}
	}
	return nil
}

func (b *Bus) try(ctx context.Context, t trials, of trial) {
	if of.none {
		return
	}
	seq, err := b.stream.put(ctx, of.message, of.behind)
	select {
	case t.done <- result{of, seq, err, err != nil && b.lost(ctx, of.behind) != nil}:
	case <-ctx.Done():
	}
}

// again signals, if no signal waits.
func again(back chan<- struct{}) {
	select {
	case back <- struct{}{}:
	default:
	}
}

// next is what is to be tried of the messages that wait.
func (wr *writing) next() trial {
	if !wr.cut || len(wr.kept) == 0 {
		return trial{none: true}
	}
	return trial{message: wr.kept[0], behind: wr.bus.stream.last}
}

// tried takes what became of a trial. The others that are kept may have got there meanwhile, and the
// one that was tried with them.
func (wr *writing) tried(r result) {
	if !wr.cut || wr.broken {
		return
	}
	if r.err != nil && !errors.Is(r.err, errElse) {
		wr.stillCut(whyAlone(wr.bus, whyNot(r.err, true)), r.lost)
		return
	}
	if r.err == nil && wr.bus.stream.last == r.behind {
		wr.bus.stream.last = r.seq
		wr.written(1)
	}
	again(wr.trials.more)
}
