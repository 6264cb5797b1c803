package engine

import (
	"errors"
	"net"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/relay/engine/enginetest"
)

// piped returns what opens the engine of the tests without a process: its time is that of
// a bubble. fault returns the fault of each life, from 1.
func piped(fault func(life int) string) func(Options) (*conn, error) {
	lives := 0
	return func(Options) (*conn, error) {
		lives++
		hears, in := net.Pipe()
		out, says := net.Pipe()
		over := make(chan struct{})
		go func(fault string) {
			defer close(over)
			enginetest.Play(hears, says, fault)
			says.Close()
		}(fault(lives))
		var once sync.Once
		kill := func() {
			once.Do(func() {
				for _, c := range []net.Conn{hears, in, out, says} {
					c.Close()
				}
			})
		}
		return &conn{ended: make(chan struct{}), in: in, out: out, nice: func() {}, kill: kill, wait: func() error { <-over; return errors.New("over") }}, nil
	}
}

func always(fault string) func(int) string { return func(int) string { return fault } }

// TestDeadlines: each silence of an engine has its limit.
func TestDeadlines(t *testing.T) {
	for _, row := range []struct {
		fault  string
		reason Reason
		after  time.Duration
	}{
		{"never uciok", FaultSilent, usual.start},
		{"never readyok", FaultSilent, usual.ready},
		{"never bestmove", FaultHang, time.Second + usual.overrun + usual.stop},
		{"ignores stop", FaultHang, time.Second + usual.overrun + usual.stop},
	} {
		synctest.Test(t, func(t *testing.T) {
			k := run(t, Options{open: piped(always(row.fault))})
			k.Want([]Wish{wishFor(1, Newest, after(t), time.Second)})
			began := time.Now()
			for k.State().Fault == "" {
				<-k.Changed()
			}
			took, state := time.Since(began), k.State()
			if state.Reason != row.reason || took < row.after || took > row.after+3*beat {
				t.Errorf("%s: %q after %v, want %q after %v", row.fault, state.Reason, took, row.reason, row.after)
			}
			k.stop()
		})
	}
}

// TestWaits: the waits between starts double up to a minute, are spread, and begin anew
// after a life that was sound.
func TestWaits(t *testing.T) {
	for _, row := range []struct{ rand, spread float64 }{{0.5, 1}, {0, 0.8}, {1, 1.2}} {
		synctest.Test(t, func(t *testing.T) {
			var starts []time.Time
			open := func(Options) (*conn, error) {
				starts = append(starts, time.Now())
				return nil, errors.New("there is none")
			}
			k := run(t, Options{open: open, Rand: func() float64 { return row.rand }})
			time.Sleep(10 * time.Minute)
			k.stop()
			for i, seconds := range []float64{1, 2, 4, 8, 16, 32, 60, 60} {
				want := time.Duration(seconds * row.spread * float64(time.Second))
				if got := starts[i+1].Sub(starts[i]); got != want {
					t.Errorf("wait %d with chance %v: %v, want %v", i+1, row.rand, got, want)
				}
			}
			if state := k.State(); state.Reason != FaultStart || state.Faults[FaultStart] != uint64(len(starts)) || state.Fault == "" {
				t.Errorf("state %+v after %d starts", state, len(starts))
			}
		})
	}
}

// TestSoundLife: after a minute in order a fault is the first again.
func TestSoundLife(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var starts []time.Time
		play := piped(func(life int) string { return map[bool]string{true: "never bestmove", false: "never uciok"}[life == 4] })
		open := func(o Options) (*conn, error) {
			starts = append(starts, time.Now())
			return play(o)
		}
		k := run(t, Options{open: open, Rand: func() float64 { return 0.5 }})
		k.Want([]Wish{wishFor(1, Newest, after(t), usual.sound)})
		time.Sleep(5 * time.Minute)
		k.stop()
		lived := []time.Duration{usual.start, usual.start, usual.start, usual.sound + usual.overrun + usual.stop}
		for i, wait := range []time.Duration{1, 2, 4, 1} {
			want := lived[i] + wait*time.Second
			if got := starts[i+1].Sub(starts[i]); got < want || got > want+3*beat {
				t.Errorf("start %d came %v after the one before, want %v", i+2, got, want)
			}
		}
	})
}

// TestSpoilt: a position that brings the engine down three times is left alone, and all
// others are searched.
func TestSpoilt(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		k := run(t, Options{open: piped(always(enginetest.Spoilt)), Rand: func() float64 { return 0.5 }})
		wishes := []Wish{
			wishFor(1, OnAir, after(t, "d2d4"), time.Second), wishFor(2, Newest, after(t), time.Second), wishFor(3, Newest, after(t, "e2e4"), time.Second),
		}
		k.Want(wishes)
		k.nextFinal(k.nextFinal(map[int]bool{2: true, 3: true}))
		time.Sleep(time.Minute)
		k.Want(wishes[:1])
		time.Sleep(time.Minute)
		if state := k.State(); state.Faults[FaultHang] != spoiltMost || state.Waiting != 0 || state.Since.IsZero() {
			t.Errorf("state %+v, want %d hangs and nothing that waits", state, spoiltMost)
		}
		k.stop()
	})
}
