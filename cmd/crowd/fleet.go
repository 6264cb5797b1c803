package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"sync"
	"time"
)

// edge is an edge that the tool has started, and may kill.
type edge struct {
	program string
	args    []string // but where it listens
	stderr  io.Writer
	place   *place
	link    *link // nil: none, it reads straight from the bus

	mu     sync.Mutex // protects following
	child  *child
	before time.Duration // CPU of those that were killed
	kills  int
}

// startEdge starts one edge of the show on a bus.
func startEdge(ctx context.Context, o options, bus string, stderr io.Writer) (*edge, error) {
	e := &edge{program: o.serve, stderr: stderr, place: &place{edge: true}}
	if !o.direct {
		var err error
		if e.link, err = newLink(ctx, bus); err != nil {
			return nil, err
		}
		bus = e.link.url()
	}
	most := strconv.Itoa(o.pagesMost())
	e.args = []string{"edge", "--bus", bus, "--show", "show", "--log", "warn", "--max-pages", most, "--max-connections", most, "--max-connections-each", most}
	address, err := e.start(ctx, "127.0.0.1:0")
	e.place.address = address
	if err != nil {
		return nil, errors.Join(err, e.unlink())
	}
	return e, nil
}

func (e *edge) start(ctx context.Context, listen string) (address string, err error) {
	c, found, err := startChild(ctx, e.program, append(e.args[:len(e.args):len(e.args)], "--listen", listen), e.stderr, pagesAt)
	if err != nil {
		return "", err
	}
	e.mu.Lock()
	defer e.mu.Unlock()
	e.child = c
	return found[0], nil
}

// again kills the edge and starts it at the same address.
func (e *edge) again(ctx context.Context) error {
	e.place.down.Store(true)
	e.place.kills.Add(1)
	e.mu.Lock()
	var s usage
	_ = s.fromProc(e.child.command.Process.Pid) // what is not known does not count
	e.before += s.cpu
	e.child.kill()
	e.child = nil
	e.kills++
	e.mu.Unlock()
	if _, err := e.start(ctx, e.place.address); err != nil {
		if ctx.Err() != nil {
			return nil
		}
		return fmt.Errorf("an edge that was killed: %w", err)
	}
	e.place.kills.Add(1) // whoever came before it was there again knows so
	e.place.down.Store(false)
	return nil
}

// uses reads what the edge costs; while it is being started, what it did cost.
func (e *edge) uses() (usage, error) {
	e.mu.Lock()
	defer e.mu.Unlock()
	var u usage
	var err error
	if e.child != nil {
		err = u.fromProc(e.child.command.Process.Pid)
	}
	u.cpu += e.before
	return u, err
}

func (e *edge) killed() int {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.kills
}

func (e *edge) unlink() error {
	if e.link == nil {
		return nil
	}
	return e.link.close()
}

func (e *edge) stop() error {
	e.mu.Lock()
	defer e.mu.Unlock()
	var err error
	if e.child != nil {
		err = e.child.stop()
	}
	return errors.Join(err, e.unlink())
}

// startEdges starts as many edges as there are to be; stopEdges ends them.
func (c *crowd) startEdges(ctx context.Context, bus string, stderr io.Writer) error {
	for range c.options.edges {
		e, err := startEdge(ctx, c.options, bus, stderr)
		if err != nil {
			return err
		}
		c.fleet = append(c.fleet, e)
		c.places = append(c.places, e.place)
	}
	return nil
}

func (c *crowd) stopEdges() (err error) {
	for _, e := range c.fleet {
		err = errors.Join(err, e.stop())
	}
	return err
}

// killEdges kills one edge after the other until playing ends.
func (c *crowd) killEdges(playing, visiting context.Context) error {
	if c.killEvery == 0 {
		return nil
	}
	for n := 0; ; n++ {
		if pause(playing, c.killEvery); playing.Err() != nil {
			return nil
		}
		if err := c.fleet[n%len(c.fleet)].again(visiting); err != nil {
			return err
		}
		c.killed.Add(1)
	}
}
