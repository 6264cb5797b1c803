package relay_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// shuffle is a game of any length without captures or checks.
func shuffle(plies int) []string {
	turns := [2][]string{{"Nf3", "Ng1"}, {"Nf6", "Ng8"}}
	out := []string{"e4", "e5"}
	for i := 2; i < plies; i++ {
		out = append(out, turns[i%2][(i/2+1)%2])
	}
	return out[:plies]
}

// pace is what a side spends on its own move number.
type pace func(own int) time.Duration

func always(d time.Duration) pace { return func(int) time.Duration { return d } }

// watched plays a shuffle with these paces, each move arriving when it was played, and
// returns between which plies alerts of each kind and side stood, as "side first-last".
func watched(t *testing.T, control string, start, inc time.Duration, plies int, paces [2]pace, each func(*relaytest.Stage)) map[relay.AlertKind][]string {
	t.Helper()
	s := relaytest.NewStage()
	game := relaytest.Game{Control: control}
	left := [2]time.Duration{start, start}
	first, last := make(map[string]int), make(map[string]int)
	kinds := make(map[string]relay.AlertKind)
	var order []string
	moves := shuffle(plies)
	for i := range moves {
		own := i/2 + 1
		spent := paces[i%2](own)
		left[i%2] += inc - spent
		game.Moves = strings.Join(moves[:i+1], " ")
		game.Clocks = append(game.Clocks, fmt.Sprintf("%d:%02d:%02d", int(left[i%2].Hours()), int(left[i%2].Minutes())%60, int(left[i%2].Seconds())%60))
		s.Same(spent.Truncate(time.Second))
		s.Take(game.PGN())
		if each != nil {
			each(s)
		}
		for _, a := range s.Board(1).Alerts {
			if _, seen := first[a.ID]; !seen {
				first[a.ID], kinds[a.ID] = i+1, a.Kind
				order = append(order, a.ID)
			}
			last[a.ID] = i + 1
		}
	}
	out := make(map[relay.AlertKind][]string)
	for _, id := range order {
		side := "white"
		if strings.Contains(id, "-black") {
			side = "black"
		}
		out[kinds[id]] = append(out[kinds[id]], fmt.Sprintf("%s %d-%d", side, first[id], last[id]))
	}
	return out
}

func quickThen(quick time.Duration, from int, slow time.Duration) pace {
	return func(own int) time.Duration {
		if own < from {
			return quick
		}
		return slow
	}
}

func wantAlert(t *testing.T, got map[relay.AlertKind][]string, kind relay.AlertKind, want ...string) {
	t.Helper()
	if fmt.Sprint(got[kind]) != fmt.Sprint(want) {
		t.Errorf("%s stood at plies %v, want %v; all: %v", kind, got[kind], want, got)
	}
}

// TestIncrementAndFlag: a clock that lives on its increment is told so, and again that
// its flag is near; both end when it has recovered by a quarter.
func TestIncrementAndFlag(t *testing.T) {
	white := func(own int) time.Duration {
		switch {
		case own <= 10:
			return 60 * time.Second // 10 min + 5 s: 50 s left
		case own <= 12:
			return 24 * time.Second // 12 s left
		case own <= 18:
			return 5 * time.Second // on the increment
		case own == 19:
			return 9 * time.Second // 8 s: the flag is near
		}
		return time.Second // recovers
	}
	got := watched(t, "600+5", 10*time.Minute, 5*time.Second, 60, [2]pace{white, always(5 * time.Second)}, nil)
	for _, kind := range []relay.AlertKind{relay.AlertOnIncrement, relay.AlertFlagNear} {
		if len(got[kind]) != 1 || !strings.HasPrefix(got[kind][0], "white") || strings.HasSuffix(got[kind][0], "-60") {
			t.Errorf("%s: %v, want it raised and cleared once for White", kind, got[kind])
		}
	}
}

// TestToControl: moves to the control are counted for a side that is short of time for
// them, until it is there.
func TestToControl(t *testing.T) {
	got := watched(t, "20/600:600", 10*time.Minute, 0, 44, [2]pace{quickThen(50*time.Second, 12, 4*time.Second), always(5 * time.Second)}, nil)
	alerts := got[relay.AlertToControl]
	if len(alerts) != 1 || !strings.HasPrefix(alerts[0], "white ") || !strings.HasSuffix(alerts[0], "-38") {
		t.Errorf("stood at %v, want once for White, up to ply 38, behind which move 20 makes the control", alerts)
	}
}

// TestFirstThink: the first real think of a side that did not leave preparation with it
// is told with its move, for four plies.
func TestFirstThink(t *testing.T) {
	white := func(own int) time.Duration {
		if own == 9 {
			return 3 * time.Minute
		}
		return 18 * time.Second
	}
	got := watched(t, "900+10", 15*time.Minute, 10*time.Second, 26, [2]pace{white, always(3 * time.Second)}, nil)
	wantAlert(t, got, relay.AlertFirstThink, "white 17-20")
}

// TestCatchingUp: a lead is told, and that the other side has made it up.
func TestCatchingUp(t *testing.T) {
	white, black := quickThen(3*time.Second, 16, 40*time.Second), quickThen(30*time.Second, 16, 3*time.Second)
	got := watched(t, "900+10", 15*time.Minute, 10*time.Second, 56, [2]pace{white, black}, nil)
	if lead := got[relay.AlertClockLead]; len(lead) == 0 || !strings.HasPrefix(lead[0], "white") {
		t.Errorf("lead: %v, want White's first", lead)
	}
	if closing := got[relay.AlertCatchingUp]; len(closing) != 1 || !strings.HasPrefix(closing[0], "black") {
		t.Errorf("catching up: %v, want Black once", closing)
	}
}

// TestQuickUnknown: a quick move outside the reference is told until a slower one comes.
func TestQuickUnknown(t *testing.T) {
	known := map[int]relay.Known{}
	for ply := range 11 {
		known[ply] = relay.Known{Games: 40}
	}
	for ply := 11; ply < 40; ply++ {
		known[ply] = relay.Known{}
	}
	look := func(s *relaytest.Stage) { s.Apply(answer(s, known)) }
	got := watched(t, "900+10", 15*time.Minute, 10*time.Second, 24, [2]pace{quickThen(2*time.Second, 9, 45*time.Second), always(40 * time.Second)}, look)
	if quick := got[relay.AlertQuickUnknown]; len(quick) != 1 || !strings.HasPrefix(quick[0], "white 11-") || !strings.HasSuffix(quick[0], "-16") {
		t.Errorf("quick in the unknown: %v, want White from ply 11 until its think at ply 17", quick)
	}
}

// TestClockDoubtful: a reading that contradicts the others, and is taken back with the
// next, is told until two have agreed.
func TestClockDoubtful(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Control: "600"}
	moves := shuffle(16)
	var stood []int
	for i := range moves {
		text := fmt.Sprintf("0:09:%02d", 58-2*(i/2))
		if i == 6 {
			text = "0:10:59" // a clock without increment does not rise
		}
		game.Moves, game.Clocks = strings.Join(moves[:i+1], " "), append(game.Clocks, text)
		s.Take(game.PGN())
		if a, ok := alertOf(s.Board(1), relay.AlertClockDoubtful); ok {
			stood = append(stood, i+1)
			if a.Side != "white" || a.Say.Evidence == "" {
				t.Errorf("%+v", a)
			}
		}
	}
	if fmt.Sprint(stood) != "[7 8 9 10]" {
		t.Errorf("stood after plies %v, want 7 to 10: White's readings at 9 and 11 agree", stood)
	}
}
