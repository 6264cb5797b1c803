package tell

import (
	"math"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// Thinking holds for one own move and goes with the second, preparation gives way to
// it at once: rules of Verdict.
func TestHold(t *testing.T) {
	p := &standard
	s := side{timed: 9, thinking: .95, gathered: p.enterSum}
	steps := []struct {
		thinking float64
		want     Verdict
	}{
		{.95, Thinking}, {.10, Thinking}, {.25, Thinking}, {.10, InPreparation}, {.95, Thinking}, {.95, Thinking},
		{.5, Thinking}, {.21, Thinking}, {.2, InPreparation}, {.3, InPreparation}, {.6, Early}, {.85, Early}, {.4, InPreparation},
	}
	for i, step := range steps {
		s.thinking, s.ply = step.thinking, i
		s.announce(p, 10*time.Minute)
		if s.verdict != step.want {
			t.Errorf("step %d at %.2f: got %v, want %v", i, step.thinking, s.verdict, step.want)
		}
	}
}

// Thinking needs the evidence of the moves, and two of them; preparation three, and it
// stays while nothing but the ply speaks against it.
func TestEntering(t *testing.T) {
	p := &standard
	tests := []struct {
		s    side
		want Verdict
	}{
		{side{timed: 2, thinking: .95, gathered: 1.5}, Thinking},
		{side{timed: 1, thinking: .95, gathered: 1.5}, Early},
		{side{timed: 20, thinking: .99, gathered: 1.4}, Early},
		{side{timed: 20, thinking: .99, gathered: 1.4, verdict: Thinking}, Thinking},
		{side{timed: 20, thinking: .89, gathered: 9}, Early},
		{side{timed: 3, thinking: .1}, InPreparation},
		{side{timed: 2, thinking: .1}, Early},
		{side{timed: 9, thinking: .74, gathered: 1.4}, Early},
		{side{timed: 9, thinking: .74, gathered: 1.4, verdict: InPreparation}, InPreparation},
		{side{timed: 9, thinking: .74, gathered: 1.5, verdict: InPreparation}, Early},
		{side{timed: 9, thinking: .75, verdict: InPreparation}, Early},
		{side{timed: 9, thinking: .1, verdict: InPreparation, cost: 150 * sec}, Early},
	}
	for _, tt := range tests {
		if got := tt.s.want(p, 10*time.Minute); got != tt.want {
			t.Errorf("%+v: got %v, want %v", tt.s, got, tt.want)
		}
	}
}

// Evidence gathers and never falls below nothing (Page 1954, as cited in the project
// notes), so what spoke for preparation long ago does not weigh against a think.
func TestGathered(t *testing.T) {
	f := quickly(t, 12)
	if got := f.sides[0].gathered; got != 0 {
		t.Fatalf("after twelve quick moves: gathered %.3f, want 0", got)
	}
	m := next(9)
	m.Ply = 27
	g := f.Next(m)
	want := g.sides[0].last.evidence
	m.Ply, m.Spent = 29, 12*sec
	h := g.Next(m)
	want += h.sides[0].last.evidence
	if got := h.sides[0].gathered; math.Abs(got-want) > 1e-9 || want < 1 {
		t.Errorf("after 9 s and 12 s: gathered %.3f, want %.3f", got, want)
	}
	slow := New(control(t, "600+5"))
	for ply := 1; ply < 80; ply += 2 { // 4 s a move: nothing is ever gathered
		slow = slow.Next(Move{Ply: ply, Spent: 4 * sec, Quality: clock.QualityRead, Left: 600 * sec})
		if c := slow.Call(clock.White); c.Verdict == Thinking {
			t.Fatalf("4 s a move: thinking after ply %d at %.3f by the ply alone", ply, c.Thinking)
		}
	}
}
