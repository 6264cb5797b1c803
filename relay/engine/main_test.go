package engine

import (
	"context"
	"os"
	"testing"
	"time"

	"go.uber.org/goleak"

	"clocktell/relay/bitboard"
	"clocktell/relay/engine/enginetest"
)

func TestMain(m *testing.M) {
	enginetest.PlayIfAsked()
	keepIfAsked()
	tellIfAsked()
	goleak.VerifyTestMain(m)
}

// kennel is an engine under test, with what it has told.
type kennel struct {
	*Engine
	t       *testing.T
	answers chan Answer
	stop    func() // ends it and waits
}

// run starts an engine and ends it with the test.
func run(t *testing.T, o Options) *kennel {
	t.Helper()
	k := &kennel{t: t, answers: make(chan Answer, 100_000)}
	o.Tell = func(_ context.Context, a Answer) { k.answers <- a }
	k.Engine = New(o)
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- k.Run(ctx) }()
	stopped := false
	k.stop = func() {
		cancel()
		if stopped {
			return
		}
		stopped = true
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
	t.Cleanup(k.stop)
	return k
}

// program returns the options of the engine that the test binary plays.
func program(t *testing.T, fault, folder string, lives int) Options {
	t.Helper()
	path, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	return Options{Command: path, Args: enginetest.Args(fault, folder, lives), Lines: 2}
}

// position returns a position by its FEN.
func position(t testing.TB, fen string) bitboard.Position {
	t.Helper()
	p, err := bitboard.ParseFEN(fen)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// wishFor wishes for a position on a board that has had no other.
func wishFor(board int, class Class, p bitboard.Position, given time.Duration) Wish {
	return Wish{
		Board: board, Class: class, Limit: Limit{Time: given}, Line: func() Line { return Line{Start: p} },
		Key: KeyOf(0, func(int) *bitboard.Position { return &p }),
	}
}

// after returns the position after moves from the start.
func after(t testing.TB, moves ...string) bitboard.Position {
	t.Helper()
	p := bitboard.Start()
	for _, text := range moves {
		m, legal := moveOf(&p, text)
		if !legal {
			t.Fatalf("%s cannot be played", text)
		}
		p.Make(m)
	}
	return p
}

// final waits for the outcome for a board.
func (k *kennel) final(board int) Answer {
	k.t.Helper()
	limit := time.After(time.Minute)
	for {
		select {
		case a := <-k.answers:
			if a.Wish.Board == board && a.Opinion.Final {
				return a
			}
		case <-limit:
			k.t.Fatalf("waited in vain for an outcome for board %d; the engine: %+v", board, k.State())
		}
	}
}
