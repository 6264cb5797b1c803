package tell

import (
	"testing"
	"time"

	"clocktell/relay/clock"
)

// While the clock runs the probability never falls, nothing is said in the first
// seconds, and a long think turns the verdict before the move is made.
func TestRunning(t *testing.T) {
	f := quickly(t, 13)
	standing := f.Call(clock.White)
	if c := f.Running(clock.White, sec, Quiet, 30); c.Thinking != standing.Thinking || c.Verdict != InPreparation || !c.Provisional {
		t.Errorf("after 1 s: %v at %.3f, want what stood: %.3f", c.Verdict, c.Thinking, standing.Thinking)
	}
	last := standing
	for e := time.Duration(0); e < 5*time.Minute; e += sec {
		c := f.Running(clock.White, e, Quiet, 30)
		if c.Thinking < last.Thinking || (last.Verdict == Thinking && c.Verdict != Thinking) {
			t.Fatalf("after %v: %v at %.4f, a second ago %v at %.4f", e, c.Verdict, c.Thinking, last.Verdict, last.Thinking)
		}
		last = c
	}
	if last.Verdict != Thinking || last.Evidence() != "longest think so far" {
		t.Errorf("after five minutes: %v, %q", last.Verdict, last.Evidence())
	}
}

// A verdict given on a running clock stands when the move is made that moment.
func TestRunningHolds(t *testing.T) {
	f := quickly(t, 13)
	for e := time.Duration(0); e < 5*time.Minute; e += sec {
		c := f.Running(clock.White, e, Quiet, 30)
		m := Move{Ply: 29, Spent: e, Quality: clock.QualityRead, Left: 500 * sec}
		if made := f.Next(m).Call(clock.White); c.Verdict == Thinking && made.Verdict != Thinking {
			t.Fatalf("after %v: said thinking at %.4f, then %v at %.4f", e, c.Thinking, made.Verdict, made.Thinking)
		}
	}
}

// An only move, time trouble and a first timed move keep what stood.
func TestRunningSilent(t *testing.T) {
	f := quickly(t, 6)
	low := f
	low.sides[0].left = 50 * sec
	for name, c := range map[string]Call{
		"only move": f.Running(clock.White, time.Minute, Quiet, 1),
		"low clock": low.Running(clock.White, time.Minute, Quiet, 30),
	} {
		if c.Thinking != f.Call(clock.White).Thinking || c.Verdict != InPreparation {
			t.Errorf("%s: %v at %.3f, want what stood", name, c.Verdict, c.Thinking)
		}
	}
	if c := quickly(t, 0).Running(clock.White, 9*time.Minute, Quiet, 30); c.Verdict != Early || c.Shade() != "too early to say" {
		t.Errorf("second own move, the first with a time: %v, %q", c.Verdict, c.Shade())
	}
	if c := quickly(t, 2).Running(clock.White, 9*time.Minute, Quiet, 30); c.Verdict != Thinking {
		t.Errorf("nine minutes on the fourth own move: %v at %.3f, want thinking", c.Verdict, c.Thinking)
	}
}

// The move under way stands to the reference as the last one played: outside it the
// chance of thinking is greater.
func TestRunningReference(t *testing.T) {
	f := quickly(t, 6)
	reply := func(k Knowledge) float64 {
		g := f.Next(Move{Ply: 14, Side: clock.Black, Spent: 2 * sec, Quality: clock.QualityRead, Known: k})
		return g.Running(clock.White, 10*sec, Quiet, 30).Thinking
	}
	if in, none, out := reply(InReference), reply(NoReference), reply(FirstOutside); !(in < none && none < out) {
		t.Errorf("thinking %.3f in the reference, %.3f without, %.3f outside; want them to rise", in, none, out)
	}
}

func TestNextPly(t *testing.T) {
	f := New(control(t, "600+5"))
	g := f.Next(Move{Ply: 1})
	h := g.Next(Move{Ply: 2, Side: clock.Black})
	black := f.Next(Move{Ply: 1, Side: clock.Black}) // a set-up position with Black to move
	tests := []struct {
		f    Filter
		s    clock.Side
		want int
	}{
		{f, clock.White, 1}, {f, clock.Black, 2}, {g, clock.Black, 2}, {g, clock.White, 3},
		{h, clock.White, 3}, {h, clock.Black, 4}, {black, clock.White, 2},
	}
	for i, tt := range tests {
		if got := tt.f.nextPly(tt.s); got != tt.want {
			t.Errorf("case %d: %v next at ply %d, want %d", i, tt.s, got, tt.want)
		}
	}
}

// The rule of LongThinkAfter, worked out by hand.
func TestLongThinkAfter(t *testing.T) {
	slow := game(New(control(t, "600+5")), []int{30, 40, 30, 40}, nil)
	tests := []struct {
		name string
		f    Filter
		want time.Duration
	}{
		{"10+5 before a move: 4 x .4 x 20 s", New(control(t, "600+5")), 32 * sec},
		{"10+5 at 2 s a move: the floor", quickly(t, 6), 30 * sec},
		{"10+5 at 35 s a move", slow[len(slow)-1], 140 * sec},
		{"two hours at 2 s a move: 2 %", after(t, "40/7200:3600", 2, 2, 2), 144 * sec},
		{"3+2 before a move: 4 x .4 x 6.5 s", New(control(t, "180+2")), 10400 * time.Millisecond},
		{"unknown control: 15+10, 4 x .4 x 32.5 s", New(clock.Control{}), 52 * sec},
	}
	for _, tt := range tests {
		if got := tt.f.LongThinkAfter(clock.White); (got - tt.want).Abs() > time.Millisecond {
			t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
		}
	}
}
