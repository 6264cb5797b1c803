package engine

import (
	"context"
	"testing"
	"time"

	"clocktell/relay/bitboard"
)

func TestSmoke(t *testing.T) {
	got := make(chan Answer, 100)
	e := New(Options{Command: "/usr/games/stockfish", Threads: 1, Memory: 16, Nice: 10, Lines: 3, Tell: func(_ context.Context, a Answer) { got <- a }})
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error)
	go func() { done <- e.Run(ctx) }()
	p := bitboard.Start()
	e.Want([]Wish{{Board: 1, Key: 5, Limit: Limit{Time: 2 * time.Second}, Line: func() Line { return Line{Start: p} }}})
	for a := range got {
		t.Log(a.Opinion.Depth, a.Opinion.Took, a.Opinion.Final, a.Opinion.Lines)
		if a.Opinion.Final {
			break
		}
	}
	t.Logf("%+v", e.State())
	stop()
	if err := <-done; err != nil {
		t.Fatal(err)
	}
}
