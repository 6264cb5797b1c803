package relay_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
)

// TestFoundStart: a first reading an hour above the control is the start of that player,
// who plays many boards: no contradiction, no lead, and none of its thinks is news. One
// that the next reading takes back is no start, and one a little high is none either.
func TestFoundStart(t *testing.T) {
	for _, test := range []struct {
		name          string
		first, second time.Duration // more on White's clock from its first, its second move on
		found         bool
		doubt         bool
	}{
		{"odds of time", time.Hour, 0, true, false},
		{"a wrong reading", time.Hour, -time.Hour, false, true},
		{"a little more", 8 * time.Second, 0, false, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			white := func(own int) time.Duration {
				if own == 6 {
					return 3 * time.Minute
				}
				return 12 * time.Second
			}
			p := newPlayed(t, "900+10", 15*time.Minute, 10*time.Second, [2]pace{white, always(11 * time.Second)})
			p.left[0] += test.first
			text := p.saidBy(2)
			p.left[0] += test.second
			text = append(text, p.saidBy(16)...)
			said := strings.Join(text, "\n")
			if start := p.stage.Board(1).Control.For(clock.White).Start(); start > 20*time.Minute != test.found {
				t.Errorf("start %v", start)
			}
			if strings.Contains(said, "well ahead") && test.found || strings.Contains(said, "may be wrong") != test.doubt {
				t.Errorf("said:\n%s", said)
			}
			if strings.Contains(said, "caught up") || strings.Contains(said, "sixty minutes") {
				t.Errorf("of a wrong reading was said:\n%s", said)
			}
			if strings.Contains(said, "Weiss is in a long think") == test.found {
				t.Errorf("long think of a host said: %v\n%s", !test.found, said)
			}
		})
	}
}

// TestTimeAdded: a clock that jumps up and goes on evenly was put up (FIDE Laws 6.10.2),
// which is said with how much; one that falls back may be wrong; a few seconds are nothing.
func TestTimeAdded(t *testing.T) {
	const added, wrong = "Time was added to the clock of Weiss: at least two and a half minutes.", "The clock of Weiss may be wrong"
	for _, test := range []struct {
		name   string
		up     time.Duration // with White's eleventh move
		back   time.Duration // with its next
		added  bool
		doubts bool
	}{
		{"put up", 3*time.Minute + 10*time.Second, 0, true, false},
		{"a wrong reading", 3 * time.Minute, -3 * time.Minute, false, true},
		{"less than half a minute", 42 * time.Second, 0, false, false}, // of which the move took twelve
		{"seconds", 14 * time.Second, 0, false, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := newPlayed(t, "600+5", 10*time.Minute, 5*time.Second, [2]pace{always(12 * time.Second), always(12 * time.Second)})
			said := p.saidBy(20)
			p.left[0] += test.up
			said = append(said, p.saidBy(2)...)
			p.left[0] += test.back
			said = append(said, p.saidBy(4)...)
			text := strings.Join(said, "\n")
			if strings.Contains(text, added) != test.added || strings.Contains(text, wrong) != test.doubts {
				t.Errorf("said:\n%s", text)
			}
		})
	}
}

// TestNoGapByAddedTime: nobody catches up, or gets ahead, by time that is added to a clock.
func TestNoGapByAddedTime(t *testing.T) {
	p := newPlayed(t, "600+5", 10*time.Minute, 5*time.Second, [2]pace{always(24 * time.Second), always(6 * time.Second)})
	p.saidBy(40)
	if _, ok := alertOf(p.stage.Board(1), relay.AlertClockLead); !ok {
		t.Fatal("Black has no lead: the game shows too little")
	}
	p.left[0] += 8 * time.Minute
	text := strings.Join(p.saidBy(8), "\n")
	if strings.Contains(text, "the gap") || strings.Contains(text, "caught up") || strings.Contains(text, "Weiss is well ahead") {
		t.Errorf("said:\n%s", text)
	}
}

// TestTimeAddedAgain: of a clock that is put up every few moves that is said each time; with every move, it is
// no news.
func TestTimeAddedAgain(t *testing.T) {
	for gap, want := range map[int]int{4: 2, 10: 2} { // own moves apart
		p := newPlayed(t, "600+5", 10*time.Minute, 5*time.Second, [2]pace{always(12 * time.Second), always(12 * time.Second)})
		said := p.saidBy(20)
		p.left[0] += 2 * time.Minute
		said = append(said, p.saidBy(2*gap)...)
		p.left[0] += 4 * time.Minute
		said = append(said, p.saidBy(6)...)
		if got := strings.Count(strings.Join(said, "\n"), "Time was added"); got != want {
			t.Errorf("%d moves apart: said %d times, want %d:\n%s", gap, got, want, strings.Join(said, "\n"))
		}
	}
}

// TestTimeAddedSteadily: a clock that rises with every move is told of twice.
func TestTimeAddedSteadily(t *testing.T) {
	p := newPlayed(t, "600+5", 10*time.Minute, 5*time.Second, [2]pace{always(12 * time.Second), always(12 * time.Second)})
	said := p.saidBy(20)
	for i := range 6 {
		p.left[0] += time.Minute * time.Duration(1+i)
		said = append(said, p.saidBy(2)...)
	}
	slices.Sort(said)
	said = slices.Compact(said)
	if got := strings.Count(strings.Join(said, "\n"), "Time was added"); got != 2 {
		t.Errorf("said %d times, want 2:\n%s", got, strings.Join(said, "\n"))
	}
}
