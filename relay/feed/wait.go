package feed

import (
	"context"
	"net/http"
	"strconv"
	"strings"
	"time"
)

// pause waits for d or the end of ctx.
func pause(ctx context.Context, d time.Duration) {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
	case <-ctx.Done():
	}
}

// afterAnswer is the wait that keeps a rhythm of beat: an exchange that took took
// leaves the rest of it, but always a tenth of Every, so that a slow server gets air.
func (o HTTPOptions) afterAnswer(beat, took time.Duration) time.Duration {
	return max(beat-took, o.Every/10)
}

// rhythm is how an HTTP source slows down while nothing goes on.
type rhythm struct {
	beat  time.Duration // from one request to the next
	newAt time.Time     // when the last new body came
}

// next is the beat after an answer at now. It grows by a quarter each time, so that
// a game which begins after a short break is still met at a quick step.
func (r *rhythm) next(o HTTPOptions, now time.Time, isNew bool) time.Duration {
	if isNew {
		r.newAt = now
	}
	if now.Sub(r.newAt) < IdleAfter || o.Busy() {
		r.beat = o.Every
	} else {
		r.beat = min(r.beat+r.beat/4, o.Idle)
	}
	return r.beat
}

// jitter is how far a back-off is spread either way, so that many clients of
// one server do not come back as one.
const jitter = 0.2

// afterFault is the wait after the n-th fault in a row, n from 1.
func (o HTTPOptions) afterFault(n int, f *failure) time.Duration {
	if f.retryAfter >= 0 {
		return min(max(f.retryAfter, o.Every), o.MaxWait)
	}
	wait := o.Every
	for i := 1; i < n && wait < o.MaxWait; i++ {
		if wait > o.MaxWait/2 {
			wait = o.MaxWait
			break
		}
		wait *= 2
	}
	spread := 1 - jitter + 2*jitter*o.Rand()
	return min(time.Duration(float64(wait)*spread), o.MaxWait)
}

// retryAfter reads Retry-After, which is a number of seconds or a date
// [RFC 9110 §10.2.3], and returns -1 when it says nothing. A date is measured
// from the answer's own Date where there is one, so that the two machines' clocks
// need not agree.
func retryAfter(h http.Header, now time.Time) time.Duration {
	value := strings.TrimSpace(h.Get("Retry-After"))
	if value != "" && strings.Trim(value, "0123456789") == "" {
		n, err := strconv.ParseInt(value, 10, 32)
		if err != nil { // too many digits: as long as possible
			n = 1<<31 - 1
		}
		return time.Duration(n) * time.Second
	}
	until, err := http.ParseTime(value)
	if err != nil {
		return -1
	}
	if date, err := http.ParseTime(h.Get("Date")); err == nil {
		now = date
	}
	return max(0, until.Sub(now))
}
