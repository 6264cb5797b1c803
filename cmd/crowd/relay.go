package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

const (
	startWait = 30 * time.Second
	stopWait  = 10 * time.Second
)

// configuration is that of a relay which the crowd may visit: its limits must not be met.
func configuration(o options, feedsAt, journal string) string {
	var b strings.Builder
	most := 2*o.pages + 100 // those that are gone, and not missed yet, count as well
	fmt.Fprintf(&b, "[show]\ntitle = \"Velmarin Halls\"\nmax_boards = %d\n\n", o.boards)
	fmt.Fprintf(&b, "[server]\nlisten = \"127.0.0.1:%d\"\nmax_pages = %d\nmax_connections = %d\nmax_connections_each = %d\n\n", o.port, most, 2*most, 2*most)
	fmt.Fprintf(&b, "[journal]\ndir = %q\n\n[log]\nlevel = \"warn\"\n", journal)
	for n := 1; n <= o.feeds; n++ {
		fmt.Fprintf(&b, "\n[[feed]]\nname = \"hall-%d\"\nurl = \"http://%s/%d.pgn\"\nevery = %q\n", n, feedsAt, n, o.every)
	}
	return b.String()
}

// child is a relay that the tool has started.
type child struct {
	command *exec.Cmd
	says    *announced
}

// announced waits in what a relay prints for the address of its pages.
type announced struct {
	mu      sync.Mutex // protects following
	text    []byte
	address chan string
	found   bool
}

func (a *announced) Write(b []byte) (int, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.found {
		return len(b), nil
	}
	a.text = append(a.text, b...)
	if _, rest, ok := bytes.Cut(a.text, []byte("http://")); ok {
		if host, _, whole := bytes.Cut(rest, []byte("/")); whole {
			a.found = true
			a.address <- string(host)
		}
	}
	return len(b), nil
}

// startRelay runs a clocktell binary on a configuration, with a journal, in a folder.
func startRelay(ctx context.Context, o options, feedsAt, dir string, stderr io.Writer) (*child, string, error) {
	file := filepath.Join(dir, "crowd.toml")
	if err := os.WriteFile(file, []byte(configuration(o, feedsAt, filepath.Join(dir, "journal"))), 0o600); err != nil {
		return nil, "", err
	}
	c := &child{command: exec.Command(o.serve, "serve", "--config", file), says: &announced{address: make(chan string, 1)}}
	c.command.Stdout, c.command.Stderr = c.says, stderr
	if err := c.command.Start(); err != nil {
		return nil, "", fmt.Errorf("start a relay: %w", err)
	}
	wait, cancel := context.WithTimeout(ctx, startWait)
	defer cancel()
	select {
	case address := <-c.says.address:
		return c, address, nil
	case <-wait.Done():
		return nil, "", errors.Join(errors.New("the relay tells no address of its pages"), c.stop())
	}
}

// stop ends the relay as an interrupt does, and by force where that is not heeded.
func (c *child) stop() error {
	c.command.WaitDelay = stopWait
	if err := c.command.Process.Signal(os.Interrupt); err != nil {
		return err
	}
	kill := time.AfterFunc(stopWait, func() { _ = c.command.Process.Kill() })
	defer kill.Stop()
	if err := c.command.Wait(); err != nil {
		return fmt.Errorf("the relay ends: %w", err)
	}
	return nil
}
