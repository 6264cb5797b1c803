package relay_test

import (
	"strings"
	"testing"
	"time"
)

// thinksOf returns a pace with these thinks, by own move, and else the usual one.
func thinksOf(usual time.Duration, thinks map[int]time.Duration) pace {
	return func(own int) time.Duration {
		if d, ok := thinks[own]; ok {
			return d
		}
		return usual
	}
}

// TestLongThinkOfTheClock: a long think takes at least 8 % of the clock at the start of
// the turn, here of about 14 minutes; and so soon after another, half as much more.
func TestLongThinkOfTheClock(t *testing.T) {
	for _, test := range []struct {
		name   string
		thinks map[int]time.Duration
		want   int
	}{
		{"less than 8 %", map[int]time.Duration{12: 62 * time.Second}, 0},
		{"more than 8 %", map[int]time.Duration{12: 80 * time.Second}, 1},
		{"twice", map[int]time.Duration{12: 80 * time.Second, 14: 100 * time.Second}, 1},
		{"twice, much longer", map[int]time.Duration{12: 80 * time.Second, 14: 140 * time.Second}, 2},
		{"twice, far apart", map[int]time.Duration{12: 80 * time.Second, 17: 100 * time.Second}, 2},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := newPlayed(t, "900+10", 15*time.Minute, 10*time.Second, [2]pace{thinksOf(14*time.Second, test.thinks), always(12 * time.Second)})
			text := strings.Join(p.saidBy(36), "\n")
			if got := strings.Count(text, "Weiss is in a long think"); got != test.want {
				t.Errorf("said %d times, want %d:\n%s", got, test.want, text)
			}
		})
	}
}

// TestFirstThinkOnceSaid: a think that was said while it lasted is not said again when the
// move comes, however long it became; nor is a later one called the first.
func TestFirstThinkOnceSaid(t *testing.T) {
	for _, test := range []struct {
		name   string
		thinks map[int]time.Duration
		unseen int
		want   bool
	}{
		{"said while it lasted", map[int]time.Duration{9: 90 * time.Second}, 0, false},
		{"much longer", map[int]time.Duration{9: 180 * time.Second}, 0, false},
		{"nobody saw it", map[int]time.Duration{9: 180 * time.Second}, 17, true},
		{"not the first", map[int]time.Duration{9: 90 * time.Second, 14: 240 * time.Second}, 27, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := newPlayed(t, "900+10", 15*time.Minute, 10*time.Second, [2]pace{thinksOf(18*time.Second, test.thinks), always(3 * time.Second)})
			p.unseen = test.unseen
			text := strings.Join(p.saidBy(30), "\n")
			if strings.Contains(text, "first long think") != test.want || strings.Contains(text, "Weiss is in a long think on move nine") == test.want {
				t.Errorf("want the first think said: %v; said:\n%s", test.want, text)
			}
		})
	}
}

// TestLongThinkWithTimeInHand: with more than five minutes left nobody is said to think long before three
// quarters of a minute, nor before two budgets for a move; with less, a shorter think is long.
func TestLongThinkWithTimeInHand(t *testing.T) {
	for _, test := range []struct {
		start, think time.Duration
		want         bool
	}{
		{9 * time.Minute, 43 * time.Second, false}, {9 * time.Minute, 70 * time.Second, true}, {4 * time.Minute, 43 * time.Second, true},
	} {
		p := newPlayed(t, "540+3", test.start, 3*time.Second, [2]pace{thinksOf(4*time.Second, map[int]time.Duration{14: test.think}), always(4 * time.Second)})
		text := strings.Join(p.saidBy(30), "\n")
		if strings.Contains(text, "Weiss is in a long think") != test.want {
			t.Errorf("%v with %v: want it said: %v; said:\n%s", test.think, test.start, test.want, text)
		}
	}
}
