package relay_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

// played is a shuffle of two paces, each move arriving when it was played.
type played struct {
	stage   *relaytest.Stage
	game    relaytest.Game
	left    [2]time.Duration
	inc     time.Duration
	free    time.Duration // of a delay
	paces   [2]pace
	plies   int
	bonus   map[int]time.Duration // given with an own move
	step    time.Duration         // of the readings; 0: a second
	lost    func(ply int) bool    // no reading; nil: none is lost
	unheard int                   // plies before anybody listened
	unseen  int                   // the ply whose think nobody saw while it lasted, its move coming at once
	look    func()                // after every second; nil: none
}

func newPlayed(t *testing.T, control string, start, inc time.Duration, paces [2]pace) *played {
	t.Helper()
	return &played{
		stage: relaytest.NewStage(), game: relaytest.Game{Control: control},
		left: [2]time.Duration{start, start}, inc: inc, paces: paces,
	}
}

// move plays the next ply.
func (p *played) move() {
	side, own := p.plies%2, p.plies/2+1
	spent := p.paces[side](own)
	p.left[side] += p.inc - max(0, spent-p.free) + p.bonus[own]
	p.plies++
	p.game.Moves = strings.Join(shuffle(p.plies), " ")
	text := clockText(p.left[side].Truncate(max(p.step, time.Second)))
	if p.lost != nil && p.lost(p.plies) {
		text = ""
	}
	p.game.Clocks = append(p.game.Clocks, text)
	if p.plies <= p.unheard {
		return
	}
	if p.plies != p.unseen {
		p.wait(spent - time.Second)
	}
	p.stage.Take(p.game.PGN())
	p.looked()
}

// wait lets the clock run.
func (p *played) wait(d time.Duration) {
	for range d / time.Second {
		p.stage.Same(time.Second)
		p.looked()
	}
}

func (p *played) looked() {
	if p.look != nil && len(p.stage.Show.Boards) > 0 {
		p.look()
	}
}

func clockText(d time.Duration) string {
	return fmt.Sprintf("%d:%02d:%02d", int(d.Hours()), int(d.Minutes())%60, int(d.Seconds())%60)
}

// watchedFrom plays a game with a control after some own moves, and returns the alerts of
// each kind as "side ply" of when they were first seen, whatever second that was.
func watchedFrom(t *testing.T, control string, start time.Duration, moves int, bonus time.Duration, plies int, paces [2]pace) map[relay.AlertKind][]string {
	t.Helper()
	p := newPlayed(t, control, start, 0, paces)
	p.bonus = map[int]time.Duration{moves: bonus}
	seen, out := make(map[string]bool), make(map[relay.AlertKind][]string)
	p.look = func() {
		for _, a := range p.stage.Board(1).Alerts {
			if !seen[a.ID] {
				seen[a.ID] = true
				out[a.Kind] = append(out[a.Kind], fmt.Sprintf("%s %d", a.Side, p.plies))
			}
		}
	}
	for range plies {
		p.move()
	}
	if b := p.stage.Board(1); b.Left(clock.White, p.stage.Now) < bonus {
		t.Fatalf("White has %v: the control was not passed", b.Left(clock.White, p.stage.Now))
	}
	return out
}
