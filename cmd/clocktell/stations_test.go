package main

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"net"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/bus"
	"clocktell/relay/config"
)

// TestStationsAfterOneThatNeverStood: two processes began the show at once, and this one was late.
// Where its pages are is told when it stands, and why it took a second time is in the log.
func TestStationsAfterOneThatNeverStood(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	defer cancel()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address, made, told := l.Addr().String(), 0, 0
	var said bytes.Buffer
	tell := func(_ *station, l net.Listener) {
		told++
		if l.Addr().String() != address {
			t.Errorf("its pages are at %s, want %s", l.Addr(), address)
		}
		cancel()
	}
	log := slog.New(slog.NewTextHandler(&said, nil))
	err = runStations(ctx, l, log, tell, func(ctx context.Context) (*station, error) {
		if made++; made == 1 {
			return nil, fmt.Errorf("begin: %w", bus.ErrAnew)
		}
		return newStation(ctx, config.Default(), relay.NewTimebase(1), slog.New(slog.DiscardHandler))
	})
	if err != nil || made != 2 || told != 1 || !strings.Contains(said.String(), "starts again") {
		t.Errorf("made %d times, told %d times, %v; the log: %s", made, told, err, said.String())
	}
}
