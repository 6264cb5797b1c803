package tell

import (
	"encoding/binary"
	"math"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// Whatever the moves, numbers stay numbers and rules stay rules.
func FuzzNext(f *testing.F) {
	f.Add("600+5", []byte("a quick brown move after another and then a long think"))
	f.Add("?", make([]byte, 200))
	f.Add("0+1", []byte{255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255})
	f.Add("40/7200:3600", []byte("\x00\x01\x02\x03\x04\x05\x06\x07\x08\x09\x0a\x0b\x0c\x0d\x0e\x0f\x10\x11\x12\x13\x14\x15\x16\x17"))
	f.Fuzz(func(t *testing.T, text string, data []byte) {
		c, _ := clock.ParseControl(text)
		filter := New(c)
		for i := 0; len(data) >= 12; i++ {
			m := hostile(data, i)
			data = data[12:]
			filter = filter.Next(m)
			check(t, filter, m)
		}
	})
}

// hostile makes a move of twelve bytes: mostly sane, sometimes not at all.
func hostile(b []byte, i int) Move {
	wide := func(at int, unit time.Duration) time.Duration {
		return time.Duration(int32(binary.LittleEndian.Uint32(b[at:]))) * unit
	}
	m := Move{
		Ply: i + 1, Side: clock.Side(i % 2), Spent: time.Duration(b[0]) * sec, Quality: clock.Quality(b[1] % 5),
		Left: time.Duration(b[2]) * 3 * sec, Reply: Reply(b[3] % 6), Legal: int(b[3]%40) - 2, Rescued: b[3]%3 == 0, Known: Knowledge(b[1] / 5 % 6),
	}
	switch b[4] % 8 {
	case 0:
		m.Spent, m.Left = wide(4, time.Hour), wide(8, time.Hour)
	case 1:
		m.Ply, m.Side, m.Resolution = int(wide(4, 1)), clock.Side(b[5]), wide(8, sec)
	case 2:
		m.Spent = math.MaxInt64
	case 3:
		m.Left, m.Ply = math.MinInt64, math.MaxInt64
	}
	return m
}

func check(t *testing.T, f Filter, m Move) {
	t.Helper()
	for side := clock.White; side <= clock.Black; side++ {
		for _, c := range []Call{f.Call(side), f.Running(side, m.Spent, m.Reply, m.Legal)} {
			if !(c.Thinking > 0 && c.Thinking < 1) {
				t.Fatalf("after %+v: thinking %v", m, c.Thinking)
			}
			least := map[Verdict]int{InPreparation: 3, Thinking: 2}[c.Verdict]
			if c.Provisional && c.Verdict == Thinking {
				least-- // the move under way is one
			}
			if c.Timed < least {
				t.Fatalf("after %+v: %v on %d timed moves", m, c.Verdict, c.Timed)
			}
			if c.Shade() == "" {
				t.Fatalf("after %+v: no shade", m)
			}
			_ = c.Evidence()
		}
		if f.LongThinkAfter(side) <= 0 {
			t.Fatalf("after %+v: long think after %v", m, f.LongThinkAfter(side))
		}
		tr := f.Trouble(side, m.Left, int(m.Reply)-1)
		if tr.Level < 0 || tr.Level > 3 || math.IsNaN(tr.Chance) || tr.Chance < 0 || tr.Chance > 1 || tr.Budget < 0 {
			t.Fatalf("after %+v: %+v", m, tr)
		}
	}
	f.Lead([2]time.Duration{m.Left, m.Spent}, m.Legal%2 == 0)
	f.Closing([2]time.Duration{m.Left, m.Spent}, m.Legal%2 == 0)
	for side := clock.White; side <= clock.Black; side++ {
		middle, low, high, ok := f.Projection(side, m.Left).At(own(m.Ply) + m.Legal)
		if ok && !(0 <= low && low <= middle && middle <= high) {
			t.Fatalf("after %+v: projected %v, from %v to %v", m, middle, low, high)
		}
	}
}
