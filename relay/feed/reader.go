package feed

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"
)

// closeGrace is how long a reader may take to return from Read once it is closed.
const closeGrace = 100 * time.Millisecond

// ReaderOptions say which input to read and how. A zero value means its default.
type ReaderOptions struct {
	From     io.ReadCloser           // closed when Run ends
	Name     string                  // for people; "": standard input
	Every    time.Duration           // how often an open but quiet input counts as an answer without news; 0: DefaultEvery
	MaxBytes int64                   // of the whole input; 0: DefaultMaxBytes
	Check    func(body []byte) error // as in HTTPOptions; nil: none
	Now      func() time.Time        // for stamps only, not for waiting; nil: time.Now
}

// Reader takes an input that grows, such as standard input, and delivers the whole of
// it whenever it pauses.
type Reader struct{ o ReaderOptions }

var _ Source = (*Reader)(nil)

// NewReader returns a source that reads o.From once Run is called.
func NewReader(o ReaderOptions) (*Reader, error) {
	o.Every = orDefault(o.Every, DefaultEvery)
	o.MaxBytes = orDefault(o.MaxBytes, DefaultMaxBytes)
	if o.Name == "" {
		o.Name = "standard input"
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	switch {
	case o.From == nil:
		return nil, fmt.Errorf("feed %s: nothing to read from", o.Name)
	case o.Every < 0:
		return nil, fmt.Errorf("feed %s: every %v is negative; give the time between two reports, or nothing for %v", o.Name, o.Every, DefaultEvery)
	case o.MaxBytes < 0:
		return nil, fmt.Errorf("feed %s: size limit %d is negative; give a number of bytes, or nothing for %d", o.Name, o.MaxBytes, DefaultMaxBytes)
	}
	return &Reader{o}, nil
}

// Run reads until ctx ends, closes the input, and returns nil. It can be called once.
// When the input ends before, it says so once and waits for ctx. An input beyond the
// limit is read to its end all the same, so that whoever writes it is not held up.
//
// Run waits for its reading to end, which a pipe or a connection does at once when it
// is closed. Standard input from a terminal or, on most systems, from a pipe does not:
// nothing interrupts its Read. Run returns all the same, after closeGrace, and leaves a
// goroutine behind that holds nothing, reports to nobody, and ends with the next byte
// or the program. Whoever cannot have that passes an input whose Close ends its Read.
func (r *Reader) Run(ctx context.Context, to Sink) error {
	s := startReading(ctx, r.o.From)
	defer r.hangUp(s)
	g := &growth{to: to, every: r.o.Every, patience: DefaultTimeout, maxBytes: r.o.MaxBytes, check: r.o.Check, notPGN: r.notPGN, now: r.o.Now}
	start := time.Now()
	g.begin(start, time.Time{})
	err := g.follow(ctx, s, 0)
	if err == errFull {
		g.failed(Fault{Took: time.Since(start), Reason: ReasonTooLarge, Err: fmt.Errorf("feed %s: more than %d bytes have come; is this the PGN? If so, raise the size limit", r.o.Name, r.o.MaxBytes)})
		err = s.drain(ctx)
	} else if f := r.finish(g, err); f != nil {
		g.failed(Fault{Took: time.Since(start), Reason: f.reason, Err: f.err})
	}
	if ctx.Err() == nil {
		g.failed(Fault{Took: time.Since(start), Reason: ReasonEnded, Err: r.over(err)})
	}
	<-ctx.Done()
	return nil
}

// finish takes the content as complete if it is.
func (r *Reader) finish(g *growth, err error) *failure {
	switch err {
	case nil: // ctx has ended
		return nil
	case io.EOF:
		return g.finish()
	}
	g.salvage()
	return nil
}

// over says that nothing more will come.
func (r *Reader) over(err error) error {
	if errors.Is(err, io.EOF) {
		return fmt.Errorf("feed %s has ended, and nothing more will come; start the program that writes it, and the show, again", r.o.Name)
	}
	return fmt.Errorf("feed %s cannot be read any further: %w; start the program that writes it, and the show, again", r.o.Name, err)
}

func (r *Reader) notPGN(err error) *failure {
	return &failure{reason: ReasonNotPGN, err: fmt.Errorf("feed %s: %w; is this the PGN?", r.o.Name, err), retryAfter: -1}
}

// hangUp closes the input and waits for the goroutine that reads it, if it ends.
func (r *Reader) hangUp(s *stream) {
	r.o.From.Close()
	late := time.NewTimer(closeGrace)
	defer late.Stop()
	for {
		select {
		case _, open := <-s.pieces:
			if !open {
				s.wait()
				return
			}
		case <-late.C:
			return
		}
	}
}

// drain reads on and keeps nothing, until the stream ends, and returns how.
func (s *stream) drain(ctx context.Context) error {
	for {
		select {
		case p := <-s.pieces:
			if p.err != nil {
				return p.err
			}
		case <-ctx.Done():
			return nil
		}
	}
}
