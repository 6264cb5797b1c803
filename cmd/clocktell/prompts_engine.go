package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"golang.org/x/sync/errgroup"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/engine"
	"clocktell/relay/opinion"
)

const (
	// judgeNodes is how many positions the engine visits for each one of a game, where
	// nothing else is asked: about a quarter of a second of a usual engine.
	judgeNodes = 200_000
	// judgeMost is how long it may take for that before it is given up.
	judgeMost = 2 * time.Minute
	// judgeStarts is how often the engine is started again before it is given up.
	judgeStarts = 3
)

// asker asks an engine of one position after the other. By the number of positions visited, with one
// thread, it says the same of the same games, whatever the machine.
type asker struct {
	*engine.Engine
	nodes   uint64
	answers chan engine.Answer // outcomes
}

// withEngine has an engine at work while do runs, if one is set.
func (r *rehearsal) withEngine(ctx context.Context, e config.Engine, nodes uint64, do func() error) error {
	if e.Command == "" {
		return do()
	}
	options := engineOptions(e)
	options.Threads = 1
	if _, err := engine.Greet(ctx, options); err != nil {
		return fmt.Errorf("the engine %s: %w", e.Command, err)
	}
	a := &asker{nodes: nodes, answers: make(chan engine.Answer)}
	options.Tell = a.tell
	a.Engine = engine.New(options)
	r.judge = a.judge
	ctx, end := context.WithCancel(ctx)
	defer end()
	var group errgroup.Group
	group.Go(func() error { return a.Run(ctx) })
	err := do()
	end()
	return errors.Join(err, group.Wait())
}

func (a *asker) tell(ctx context.Context, answer engine.Answer) {
	if !answer.Opinion.Final {
		return
	}
	select {
	case a.answers <- answer:
	case <-ctx.Done():
	}
}

// judge asks and waits for the outcome.
func (a *asker) judge(ctx context.Context, b *relay.Board, n int) (opinion.Opinion, error) {
	key := engine.KeyOf(n, b.Place)
	known := a.Want([]engine.Wish{{
		Board: b.Number, Game: b.Game, Ply: n, Class: engine.OnAir, Key: key, Limit: engine.Limit{Nodes: a.nodes},
		Line: func() engine.Line { return lineTo(b, n) },
	}})
	if len(known) > 0 {
		return known[0].Opinion, nil
	}
	most := time.NewTimer(judgeMost)
	defer most.Stop()
	for {
		select {
		case answer := <-a.answers:
			if answer.Wish.Key == key {
				return answer.Opinion, nil
			}
		case <-a.Changed():
			if is := a.State(); is.Restarts >= judgeStarts {
				return opinion.Opinion{}, fmt.Errorf("the engine fails again and again: %s", is.Fault)
			}
		case <-most.C:
			return opinion.Opinion{}, fmt.Errorf("the engine has not come to an end with %s within %v", b.Place(n).FEN(), judgeMost)
		case <-ctx.Done():
			return opinion.Opinion{}, ctx.Err()
		}
	}
}
