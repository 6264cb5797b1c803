package tell

import (
	"slices"
	"time"
)

// paces keeps a side's last timed moves, the newest overwriting the oldest.
type paces struct {
	millis   [32]int32
	thinking uint32 // bit i: millis[i] was thought out
	count    int    // of all moves added
}

const kept = 32 // length of paces.millis

func (p *paces) add(d time.Duration, thinking bool) {
	at := p.count % kept
	p.millis[at] = int32(min(d.Milliseconds(), 1<<31-1))
	p.thinking &^= 1 << at
	if thinking {
		p.thinking |= 1 << at
	}
	p.count++
}

// last collects up to n of the newest into buf, only those thought out if asked.
func (p *paces) last(buf *[kept]int32, n int, thinking bool) []int32 {
	got := buf[:0]
	for i := p.count - 1; i >= max(0, p.count-kept) && len(got) < n; i-- {
		if !thinking || p.thinking&(1<<(i%kept)) != 0 {
			got = append(got, p.millis[i%kept])
		}
	}
	return got
}

// median returns the median of up to n of the newest, 0 if there are none.
func (p *paces) median(n int, thinking bool) time.Duration {
	var buf [kept]int32
	got := p.last(&buf, n, thinking)
	if len(got) == 0 {
		return 0
	}
	slices.Sort(got)
	middle := len(got) / 2
	sum := int64(got[middle]) + int64(got[(len(got)-1)/2])
	return time.Duration(sum) * time.Millisecond / 2
}

// mean returns the mean of up to n of the newest, 0 if there are none.
func (p *paces) mean(n int) time.Duration {
	var buf [kept]int32
	got := p.last(&buf, n, false)
	if len(got) == 0 {
		return 0
	}
	sum := int64(0)
	for _, ms := range got {
		sum += int64(ms)
	}
	return time.Duration(sum/int64(len(got))) * time.Millisecond
}
