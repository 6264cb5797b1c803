package tell

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// game plays two lists of times, in seconds, the first side's first move untimed if
// its time is negative.
func game(f Filter, white, black []int) []Filter {
	list := []Filter{f}
	left := [2]time.Duration{f.controls[0].Start(), f.controls[1].Start()}
	for i := 0; i < 2*max(len(white), len(black)); i++ {
		side, spent := clock.Side(i%2), [][]int{white, black}[i%2]
		if i/2 >= len(spent) {
			continue
		}
		m := Move{Ply: i + 1, Side: side, Spent: time.Duration(spent[i/2]) * sec, Quality: clock.QualityRead}
		if m.Spent < 0 {
			m.Spent, m.Quality = 0, clock.QualityNone
		} else {
			left[side] += f.controls[side].Increment(i/2+1) - m.Spent
		}
		m.Left = left[side]
		f = f.Next(m)
		list = append(list, f)
	}
	return list
}

var (
	prepared = []int{-1, 2, 1, 3, 2, 4, 2, 5, 1, 3, 2, 4, 3, 2, 160}
	alone    = []int{-1, 3, 2, 4, 3, 25, 60, 90, 40, 150, 35, 75, 50, 28, 30}
)

// A story at 10+5, invented: White recites fourteen moves and then thinks for 160 s,
// Black is alone from move 6. Common practice, no source.
func TestStory(t *testing.T) {
	games := game(New(control(t, "600+5")), prepared, alone)
	after := func(move int, s clock.Side) Call { return games[2*move-1+int(s)].Call(s) }
	for move := 4; move <= 14; move++ {
		if c := after(move, clock.White); c.Verdict != InPreparation {
			t.Errorf("White after move %d: %v at %.3f, want in preparation", move, c.Verdict, c.Thinking)
		}
	}
	for move := 1; move <= 3; move++ {
		if c := after(move, clock.White); c.Verdict != Early || c.Shade() != "too early to say" {
			t.Errorf("White after move %d: %v, want too early to say", move, c.Verdict)
		}
	}
	last := after(15, clock.White)
	if last.Verdict != Thinking || last.Before != InPreparation || last.Since != 29 {
		t.Errorf("White after 160 s: %v at %.3f since ply %d, before %v", last.Verdict, last.Thinking, last.Since, last.Before)
	}
	if last.Evidence() != "longest so far, 2:40" {
		t.Errorf("evidence: %q", last.Evidence())
	}
	for move := 8; move <= 15; move++ {
		if c := after(move, clock.Black); c.Verdict != Thinking {
			t.Errorf("Black after move %d: %v at %.3f, want thinking", move, c.Verdict, c.Thinking)
		}
	}
	if c := after(10, clock.White); c.Evidence() != "9 moves, 0:22 gained" || c.Shade() != "in preparation" {
		t.Errorf("White after move 10: %q, %q", c.Evidence(), c.Shade())
	}
}

// Common practice, no source: with an increment, a clock above its start after eight
// quick moves is preparation.
func TestAboveStart(t *testing.T) {
	for _, text := range []string{"600+5", "900+10", "180+2", "300+3", "5400+30"} {
		spent := []int{1, 2, 1, 3, 2, 1, 2, 1}
		if c := control(t, text); c.Increment(1) == 2*sec {
			spent = []int{1, 1, 1, 2, 1, 1, 2, 1}
		}
		games := game(New(control(t, text)), spent, spent)
		for side := clock.White; side <= clock.Black; side++ {
			c := games[16].Call(side)
			if c.Gained <= 0 || c.Verdict != InPreparation {
				t.Errorf("%s %v: gained %v, %v at %.3f; want in preparation", text, side, c.Gained, c.Verdict, c.Thinking)
			}
		}
	}
}

// Common practice, no source: a quarter of the base time gone in eight moves is not
// preparation, and a long think among the last of them is thinking.
func TestQuarterGone(t *testing.T) {
	tests := []struct {
		name  string
		spent []int
		want  Verdict // Early: only that it is not in preparation
		least float64
	}{
		{"spread", []int{5, 10, 15, 20, 25, 25, 25, 25}, Thinking, .9},
		{"one long think at the end", []int{2, 2, 2, 2, 2, 2, 2, 140}, Early, .5},
		{"long thinks", []int{2, 2, 3, 2, 3, 60, 2, 80}, Thinking, .9},
		{"long think, then thought", []int{2, 2, 3, 2, 90, 20, 15, 20}, Thinking, .9},
		{"long think, then quick again", []int{2, 2, 140, 2, 2, 2, 2, 2}, Early, 0},
	}
	for _, tt := range tests {
		c := game(New(control(t, "600+5")), tt.spent, nil)[8].Call(clock.White)
		t.Logf("%s: %v at %.3f", tt.name, c.Verdict, c.Thinking)
		if c.Verdict == InPreparation || c.Thinking < tt.least || (tt.want == Thinking && c.Verdict != Thinking) {
			t.Errorf("%s: %v at %.3f, want %v at %.2f or more", tt.name, c.Verdict, c.Thinking, tt.want, tt.least)
		}
	}
}

// The words of the story, as people will read them.
func TestWords(t *testing.T) {
	games := game(New(control(t, "600+5")), prepared, alone)
	last := games[29].Call(clock.White)
	if !strings.HasPrefix(last.Changed, "2:40 on move 15 after a median of 0:02: thinking ") {
		t.Errorf("changed: %q", last.Changed)
	}
	if c := games[13].Call(clock.White); !strings.HasPrefix(c.Changed, "0:02 on move 7 after a median of 0:02: thinking 17 ") {
		t.Errorf("a fall: %q", c.Changed)
	}
	for _, want := range []string{"2:40, over ten times its median of 2 s", "clock 2:04 below its start"} {
		if !strings.Contains(strings.Join(last.Reasons, "\n"), want) {
			t.Errorf("reasons %q lack %q", last.Reasons, want)
		}
	}
	for i, f := range games {
		for s := clock.White; s <= clock.Black; s++ {
			c := f.Call(s)
			t.Logf("%2d %v %-14v %-24s %.3f | %s | %s | %s", i, s, c.Verdict, c.Shade(), c.Thinking, c.Evidence(), strings.Join(c.Reasons, "; "), c.Changed)
		}
	}
}
