package main

import "time"

// steady returns a clock that goes on evenly from the wall's time now, as the relay's does,
// whatever becomes of the wall's.
func steady(start time.Time) func() time.Time {
	begun := start.Round(0)
	return func() time.Time { return begun.Add(time.Since(start)) }
}

// samplesKept is how many pongs a page's show time is worked out from.
const samplesKept = 8

// showTime is what a page knows of the relay's time: it lies between two bounds, since the
// relay's time in a pong was that after the ping was sent and before the pong came.
type showTime struct {
	least, most [samplesKept]time.Duration // of the relay's time less ours
	count       int
}

// sample takes the relay's time, in milliseconds, as told between two instants of ours.
func (s *showTime) sample(sent, came time.Time, now int64) {
	told := time.UnixMilli(now)
	at := s.count % samplesKept
	s.least[at] = told.Sub(came)
	s.most[at] = told.Add(time.Millisecond).Sub(sent) // the figure was cut to milliseconds
	s.count++
}

// bounds returns between which instants the relay's time is now; without a sample ok is false.
func (s *showTime) bounds(now time.Time) (least, most time.Time, ok bool) {
	n := min(s.count, samplesKept)
	if n == 0 {
		return least, most, false
	}
	low, high := s.least[0], s.most[0]
	for i := 1; i < n; i++ {
		low, high = max(low, s.least[i]), min(high, s.most[i])
	}
	return now.Add(low), now.Add(high), true
}
