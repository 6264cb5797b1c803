package main

import (
	"context"
	"errors"
	"log/slog"
	"net"
	"time"

	"clocktell/relay/bus"
)

// runStations runs a station until ctx ends, and another one whenever the show has been begun
// anew on the bus. Tell is told once, when the first one stands.
func runStations(ctx context.Context, l net.Listener, log *slog.Logger, tell func(*station, net.Listener), make func(context.Context) (*station, error)) error {
	address := l.Addr().String()
	for told := false; ; {
		st, err := make(ctx)
		if err == nil {
			if !told {
				tell(st, l)
			}
			told = true
			err = st.run(ctx, l)
		} else {
			err = errors.Join(err, l.Close())
		}
		if ctx.Err() != nil && errors.Is(err, ctx.Err()) {
			return nil // it was told to end before it had begun
		}
		if !errors.Is(err, bus.ErrAnew) || ctx.Err() != nil {
			return err
		}
		log.Warn("this process starts again with what the bus holds now", "why", err)
		if !paused(ctx, anewPause) {
			return nil
		}
		if l, err = listen(ctx, address); err != nil {
			return err
		}
	}
}

// anewPause is how long a process waits before it starts again: should the bus hold what no
// process can go on from, it must not be all that this machine does.
const anewPause = 250 * time.Millisecond

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
