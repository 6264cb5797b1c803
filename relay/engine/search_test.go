package engine

import (
	"testing"
	"testing/synctest"
	"time"
)

// TestReports: of a long search the first depth that is useful is told at once, then what
// there is after one second and three, and the outcome.
func TestReports(t *testing.T) {
	for _, row := range []struct {
		given time.Duration
		took  []time.Duration
	}{
		{10 * time.Second, []time.Duration{beat, time.Second, 3 * time.Second, 10 * time.Second}},
		{2 * time.Second, []time.Duration{beat, time.Second, 2 * time.Second}},
		{50 * time.Millisecond, []time.Duration{50 * time.Millisecond}},
	} {
		synctest.Test(t, func(t *testing.T) {
			k := run(t, Options{open: piped(always("")), Lines: 3})
			k.Want([]Wish{wishFor(1, Newest, after(t), row.given)})
			time.Sleep(time.Minute)
			k.stop()
			close(k.answers)
			i := 0
			for a := range k.answers {
				k.usable(a)
				if i >= len(row.took) || a.Opinion.Took != row.took[i] || a.Opinion.Final != (i == len(row.took)-1) || a.Opinion.Given != row.given {
					t.Errorf("given %v, answer %d: after %v of %v, final %v; want %v", row.given, i+1, a.Opinion.Took, a.Opinion.Given, a.Opinion.Final, row.took)
				}
				i++
			}
			if i != len(row.took) {
				t.Errorf("given %v: %d answers, want %d", row.given, i, len(row.took))
			}
		})
	}
}

// TestStoppedForMoreUrgent: a search gives way at once, what it found so far is told, and
// it is begun anew later. One that nobody wants any more is stopped as well.
func TestStoppedForMoreUrgent(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		k := run(t, Options{open: piped(always(""))})
		past := wishFor(1, Past, after(t), 5*time.Second)
		k.Want([]Wish{past})
		time.Sleep(2 * time.Second)
		air := wishFor(2, OnAir, after(t, "e2e4"), 5*time.Second)
		k.Want([]Wish{past, air})
		synctest.Wait()
		if board := k.State().Board; board != 2 {
			t.Errorf("board %d is searched, want 2", board)
		}
		var cut Answer
		for len(k.answers) > 0 {
			cut = <-k.answers
		}
		if cut.Wish.Board != 1 || cut.Opinion.Final || len(cut.Opinion.Lines) == 0 {
			t.Errorf("the last answer is %+v, want what was found of board 1", cut)
		}
		if a := k.final(2); a.Opinion.Took != 5*time.Second {
			t.Errorf("the board on the air was searched for %v", a.Opinion.Took)
		}
		if a := k.final(1); a.Opinion.Took != 5*time.Second {
			t.Errorf("the past was searched for %v in the end", a.Opinion.Took)
		}
		k.Want([]Wish{wishFor(3, Newest, after(t, "d2d4"), time.Hour)})
		time.Sleep(time.Second)
		k.Want(nil)
		synctest.Wait()
		if state := k.State(); state.Board != 0 || state.Waiting != 0 {
			t.Errorf("state %+v, want nothing searched", state)
		}
		k.stop()
	})
}

// TestLimits: a search ends by time, by depth, by nodes, or only when it is stopped.
func TestLimits(t *testing.T) {
	for want, limit := range map[string]Limit{
		"go movetime 1500":               {Time: 1500 * time.Millisecond},
		"go depth 12":                    {Depth: 12},
		"go nodes 1000":                  {Nodes: 1000},
		"go infinite":                    {},
		"go movetime 20 depth 3 nodes 9": {Time: 20 * time.Millisecond, Depth: 3, Nodes: 9},
	} {
		if got := goText(limit); got != want {
			t.Errorf("%+v: %q, want %q", limit, got, want)
		}
	}
	longer, shorter := Limit{Time: 2 * time.Second}, Limit{Time: time.Second}
	if !longer.reaches(shorter) || shorter.reaches(longer) || !longer.reaches(longer) || (Limit{}).reaches(Limit{}) || longer.reaches(Limit{Depth: 3}) || !(Limit{Depth: 3}).reaches(Limit{Depth: 3}) {
		t.Error("a search does for one that is given no more, and none for one without end")
	}
}

// TestKnownAtOnce: a position is searched once, whichever board wants it, until more time
// is to be given to it.
func TestKnownAtOnce(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		k := run(t, Options{open: piped(always(""))})
		p := after(t, "e2e4")
		if known := k.Want([]Wish{wishFor(1, Newest, p, time.Second), wishFor(2, Newest, p, time.Second)}); len(known) > 0 {
			t.Errorf("known before anything was searched: %+v", known)
		}
		k.final(1)
		time.Sleep(time.Minute)
		known := k.Want([]Wish{wishFor(2, Newest, p, time.Second), wishFor(3, Deep, p, 2*time.Second)})
		if len(known) != 1 || known[0].Wish.Board != 2 || !known[0].Opinion.Final || known[0].Place != p.Hash() {
			t.Errorf("known: %+v, want the answer for board 2", known)
		}
		if a := k.final(3); a.Opinion.Given != 2*time.Second || k.State().Searches != 2 {
			t.Errorf("%v given, %d searches; want 2s, 2", a.Opinion.Given, k.State().Searches)
		}
		k.stop()
	})
}
