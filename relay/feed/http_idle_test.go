package feed

import (
	"net/http"
	"testing"
	"testing/synctest"
	"time"
)

// The quarter by which waits grow, the minute before and the 5 s at the end are asked for of
// this program, from no outside source.
func TestHTTPSlowsDownWhenIdle(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: text(pgn)}
		a.listen(t, HTTPOptions{Busy: func() bool { return false }}, &recorder{limit: 72})
		got := gaps(a)
		for i := range 60 {
			if got[i] != sec {
				t.Errorf("gap %d within the first minute: got %v, want 1s", i+1, got[i])
			}
		}
		want := []time.Duration{1250 * ms, 1562500 * time.Microsecond, 1953125 * time.Microsecond}
		for i, gap := range want {
			if got[60+i] != gap {
				t.Errorf("gap %d: got %v, want %v", 61+i, got[60+i], gap)
			}
		}
		for i := 68; i < 71; i++ {
			if got[i] != DefaultIdle {
				t.Errorf("gap %d: got %v, want %v", i+1, got[i], DefaultIdle)
			}
		}
	})
}

func TestHTTPRhythmReturns(t *testing.T) {
	changing := func(n int) []http.HandlerFunc {
		same := make([]http.HandlerFunc, n)
		for i := range same {
			same[i] = text("a")
		}
		return append(same, text("b"))
	}
	for name, row := range map[string]struct {
		o       HTTPOptions
		handler http.HandlerFunc
		from    int // the gap from which on it is Every again
	}{
		"with a new body":                        {HTTPOptions{Busy: func() bool { return false }}, inTurn(changing(70)...), 70},
		"when a game is on":                      {HTTPOptions{Busy: busyFrom(15)}, text("a"), 75},
		"never left without Busy":                {HTTPOptions{}, text("a"), 0},
		"never left while busy":                  {HTTPOptions{Busy: func() bool { return true }}, text("a"), 0},
		"never left with Idle as short as Every": {HTTPOptions{Idle: sec, Busy: func() bool { return false }}, text("a"), 0},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				a := &arena{handler: row.handler}
				a.listen(t, row.o, &recorder{limit: 90})
				for i, gap := range gaps(a) {
					if i >= row.from && gap != sec || row.from > 0 && i == row.from-1 && gap == sec {
						t.Errorf("gap %d is %v; want 1s from gap %d on, and longer before", i+1, gap, row.from+1)
					}
				}
			})
		})
	}
}

// busyFrom is a Busy that tells of a game from its n-th call on.
func busyFrom(n int) func() bool {
	return func() bool { n--; return n < 0 }
}

// A fault has its own rhythm, and the idle one goes on after it.
func TestHTTPIdleThroughAFault(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		hs := make([]http.HandlerFunc, 70)
		for i := range hs {
			hs[i] = text("a")
		}
		a := &arena{handler: inTurn(append(hs, status(500), status(500), text("a"))...)}
		a.listen(t, HTTPOptions{Busy: func() bool { return false }}, &recorder{limit: 74})
		got := gaps(a)[69:]
		if got[0] != DefaultIdle || got[1] != sec || got[2] != 2*sec || got[3] != DefaultIdle {
			t.Errorf("got %v, want the idle wait, two back-offs and the idle wait", got)
		}
	})
}

func TestHTTPIdleOptions(t *testing.T) {
	const host = "http://arena.example/g"
	want := "feed http://arena.example/g: longest idle wait 2s is shorter than every 3s; make it at least as long"
	if _, err := NewHTTP(HTTPOptions{URL: host, Every: 3 * sec, Idle: 2 * sec}); err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	for every, want := range map[time.Duration]time.Duration{0: DefaultIdle, 8 * sec: 8 * sec} {
		if h, err := NewHTTP(HTTPOptions{URL: host, Every: every}); err != nil || h.o.Idle != want {
			t.Errorf("every %v: got %v, %v, want %v", every, h.o.Idle, err, want)
		}
	}
}
