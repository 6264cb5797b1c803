package feed

import (
	"net/http"
	"testing"
	"testing/synctest"
	"time"
)

// gaps are the times between the first n requests.
func gaps(a *arena) []time.Duration {
	var d []time.Duration
	for i := 1; i < len(a.asked); i++ {
		d = append(d, a.asked[i].Sub(a.asked[i-1]))
	}
	return d
}

func wantGaps(t *testing.T, a *arena, want ...time.Duration) {
	t.Helper()
	got := gaps(a)
	if len(got) != len(want) {
		t.Fatalf("got gaps %v, want %v", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("gap %d: got %v, want %v (all: %v)", i+1, got[i], want[i], got)
		}
	}
}

// after answers d later.
func after(d time.Duration, then http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		select {
		case <-time.After(d):
			then(w, r)
		case <-r.Context().Done():
		}
	}
}

// From one request to the next: Every, or the exchange and a tenth of Every.
func TestHTTPRhythm(t *testing.T) {
	for took, want := range map[time.Duration]time.Duration{
		0:                       2 * time.Second,
		700 * time.Millisecond:  2 * time.Second,
		1800 * time.Millisecond: 2 * time.Second,
		1900 * time.Millisecond: 2100 * time.Millisecond,
		5 * time.Second:         5200 * time.Millisecond,
	} {
		synctest.Test(t, func(t *testing.T) {
			a := &arena{handler: after(took, text(pgn))}
			got := &recorder{limit: 3}
			begin := time.Now()
			a.listen(t, HTTPOptions{Every: 2 * time.Second}, got)
			wantGaps(t, a, want, want)
			if e := got.events[0]; e.took != took || e.at.Sub(begin) != took {
				t.Errorf("took %v at %v, want both %v", e.took, e.at.Sub(begin), took)
			}
		})
	}
}

func TestHTTPBackOffDoublesUpToMaxWait(t *testing.T) {
	const s = time.Second
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: inTurn(status(500), status(500), status(500), status(500), status(500), status(500), text(pgn), text(pgn), status(500), text(pgn))}
		a.listen(t, HTTPOptions{MaxWait: 10 * s}, &recorder{limit: 10})
		wantGaps(t, a, 1*s, 2*s, 4*s, 8*s, 10*s, 10*s, 1*s, 1*s, 1*s)
	})
}

// Retry-After stands outside the doubling, and is a fault like the others in it.
func TestHTTPBackOffAroundRetryAfter(t *testing.T) {
	const s = time.Second
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: inTurn(status(500), status(503, "Retry-After", "3"), status(500), text(pgn))}
		a.listen(t, HTTPOptions{}, &recorder{limit: 4})
		wantGaps(t, a, 1*s, 3*s, 4*s)
	})
}

func TestHTTPJitter(t *testing.T) {
	const ms = time.Millisecond
	for _, row := range []struct {
		rand float64
		want [3]time.Duration
	}{
		{0, [3]time.Duration{800 * ms, 1600 * ms, 1600 * ms}},
		{0.25, [3]time.Duration{900 * ms, 1800 * ms, 1800 * ms}},
		{0.75, [3]time.Duration{1100 * ms, 2000 * ms, 2000 * ms}}, // MaxWait holds
	} {
		synctest.Test(t, func(t *testing.T) {
			a := &arena{handler: status(500)}
			o := HTTPOptions{MaxWait: 2 * time.Second, Rand: func() float64 { return row.rand }}
			a.listen(t, o, &recorder{limit: 4})
			wantGaps(t, a, row.want[:]...)
		})
	}
}

// The server goes away between two polls, and its idle connection with it.
func TestHTTPServerGoesAwayAndComesBack(t *testing.T) {
	const s = time.Second
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: text(pgn)}
		got := &recorder{limit: 6, then: func(n int) {
			if n == 2 {
				a.goAway(3)
			}
		}}
		a.listen(t, HTTPOptions{}, got)
		wantGaps(t, a, 1*s, 1*s, 1*s, 2*s, 4*s)
		for i, want := range []Reason{"", "", ReasonConnect, ReasonConnect, ReasonConnect, ""} {
			if got.events[i].reason != want {
				t.Errorf("event %d: got %q, want %q", i+1, got.events[i].reason, want)
			}
		}
		if got.events[5].isNew {
			t.Error("the body known before is called new after the fault")
		}
	})
}

// Ending the context ends a request and a back-off at once, and is no fault.
func TestHTTPEndsWithItsContext(t *testing.T) {
	for name, row := range map[string]struct {
		handler http.HandlerFunc
		events  int
	}{
		"in a request":  {hangBeforeHeader, 0},
		"in a body":     {hangInBody, 0},
		"in a back-off": {status(503, "Retry-After", "30"), 1},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				a, got := &arena{handler: row.handler}, &recorder{during: 3 * time.Second}
				begin := time.Now()
				a.listen(t, HTTPOptions{}, got)
				if took := time.Since(begin); took != 3*time.Second || len(got.events) != row.events {
					t.Errorf("ended after %v with %d events, want 3s and %d", took, len(got.events), row.events)
				}
			})
		})
	}
}

func TestHTTPStampsWithNow(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		noon := time.Date(2031, 5, 1, 12, 0, 0, 0, time.UTC)
		a, got := &arena{handler: after(time.Second, text(pgn))}, &recorder{limit: 2}
		a.listen(t, HTTPOptions{Every: 3 * time.Second, Now: func() time.Time { return noon }}, got)
		if e := got.events[1]; !e.at.Equal(noon) || e.took != time.Second {
			t.Errorf("got at %v took %v, want Now's time and the true duration", e.at, e.took)
		}
		wantGaps(t, a, 3*time.Second) // waits do not follow Now
	})
}
