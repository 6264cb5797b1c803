package engine

import (
	"context"
	"errors"
	"runtime"
	"time"

	"golang.org/x/sync/errgroup"
)

// Run keeps the engine at work until ctx ends: it starts it again after faults, after
// waits that grow. Its process is gone when Run returns.
func (e *Engine) Run(ctx context.Context) error {
	for n := 1; ; n++ {
		began := time.Now()
		err := e.live(ctx)
		if ctx.Err() != nil {
			return nil
		}
		if time.Since(began) >= e.limits.sound {
			n = 1
		}
		e.failed(err)
		if !paused(ctx, e.wait(n)) {
			return nil
		}
		e.restarting()
	}
}

// paused waits, and reports whether ctx has not ended.
func paused(ctx context.Context, d time.Duration) bool {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
		return true
	case <-ctx.Done():
		return false
	}
}

// Greet starts the engine, has it set up, ends it, and returns the name it gives itself.
func Greet(ctx context.Context, o Options) (string, error) {
	e := New(o)
	name := ""
	err := e.with(ctx, func(s *session) error {
		err := s.greet(ctx)
		name = s.name
		return err
	})
	return name, err
}

// live is the life of one process.
func (e *Engine) live(ctx context.Context) error {
	return e.with(ctx, func(s *session) error {
		if err := s.greet(ctx); err != nil {
			return err
		}
		e.running(s.name)
		for {
			if err := s.serve(ctx); err != nil {
				return err
			}
		}
	})
}

// with starts a process, and ends it when do returns.
func (e *Engine) with(ctx context.Context, do func(*session) error) error {
	var group errgroup.Group
	opened := make(chan opening)
	group.Go(func() error {
		// The system ends a process when the thread ends that started it, see ownGroup. So
		// this one stays as long.
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		c, err := e.open(e.Options)
		opened <- opening{c, err}
		if err == nil {
			c.watch()
		}
		return nil
	})
	o := <-opened
	if o.err != nil {
		return errors.Join(&Fault{Reason: FaultStart, Err: o.err}, group.Wait())
	}
	c := o.conn
	c.nice()
	lines, done := make(chan heard, linesWaiting), make(chan struct{})
	group.Go(func() error {
		defer close(lines)
		readLines(c.out, lines, done)
		return nil
	})
	err := do(&session{Engine: e, conn: c, lines: lines, offered: make(map[string]bool)})
	var fault *Fault
	close(done)
	c.quit(!errors.As(err, &fault), e.limits.end)
	return errors.Join(err, group.Wait())
}

// opening is what has come of a start.
type opening struct {
	conn *conn
	err  error
}
