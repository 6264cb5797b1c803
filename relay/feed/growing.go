package feed

import (
	"context"
	"io"
	"net/http"
	"time"

	"golang.org/x/sync/errgroup"
)

// Run follows the response until ctx ends, then returns nil. When the response ends
// it asks again: after a complete one at the step of polling, after a fault with the
// back-off of polling.
func (g *Growing) Run(ctx context.Context, to Sink) error {
	if g.http.own != nil {
		defer g.http.own.CloseIdleConnections()
	}
	l := &listening{HTTP: g.http, quietMost: g.quietMost, growth: g.http.growth(to)}
	for ctx.Err() == nil {
		pause(ctx, l.once(ctx))
	}
	return nil
}

// listening is one Run of a Growing source.
type listening struct {
	*HTTP
	quietMost time.Duration
	growth    *growth
	faults    int // in a row
}

// once asks once, follows the response to its end and returns how long to wait.
func (l *listening) once(ctx context.Context) time.Duration {
	start, good := time.Now(), l.growth.answers
	f := l.follow(ctx, start)
	if ctx.Err() != nil {
		return 0
	}
	took := time.Since(start)
	if l.growth.answers > good {
		l.faults = 0
	}
	if f == nil {
		return l.o.afterAnswer(l.o.Every, took)
	}
	l.faults++
	l.growth.failed(Fault{Took: took, Reason: f.reason, Err: f.err})
	return l.o.afterFault(l.faults, f)
}

func (h *HTTP) growth(to Sink) *growth {
	return &growth{to: to, every: h.o.Every, patience: h.o.Timeout, maxBytes: h.o.MaxBytes, check: h.o.Check, notPGN: h.notPGN, now: h.o.Now}
}

// follow is one response, from the request to its end.
func (l *listening) follow(ctx context.Context, start time.Time) *failure {
	ctx, hangUp := context.WithCancel(ctx)
	defer hangUp()
	resp, f := l.connect(ctx, hangUp)
	if f != nil {
		return f
	}
	defer resp.Body.Close()
	raw, f := l.raw(resp)
	if f != nil {
		return f
	}
	plain, err := growingUnpacked(codingOf(resp.Header), raw)
	if err != nil {
		return l.badBody(ctx, raw, err)
	}
	s := startReading(ctx, plain)
	defer s.wait()
	defer hangUp() // first of all, or the reader goes on
	l.growth.begin(start, lastModified(resp.Header))
	return l.ended(ctx, raw, l.growth.follow(ctx, s, l.quietMost))
}

// ended tells how a response that ended with err is to be taken.
func (l *listening) ended(ctx context.Context, raw *watched, err error) *failure {
	switch err {
	case nil: // the show is over
		return nil
	case errQuiet:
		return l.growth.refusal
	case io.EOF:
		return l.growth.finish()
	case errFull:
		return l.tooLarge()
	}
	f := l.badBody(ctx, raw, err)
	if f.reason == ReasonCut { // what is broken otherwise may be wrong in what came before
		l.growth.salvage()
	}
	return f
}

// connect asks, and waits for the header no longer than Timeout.
func (l *listening) connect(ctx context.Context, hangUp func()) (*http.Response, *failure) {
	late := time.AfterFunc(l.o.Timeout, hangUp)
	client := &http.Client{Transport: l.transport, CheckRedirect: l.redirected}
	resp, err := client.Do(l.request(ctx))
	inTime := late.Stop()
	switch {
	case err != nil && inTime:
		return nil, l.noAnswer(ctx, err)
	case err == nil && !inTime:
		resp.Body.Close()
	}
	if !inTime {
		return nil, l.fail(ReasonTimeout, "no answer within %s; is the arena's server up?", seconds(l.o.Timeout))
	}
	if resp.StatusCode != http.StatusOK {
		resp.Body.Close()
		return nil, l.badStatus(resp)
	}
	return resp, nil
}

// readAtOnce is how many bytes of a stream are read in one go.
const readAtOnce = 32 << 10

// piece is what one Read brought. Its data may be used until the next is received.
type piece struct {
	data []byte
	err  error
}

// stream is an input that is being read.
type stream struct {
	pieces chan piece   // closed when no more is read
	wait   func() error // for the goroutine that reads; returns nil
}

// startReading reads from until it fails or ctx ends, one piece ahead of whoever
// receives. The caller makes from's Read return when ctx ends, and waits.
func startReading(ctx context.Context, from io.Reader) *stream {
	var group errgroup.Group
	s := &stream{make(chan piece), group.Wait}
	group.Go(func() error {
		defer close(s.pieces)
		var buf [2][readAtOnce]byte // one is read into while the other is used
		for i := 0; ; i = 1 - i {
			n, err := from.Read(buf[i][:])
			select {
			case s.pieces <- piece{buf[i][:n], err}:
			case <-ctx.Done():
				return nil
			}
			if err != nil {
				return nil
			}
		}
	})
	return s
}
