package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"sync"
	"sync/atomic"
	"time"

	"golang.org/x/sync/errgroup"
)

const (
	comingEvery  = 4 * time.Millisecond // one page after the other
	sampleEvery  = 5 * time.Second      // of what the relay costs
	idleSample   = 20 * time.Second     // the same, where the samples themselves must not cost much
	herdSize     = 250
	lineEvery    = time.Minute
	shutdownWait = 3 * time.Second
)

// crowd is everything that visits a relay, and the arena that it reads.
type crowd struct {
	options
	out     io.Writer
	now     func() time.Time
	places  places // where pages come
	arena   *arena
	tally   *tally
	decoder *decoder
	gauge   gauge
	fleet   []*edge
	killed  atomic.Int64 // edges
	pages   []*page
	hostile []*offender

	mu      sync.Mutex // protects following
	samples []sample
}

func newCrowd(o options, out io.Writer) *crowd {
	now := steady(time.Now())
	var kinds []string
	for _, k := range o.mix {
		kinds = append(kinds, k.page)
	}
	c := &crowd{options: o, out: out, now: now, tally: newTally(append(kinds, hostileKind)), decoder: newDecoder(), arena: newArena(o.feeds, o.boards, o.seed, now)}
	c.arena.prepare(o.prepared)
	return c
}

// hostileKind is where what hostile pages do is counted.
const hostileKind = "-"

// gather makes the pages, which then wait.
func (c *crowd) gather() {
	rng := rand.New(rand.NewPCG(c.seed, 2))
	kinds := c.mix.deal(c.options.pages)
	rng.Shuffle(len(kinds), func(i, j int) { kinds[i], kinds[j] = kinds[j], kinds[i] })
	for n, t := range c.tempersOf(c.options.pages) {
		kind := kinds[n]
		w := wantOf(kind, n, c.boards)
		if t == hostile {
			o := &offender{address: c.places.first(n).address, counts: c.tally.of(hostileKind, hostile), tally: c.tally}
			o.counts.pages++
			c.hostile = append(c.hostile, o)
			continue
		}
		if w.scene() && rng.Float64()*100 < c.held {
			w.hold = c.hold
		}
		c.pages = append(c.pages, c.newPage(n, w, t))
	}
}

// tempersOf gives each of so many pages a temper; the last ones are healthy.
func (o *options) tempersOf(pages int) []temper {
	var out []temper
	for t := tempers - 1; t > healthy; t-- {
		for range int(math.Round(o.percent[t] / 100 * float64(pages))) {
			out = append(out, t)
		}
	}
	for len(out) < pages {
		out = append(out, healthy)
	}
	return out[:pages]
}

// run lets everything happen, and returns once all of it has ended.
func (c *crowd) run(ctx context.Context, stderr io.Writer) (err error) {
	feeds, err := net.Listen("tcp", c.feedsAt)
	if err != nil {
		return err
	}
	stderr = &lockedWriter{to: stderr}
	server := &http.Server{Handler: c.arena, ReadHeaderTimeout: dialWait}
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error {
		if err := server.Serve(feeds); !errors.Is(err, http.ErrServerClosed) {
			return err
		}
		return nil
	})
	err = c.withRelay(ctx, feeds.Addr().String(), stderr)
	end, cancel := context.WithTimeout(context.WithoutCancel(ctx), shutdownWait)
	defer cancel()
	return errors.Join(err, server.Shutdown(end), group.Wait())
}

// withRelay visits the relay that is there, or one of its own.
func (c *crowd) withRelay(ctx context.Context, feeds string, stderr io.Writer) error {
	if c.serve == "" {
		c.places, c.gauge = places{{address: c.relay}}, gauge{address: c.relay, now: c.now}
		return c.visit(ctx)
	}
	dir, err := os.MkdirTemp("", "crowd")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	relay, address, bus, err := startRelay(ctx, c.options, feeds, dir, stderr)
	if err != nil {
		return err
	}
	if c.edges == 0 || c.relayToo {
		c.places = places{{address: address}}
	}
	c.gauge = gauge{address: address, pid: relay.command.Process.Pid, now: c.now}
	if err = c.startEdges(ctx, bus, stderr); err == nil {
		err = c.visit(ctx)
	}
	return errors.Join(err, c.stopEdges(), relay.stop())
}

// visit lets the crowd come, the games be played, and everybody be judged.
func (c *crowd) visit(ctx context.Context) error {
	c.gather()
	c.head()
	if err := c.measure(ctx); err != nil {
		return err
	}
	group, ctx := errgroup.WithContext(ctx)
	playing, stop := context.WithTimeout(ctx, c.length)
	defer stop()
	visiting, leave := context.WithCancel(ctx)
	defer leave()
	start := func(f func(context.Context) error) { group.Go(func() error { return f(visiting) }) }
	group.Go(func() error { c.arena.run(playing, c.perSecond); return nil })
	group.Go(func() error { return c.watch(playing) })
	start(func(ctx context.Context) error { return c.killEdges(playing, ctx) })
	for i := 0; i < len(c.pages); i += herdSize {
		start(func(ctx context.Context) error {
			herd(ctx, c.pages[i:min(i+herdSize, len(c.pages))], c.now)
			return nil
		})
	}
	c.comeIn(playing, start)
	<-playing.Done()
	c.judge(visiting)
	leave()
	return group.Wait()
}

// comeIn lets one page after the other come.
func (c *crowd) comeIn(ctx context.Context, start func(func(context.Context) error)) {
	for i, p := range c.pages {
		start(p.live)
		if i < len(c.hostile) {
			start(func(ctx context.Context) error { c.hostile[i].live(ctx, i); return nil })
		}
		pause(ctx, comingEvery)
	}
}

// judge waits until everything must have come, then holds each page to the truth.
func (c *crowd) judge(ctx context.Context) {
	pause(ctx, c.settle)
	if c.held > 0 {
		pause(ctx, c.hold)
	}
	m := marks{boards: make(map[int]uint64)}
	for _, p := range c.pages {
		p.mu.Lock()
		m.add(&p.verifier)
		p.mu.Unlock()
	}
	pause(ctx, c.settle)
	if ctx.Err() != nil {
		return // broken off: nobody knows what would have come
	}
	for _, p := range c.pages {
		p.judge(c.boards, &m, c.now().Add(-c.settle))
	}
}

// measure takes a sample of what the relay costs.
func (c *crowd) measure(ctx context.Context) error {
	s, err := c.gauge.read(ctx)
	if err != nil {
		return err
	}
	if err := c.readEdges(&s); err != nil {
		return err
	}
	s.done = c.done()
	c.mu.Lock()
	defer c.mu.Unlock()
	c.samples = append(c.samples, s)
	return nil
}

// watch takes samples and prints a line each minute, until ctx ends.
func (c *crowd) watch(ctx context.Context) error {
	every := sampleEvery
	if c.idle {
		every = idleSample
	}
	samples, minute := time.NewTicker(every), time.NewTicker(lineEvery)
	defer samples.Stop()
	defer minute.Stop()
	for {
		select {
		case <-samples.C:
			if err := c.measure(ctx); err != nil && ctx.Err() == nil {
				return fmt.Errorf("what the relay costs: %w", err)
			}
		case <-minute.C:
			c.minute()
		case <-ctx.Done():
			err := c.measure(context.WithoutCancel(ctx))
			c.minute()
			return err
		}
	}
}
