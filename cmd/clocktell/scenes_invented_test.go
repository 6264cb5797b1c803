package main

import (
	"fmt"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay/clock"
)

// tellFrom gives White (0) or Black (1) a verdict with figures that are those of the plies.
func tellFrom(b *wire.Board, side int, thinking bool) {
	p := [2]*wire.Player{&b.White, &b.Black}[side]
	var spent []int64
	for i := side; i < len(b.Plies); i += 2 {
		spent = append(spent, b.Plies[i].SpentMs)
	}
	p.Tell.Timed = len(spent)
	if len(spent) < 2 {
		return
	}
	late := spent[len(spent)-min(4, len(spent)):]
	if p.Tell.Verdict, p.Tell.Evidence = wire.VerdictThinking, inFigures(sum(late)/int64(len(late)))+" a move lately"; thinking {
		p.Tell.Thinking = 0.97
		return
	}
	p.Tell.Thinking = 0.1
	gained := int64(len(spent))*b.Control.IncrementMs - sum(spent)
	p.Tell.Verdict, p.Tell.Evidence = wire.VerdictPreparation, fmt.Sprintf("%d moves, %s gained", len(spent), inFigures(gained))
}

func inFigures(ms int64) string { return clock.Format(time.Duration(ms) * time.Millisecond) }

func sum(ms []int64) (all int64) {
	for _, n := range ms {
		all += n
	}
	return all
}

// hurried plays the same game at 5 minutes and 3 seconds a move, and whoever is on move has so long left.
func hurried(b *wire.Board, leftMs int64) {
	const base, increment = 300_000, 3000
	less := b.Control.BaseMs - base
	faster := func(moves int) int64 { return less + int64(moves)*(b.Control.IncrementMs-increment) }
	for i := range b.Plies {
		b.Plies[i].LeftMs -= faster(i/2 + 1)
	}
	b.White.Clock.LeftMs -= faster((len(b.Plies) + 1) / 2)
	b.Black.Clock.LeftMs -= faster(len(b.Plies) / 2)
	b.Control = wire.Control{Text: "5 min + 3 s", BaseMs: base, IncrementMs: increment, Class: "blitz"}
	p, _ := onMove(b)
	p.Clock.SpentMs += p.Clock.LeftMs - leftMs
	p.Clock.LeftMs, p.Clock.StepMs, p.Tell.Trouble, p.Tell.Evidence = leftMs, 100, 3, "on the increment"
}

// held stops both clocks: since then nobody knows whether they run, and the last move is so much older.
func held(b *wire.Board, spentMs, at int64) {
	p, _ := onMove(b)
	p.Clock.LeftMs -= spentMs - p.Clock.SpentMs
	for _, p := range []*wire.Player{&b.White, &b.Black} {
		p.Clock.State, p.Clock.SpentMs, p.Clock.At = wire.StateHeld, spentMs, at
	}
	b.Running = ""
}

// frozen is a board that the producer keeps as it is.
func frozen(b *wire.Board, now int64) {
	b.Frozen = true
	held(b, 23_000, now-20_000)
}
