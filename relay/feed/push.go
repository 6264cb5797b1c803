package feed

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"strings"
	"sync/atomic"
	"time"
)

// DefaultMaxWaiting is how many pushes may be under way at once: one machine pushes
// to a feed, and a few of its requests may overlap.
const DefaultMaxWaiting = 8

// PushOptions say what a push must bring. A zero value means its default.
type PushOptions struct {
	Name       string                  // for people, in "feed NAME: …"
	Token      string                  // what "Authorization: Bearer" must hold: visible ASCII, not empty
	MaxBytes   int64                   // largest content after decoding; 0: DefaultMaxBytes
	Timeout    time.Duration           // for the body to come, and again for the show to take it; 0: DefaultTimeout
	MaxWaiting int                     // pushes at once; 0: DefaultMaxWaiting
	Check      func(body []byte) error // as in HTTPOptions; nil: none
	Now        func() time.Time        // for stamps and the once-per-second reports; nil: time.Now
}

// Push is fed from outside: it is an http.Handler that takes the whole content in
// each PUT or POST, and delivers what was pushed while Run is called.
type Push struct {
	o       PushOptions
	token   [sha256.Size]byte
	waiting chan struct{} // one for each push under way
	show    atomic.Pointer[taking]
	held    heldBack
}

var _ Source = (*Push)(nil)

// NewPush returns a source that takes pushes once Run is called, and turns them away
// until then. Errors never hold the token.
func NewPush(o PushOptions) (*Push, error) {
	o.MaxBytes = orDefault(o.MaxBytes, DefaultMaxBytes)
	o.Timeout = orDefault(o.Timeout, DefaultTimeout)
	if o.Name == "" {
		o.Name = "push"
	}
	if o.MaxWaiting == 0 {
		o.MaxWaiting = DefaultMaxWaiting
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if err := o.error(); err != nil {
		return nil, fmt.Errorf("feed %s: %w", o.Name, err)
	}
	return &Push{o: o, token: sha256.Sum256([]byte(o.Token)), waiting: make(chan struct{}, o.MaxWaiting)}, nil
}

// error tells what in o, already filled, cannot work.
func (o PushOptions) error() error {
	switch {
	case o.Token == "":
		return errors.New("no token; set one, or anybody could push")
	case strings.ContainsFunc(o.Token, notVisible):
		return errors.New("the token holds a space, a line end or a character outside ASCII; check what token_env holds")
	case o.MaxBytes < 0:
		return fmt.Errorf("size limit %d is negative; give a number of bytes, or nothing for %d", o.MaxBytes, DefaultMaxBytes)
	case o.Timeout < 0:
		return fmt.Errorf("timeout %v is negative; give the time for one push, or nothing for %v", o.Timeout, DefaultTimeout)
	case o.MaxWaiting < 0:
		return fmt.Errorf("limit of %d pushes at once is negative; give a number, or nothing for %d", o.MaxWaiting, DefaultMaxWaiting)
	}
	return nil
}

// taking is one Run of a Push, and how its handlers reach it.
type taking struct {
	pushes chan pushed
	faults chan Fault    // has room for one of each reason
	over   chan struct{} // closed when no push will be taken any more
}

// pushed is a complete body on its way to Run.
type pushed struct {
	body   []byte
	at     time.Time
	took   time.Duration
	result chan<- error // has room: nil when the Sink has taken it, or what Check says
}

// Run delivers what is pushed until ctx ends, then returns nil. It returns an error
// only when it is called twice at a time. Nothing is reported while nothing is pushed.
func (p *Push) Run(ctx context.Context, to Sink) error {
	t := &taking{pushes: make(chan pushed), faults: make(chan Fault, len(Reasons)), over: make(chan struct{})}
	if !p.show.CompareAndSwap(nil, t) {
		return fmt.Errorf("feed %s: runs already", p.o.Name)
	}
	defer close(t.over)
	defer p.show.Store(nil)
	d, faults := &delivery{to: to, check: p.o.Check}, until{ctx, to}
	for {
		select {
		case <-ctx.Done():
			return nil
		case f := <-t.faults:
			faults.Failed(f)
		case b := <-t.pushes:
			t.tellFaults(faults) // they came before
			if ctx.Err() != nil {
				return nil // unanswered, the handler says that the show is over
			}
			b.result <- p.deliver(t, d, b)
		}
	}
}

func (p *Push) deliver(t *taking, d *delivery, b pushed) error {
	err := d.deliver(b)
	if err != nil {
		p.report(t, ReasonNotPGN, b.took, err)
	} else {
		p.held.release()
	}
	return err
}

// tellFaults tells of all faults that wait.
func (t *taking) tellFaults(to Sink) {
	for {
		select {
		case f := <-t.faults:
			to.Failed(f)
		default:
			return
		}
	}
}

// delivery is what a Run remembers between pushes.
type delivery struct {
	to    Sink
	check func(body []byte) error
	heard bool // body is the one delivered last
	body  []byte
}

// deliver delivers b, unless check refuses it.
func (d *delivery) deliver(b pushed) error {
	if d.heard && bytes.Equal(b.body, d.body) { // checked when it was new
		d.to.Answered(Answer{At: b.at, Took: b.took})
		return nil
	}
	if d.check != nil {
		if err := d.check(b.body); err != nil {
			return err
		}
	}
	d.heard, d.body = true, b.body
	d.to.Answered(Answer{At: b.at, Took: b.took, New: true, Body: b.body})
	return nil
}
