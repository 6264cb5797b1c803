package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"sync"
	"syscall"
	"time"
)

// How a page behaves, as static/lib/live.js has it.
const (
	firstPings  = 8
	silentPings = 3
	firstWait   = 250 * time.Millisecond
	longestWait = 5 * time.Second
	lateMost    = 50 // figures in one ping

	stayLeast = 5 * time.Second // of a reconnecting one
	stayMost  = 40 * time.Second
)

// page is one page over a real socket. One goroutine reads; the herd that it belongs to
// sends its pings.
type page struct {
	places  places
	temper  temper
	number  int
	seat    int // decides where it comes first: not always to the same place for the same board
	counts  *counts
	tally   *tally
	decoder *decoder
	now     func() time.Time
	began   time.Time // the page's own time counts from here

	mu         sync.Mutex // protects following
	verifier   verifier
	stay       stay
	at         *place // where it was welcomed last
	line       *line  // nil: not connected, or not welcomed
	every      time.Duration
	due, leave time.Time // of the next ping; of a reconnecting page's good-bye
	unanswered int
	first      int
	late       []int64
	came       time.Time // its welcome
	gone       bool      // by its own will
}

func (c *crowd) newPage(number int, w want, t temper) *page {
	p := &page{places: c.places, number: number, seat: number + number/c.boards, temper: t, counts: c.tally.of(w.page, t), tally: c.tally, decoder: c.decoder, now: c.now, began: c.now()}
	p.counts.pages++
	p.verifier = verifier{truth: c.arena, want: w, breach: p.breach, behind: &c.tally.behind}
	return p
}

func (p *page) breach(b breach, format string, args ...any) {
	p.tally.breach(p.counts, b, fmt.Sprintf("%s page %d, %s", p.temper, p.number, p.verifier.want), format, args...)
}

// live opens the page, and again whenever it was lost, until ctx ends. The error is of this
// machine, not of the relay.
func (p *page) live(ctx context.Context) error {
	for tries := 0; ctx.Err() == nil; {
		welcomed, err := p.visit(ctx)
		switch {
		case ctx.Err() != nil:
			return nil
		case errors.Is(err, syscall.EMFILE):
			return fmt.Errorf("%w; ulimit -n allows too few for so many pages", err)
		}
		if welcomed {
			tries = 0
		}
		p.judgeEnd(welcomed, err)
		wait := min(longestWait, firstWait<<min(tries, 8))
		tries++
		pause(ctx, time.Duration(float64(wait)*(0.5+rand.Float64()/2)))
	}
	return nil
}

// judgeEnd counts why a visit ended.
func (p *page) judgeEnd(welcomed bool, err error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	var end closed
	switch {
	case p.gone:
		p.counts.left.Add(1)
	case p.stay.killed(): // nobody can say good-bye then
		p.counts.lost.Add(1)
	case errors.As(err, new(refused)), errors.As(err, &end) && end.code == closeTryAgain, !welcomed:
		p.counts.refused.Add(1)
	default:
		p.counts.lost.Add(1)
		if p.temper == healthy || p.temper == reconnecting {
			p.breach(breachCut, "%v", err)
		}
	}
}

// pause waits unless ctx ends.
func pause(ctx context.Context, d time.Duration) {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
	case <-ctx.Done():
	}
}

// visit is one socket of the page, from the handshake to its end.
func (p *page) visit(ctx context.Context) (welcomed bool, err error) {
	p.mu.Lock()
	p.verifier.forget()
	p.gone = false
	if p.stay.place == nil {
		p.stay = p.places.first(p.seat).stay()
	} else {
		p.stay = p.places.other(p.stay.place).stay()
	}
	p.verifier.edge = p.stay.place.edge
	address, path := p.stay.place.address, p.verifier.path()
	p.mu.Unlock()
	var through func(net.Conn) io.Reader
	if p.temper == slow {
		through = func(c net.Conn) io.Reader { return trickle{ctx, c} }
	}
	began := p.now()
	l, err := dial(ctx, address, path, p.temper == slow || p.temper == stalled, through)
	if err != nil {
		return false, err
	}
	defer l.conn.Close()
	defer context.AfterFunc(ctx, func() { _ = l.conn.Close() })()
	defer p.hangUp()
	for {
		if welcomed && p.temper == stalled {
			return true, p.stall(ctx)
		}
		if err := p.readOne(l, began); err != nil {
			return welcomed, err
		}
		welcomed = true
	}
}

func (p *page) hangUp() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.line != nil {
		p.counts.open.Add(-1)
	}
	p.line = nil
}

// stall waits until the herd's pings no longer go out.
func (p *page) stall(ctx context.Context) error {
	for ctx.Err() == nil {
		pause(ctx, time.Second)
		p.mu.Lock()
		over := p.line == nil
		p.mu.Unlock()
		if over {
			return errors.New("cut off while it took nothing")
		}
	}
	return ctx.Err()
}

// judge holds the page to the truth at the end, if it had come by then.
func (p *page) judge(tables int, m *marks, by time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch {
	case p.temper == healthy && p.line == nil:
		p.breach(breachCut, "it is not connected at the end")
	case (p.temper == healthy || p.temper == reconnecting) && p.line != nil && !p.came.After(by.Add(-p.verifier.want.hold)):
		p.verifier.ends(tables, m)
		p.tally.judged.Add(1)
	}
}
