package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"clocktell/relay"
)

// entryWait is how long an entry may take from a person's hand to the show: a
// disk that syncs slowly, a loop that is busy.
const entryWait = 10 * time.Second

var errEntryLost = errors.New("the show did not answer; send the entry again, it will not be done twice")

// entered sends what a person entered, under its ID, the way of all events and waits for
// what became of it.
func (st *station) entered(ctx context.Context, id string, e relay.Event) (relay.Entered, error) {
	ctx, cancel := context.WithTimeout(ctx, entryWait)
	defer cancel()
	changes := st.relay.Subscribe()
	defer changes.Close()
	select {
	case st.heard <- e:
	case <-ctx.Done():
		return relay.Entered{}, errEntryLost
	}
	for {
		select {
		case <-changes.C:
			if entered, ok := st.relay.Show().Entry(id); ok {
				return entered, nil
			}
		case <-ctx.Done():
			return relay.Entered{}, fmt.Errorf("after %v: %w", entryWait, errEntryLost)
		}
	}
}
