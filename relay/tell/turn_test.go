package tell

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// The story of TestStory: White recites and leaves on move 15 with 160 s, Black with 60 s
// on move 7. That is no long think yet by LongThinkAfter, two and a half times the 25 s
// thought before; the 150 s on move 10 are the first.
func TestTurn(t *testing.T) {
	games := game(New(control(t, "600+5")), prepared, alone)
	white, black := games[29].Call(clock.White), games[30].Call(clock.Black)
	if white.Turn != "left preparation on move 15 after 2:40" || white.FirstLong != 15 || white.FirstLongSpent != 160*sec {
		t.Errorf("White: %q, first long think of %v on move %d", white.Turn, white.FirstLongSpent, white.FirstLong)
	}
	if black.Turn != "left preparation on move 7 after 1:00" || black.FirstLong != 10 || black.FirstLongSpent != 150*sec {
		t.Errorf("Black: %q, first long think of %v on move %d", black.Turn, black.FirstLongSpent, black.FirstLong)
	}
	if c := games[27].Call(clock.White); c.Turn != "" || c.FirstLong != 0 || c.Returned {
		t.Errorf("White still reciting: %q, first long think on move %d, returned %v", c.Turn, c.FirstLong, c.Returned)
	}
	running := games[28].Running(clock.White, 160*sec, Quiet, 30)
	if running.Verdict != Thinking || running.Turn != "leaves preparation on move 15, over 2:30 so far" {
		t.Errorf("White's clock running for 160 s: %v, %q", running.Verdict, running.Turn)
	}
}

// Thinking from the start was never preparation left; a drift by many middling moves
// names no think. Quick moves long enough bring preparation back.
func TestTurnOtherwise(t *testing.T) {
	after := func(spent ...int) Call {
		list := game(New(control(t, "600+5")), spent, nil)
		return list[len(list)-1].Call(clock.White)
	}
	if c := after(-1, 40, 50, 60); c.Verdict != Thinking || c.Turn != "thinking since move 3" {
		t.Errorf("alone at once: %v, %q", c.Verdict, c.Turn)
	}
	c := after(-1, 2, 2, 2, 30, 25, 1, 1, 1, 1, 1)
	if c.Verdict != InPreparation || !c.Returned || c.Before != Thinking || !strings.HasPrefix(c.Turn, "back in preparation since move ") {
		t.Errorf("quick again after two thinks: %v at %.3f, before %v, %q", c.Verdict, c.Thinking, c.Before, c.Turn)
	}
	s := side{who: clock.White, verdict: Thinking, before: InPreparation, since: 23, ply: 23}
	s.last = step{outcome: counted, evidence: .6, move: Move{Ply: 23, Spent: 8 * sec}}
	s.noteTurn()
	if got := s.turn(); got != "left preparation by move 12" {
		t.Errorf("8 s that say little: %q", got)
	}
}

// A quick move in the unknown is one that nothing on the board called for.
func TestFastUnknown(t *testing.T) {
	f := quickly(t, 6)
	plain := next(1)
	plain.Known, plain.Legal = Outside, 30
	change := func(c func(m *Move)) Move {
		m := plain
		c(&m)
		return m
	}
	tests := []struct {
		name string
		m    Move
		want bool
	}{
		{"unknown", plain, true},
		{"first unknown", change(func(m *Move) { m.Known = FirstOutside }), true},
		{"legal moves unknown", change(func(m *Move) { m.Legal = 0 }), true},
		{"known", change(func(m *Move) { m.Known = InReference }), false},
		{"no reference", change(func(m *Move) { m.Known = NoReference }), false},
		{"recapture", change(func(m *Move) { m.Reply = Recapture }), false},
		{"rescue", change(func(m *Move) { m.Rescued = true }), false},
		{"three moves to choose from", change(func(m *Move) { m.Legal = 3 }), false},
		{"thought over", change(func(m *Move) { m.Spent = 9 * sec }), false},
		{"no time", change(func(m *Move) { m.Quality = clock.QualityNone }), false},
		{"on a low clock", change(func(m *Move) {}), false},
	}
	for _, tt := range tests {
		from := f
		if tt.name == "on a low clock" {
			from.sides[0].left = 50 * sec
		}
		c := from.Next(tt.m).Call(clock.White)
		says := strings.Contains(strings.Join(c.Reasons, "\n"), "1 move outside the reference games, the last in 1 s with nothing to hurry it") ||
			strings.Contains(strings.Join(c.Reasons, "\n"), "move 8 is the first outside the reference games, and took 1 s")
		if c.FastUnknown != tt.want || says != tt.want {
			t.Errorf("%s: flag %v, reasons %q; want %v", tt.name, c.FastUnknown, c.Reasons, tt.want)
		}
	}
}

// Lead, caught up: worked out by hand at 10+5, where a lead of two minutes is worth a
// word, half of five minutes is 2:30, and what stood goes above 3:07.5.
func TestClosing(t *testing.T) {
	f := New(control(t, "600+5"))
	play := func(f Filter, ply int, left time.Duration) Filter {
		return f.Next(Move{Ply: ply, Side: clock.Side((ply + 1) % 2), Left: left, Quality: clock.QualityRead, Spent: sec})
	}
	f = play(play(f, 1, 600*sec), 2, 300*sec)
	f = play(play(f, 3, 560*sec), 4, 290*sec) // 4:30 and the most was 5:00
	tests := []struct {
		white, black time.Duration
		stood, want  bool
		says         string
	}{
		{450 * sec, 290 * sec, false, false, ""}, // 2:40
		{450 * sec, 290 * sec, true, true, "black is catching up on the clock: 5:00 behind after move 1, 2:40 now"},
		{440 * sec, 290 * sec, false, true, "black is catching up on the clock: 5:00 behind after move 1, 2:30 now"},
		{478 * sec, 290 * sec, true, false, ""}, // 3:08
		{290 * sec, 290 * sec, false, true, "black has caught up on the clock: 5:00 behind after move 1, level now"},
		{270 * sec, 290 * sec, false, true, "black has caught up on the clock: 5:00 behind after move 1, 0:20 ahead now"},
	}
	for _, tt := range tests {
		got, ok := f.Closing([2]time.Duration{tt.white, tt.black}, tt.stood)
		if ok != tt.want || got.Reason != tt.says {
			t.Errorf("%v against %v, stood %v: %v, %q; want %v, %q", tt.white, tt.black, tt.stood, ok, got.Reason, tt.want, tt.says)
		}
	}
	over := play(play(f, 5, 100*sec), 6, 280*sec) // Black leads by three minutes
	if got, ok := over.Closing([2]time.Duration{100 * sec, 280 * sec}, true); ok {
		t.Errorf("a lead of its own: still %q", got.Reason)
	}
	small := play(play(New(control(t, "600+5")), 1, 600*sec), 2, 500*sec)
	if _, ok := small.Closing([2]time.Duration{500 * sec, 500 * sec}, false); ok {
		t.Error("a lead of 1:40 caught up: a word, want none")
	}
	if _, ok := New(clock.Control{}).Closing([2]time.Duration{0, 0}, false); ok {
		t.Error("unknown control: catching up")
	}
}

// TestNoGapAcrossControl: with the time for the control on one clock alone there is no
// lead to be made up: of 2/600:1800 White makes move 2 and has half an hour more.
func TestNoGapAcrossControl(t *testing.T) {
	f := New(control(t, "2/600:1800"))
	for ply, left := range []time.Duration{590 * sec, 590 * sec, 2380 * sec, 2380 * sec} {
		f = f.Next(Move{Ply: ply + 1, Side: clock.Side(ply % 2), Left: left, Quality: clock.QualityRead, Spent: 10 * sec})
	}
	if got, ok := f.Closing([2]time.Duration{2380 * sec, 2380 * sec}, false); ok {
		t.Errorf("%q, want nothing: nobody was ever behind", got.Reason)
	}
}
