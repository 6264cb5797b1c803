package feed

import (
	"bytes"
	"context"
	"errors"
	"time"
)

const (
	// growPause is how long a stream must bring no byte before what has come is taken
	// to be whole.
	growPause = 150 * time.Millisecond

	// growMost is how long bytes that flow without such a pause wait to be shown.
	growMost = time.Second

	// growGrace is how long a stream must bring no byte before content that is refused,
	// or shorter than what was delivered last, is taken as it is.
	growGrace = time.Second
)

var (
	errQuiet = errors.New("no byte for too long")
	errFull  = errors.New("more bytes than the limit allows")
)

// growth is content that grows, and what of it has been delivered. It outlives the
// stream that brings it: the next one begins the content afresh.
type growth struct {
	to       Sink
	every    time.Duration // how often a stream without news is reported
	patience time.Duration // from the beginning of a stream to content that check takes
	maxBytes int64
	check    func(body []byte) error
	notPGN   func(error) *failure
	now      func() time.Time // for stamps

	// Of the stream under way, owned by the goroutine in Run. Times are time.Now's but
	// for lastAt.
	content  []byte
	modified time.Time
	began    time.Time
	asked    time.Time // when the bytes not delivered began to come, or were asked for
	last     time.Time // when the last byte came
	lastAt   time.Time // the same as a stamp
	held     time.Time // since when bytes have been held back; zero: none are
	due      time.Time // when to look at them again; zero: all have been dealt with
	refusal  *failure  // of the content as it stands; nil: none

	// Of all streams.
	heard     bool // delivered is what was delivered last
	delivered []byte
	doubt     bool      // what was judged last was refused
	answers   int       // so far
	silent    bool      // the last report was a fault
	spoke     time.Time // when the last report was made
}

// begin begins a stream asked for at asked.
func (g *growth) begin(asked, modified time.Time) {
	now := time.Now()
	g.content, g.modified, g.refusal = nil, modified, nil
	g.began, g.asked, g.last, g.lastAt = now, asked, now, g.now()
	g.held, g.due = time.Time{}, now.Add(growGrace) // no byte at all is content too
}

// add takes what has come, or returns false when it is too much.
func (g *growth) add(data []byte, now time.Time) bool {
	if int64(len(g.content))+int64(len(data)) > g.maxBytes {
		return false
	}
	if len(data) == 0 {
		return true
	}
	g.content = append(g.content, data...) // never over bytes that were delivered
	g.last, g.lastAt = now, g.now()
	if g.asked.IsZero() {
		g.asked = now
	}
	if g.held.IsZero() {
		g.held = now
	}
	g.due = now.Add(growPause)
	if latest := g.held.Add(growMost); latest.Before(g.due) {
		g.due = latest
	}
	return true
}

// follow takes what s brings until it ends, and returns how: io.EOF or the error of
// its Read, errFull, errQuiet after quietMost without a byte, or nil when ctx ended.
func (g *growth) follow(ctx context.Context, s *stream, quietMost time.Duration) error {
	timer := time.NewTimer(0)
	defer timer.Stop()
	for {
		var p piece
		select {
		case <-ctx.Done():
			return nil
		case p = <-s.pieces:
		case <-timer.C:
			select { // a Sink may have kept us from it for long
			case p = <-s.pieces:
			default:
			}
		}
		now := time.Now()
		switch {
		case ctx.Err() != nil:
			return nil
		case !g.add(p.data, now):
			return errFull
		case p.err != nil:
			return p.err
		case quietMost > 0 && now.Sub(g.last) >= quietMost:
			return errQuiet
		}
		g.tick(now)
		timer.Reset(time.Until(g.next(quietMost)))
	}
}

// next is when there is something to do if no byte comes.
func (g *growth) next(quietMost time.Duration) time.Time {
	next := g.repeatAt()
	if !g.due.IsZero() && g.due.Before(next) {
		next = g.due
	}
	if quiet := g.last.Add(quietMost); quietMost > 0 && quiet.Before(next) {
		next = quiet
	}
	return next
}

// repeatAt is when to report that there is nothing new. A stream has to have been open
// for a while before that is worth a report.
func (g *growth) repeatAt() time.Time {
	at := g.spoke.Add(g.every)
	if open := g.began.Add(growGrace); open.After(at) {
		return open
	}
	return at
}

// upToGap is body without the word or number that is still coming.
func upToGap(body []byte) []byte {
	if i := bytes.LastIndexAny(body, " \t\r\n"); i >= 0 {
		return body[:i+1]
	}
	return body
}
