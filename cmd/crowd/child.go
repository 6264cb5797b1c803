package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"regexp"
	"sync"
	"time"
)

const (
	startWait = 30 * time.Second
	stopWait  = 10 * time.Second
	saysMost  = 64 << 10 // bytes of what a child prints that are looked through
)

// What children print of where they are.
var (
	pagesAt = regexp.MustCompile(`http://([^/\s]+)/`)
	busAt   = regexp.MustCompile(`--bus (nats://\S+)`)
)

// child is a relay or an edge that the tool has started.
type child struct {
	command *exec.Cmd
	says    *announced
}

// announced waits in what a child prints for what stands in all of its patterns.
type announced struct {
	patterns []*regexp.Regexp

	mu    sync.Mutex // protects following
	text  []byte
	found chan []string // what each pattern has in brackets
	done  bool
}

func (a *announced) Write(b []byte) (int, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.done || len(a.text) > saysMost {
		return len(b), nil
	}
	a.text = append(a.text, b...)
	var all []string
	for _, p := range a.patterns {
		if m := p.FindSubmatch(a.text); m != nil {
			all = append(all, string(m[1]))
		}
	}
	if len(all) == len(a.patterns) {
		a.done = true
		a.found <- all
	}
	return len(b), nil
}

// startChild runs a program until it has printed something for each pattern, and returns that.
func startChild(ctx context.Context, program string, args []string, stderr io.Writer, patterns ...*regexp.Regexp) (*child, []string, error) {
	c := &child{command: exec.Command(program, args...), says: &announced{patterns: patterns, found: make(chan []string, 1)}}
	c.command.Stdout, c.command.Stderr = c.says, stderr
	if err := c.command.Start(); err != nil {
		return nil, nil, fmt.Errorf("start %s: %w", args[0], err)
	}
	wait, cancel := context.WithTimeout(ctx, startWait)
	defer cancel()
	select {
	case found := <-c.says.found:
		return c, found, nil
	case <-wait.Done():
		return nil, nil, errors.Join(fmt.Errorf("clocktell %s does not tell where it is", args[0]), c.stop())
	}
}

// stop ends the child as an interrupt does, and by force where that is not heeded.
func (c *child) stop() error {
	c.command.WaitDelay = stopWait
	if err := c.command.Process.Signal(os.Interrupt); err != nil {
		return err
	}
	kill := time.AfterFunc(stopWait, func() { _ = c.command.Process.Kill() })
	defer kill.Stop()
	if err := c.command.Wait(); err != nil {
		return fmt.Errorf("clocktell %s ends: %w", c.command.Args[1], err)
	}
	return nil
}

// kill ends the child in the middle of whatever it does.
func (c *child) kill() {
	_ = c.command.Process.Kill() // it may have ended
	_ = c.command.Wait()         // which says that it was killed
}

// lockedWriter lets several children write.
type lockedWriter struct {
	mu sync.Mutex // protects following
	to io.Writer
}

func (w *lockedWriter) Write(b []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.to.Write(b)
}
