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
// move comes, unless it has become much longer; nor is a later one called the first.
func TestFirstThinkOnceSaid(t *testing.T) {
	for _, test := range []struct {
		name   string
		thinks map[int]time.Duration
		want   bool
	}{
		{"said while it lasted", map[int]time.Duration{9: 90 * time.Second}, false},
		{"much longer", map[int]time.Duration{9: 180 * time.Second}, true},
		{"not the first", map[int]time.Duration{9: 90 * time.Second, 14: 240 * time.Second}, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := newPlayed(t, "900+10", 15*time.Minute, 10*time.Second, [2]pace{thinksOf(18*time.Second, test.thinks), always(3 * time.Second)})
			text := strings.Join(p.saidBy(30), "\n")
			if strings.Contains(text, "first long think") != test.want || !strings.Contains(text, "Weiss is in a long think on move nine") {
				t.Errorf("want the first think said: %v; said:\n%s", test.want, text)
			}
		})
	}
}
