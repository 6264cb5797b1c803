package main

import (
	"context"
	"errors"
	"time"
)

// A process that was killed holds its files and its address for a moment longer, while
// a supervisor already starts the next one.
const (
	freeWithin = 2 * time.Second
	freeEvery  = 50 * time.Millisecond
)

// whenFree tries to open something that the process before may still hold, as long as
// the error is taken.
func whenFree(ctx context.Context, taken error, open func() error) error {
	again := time.NewTicker(freeEvery)
	defer again.Stop()
	end := time.NewTimer(freeWithin)
	defer end.Stop()
	for {
		err := open()
		if !errors.Is(err, taken) {
			return err
		}
		select {
		case <-again.C:
		case <-end.C:
			return err
		case <-ctx.Done():
			return err
		}
	}
}
