package engine

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"sync"
	"time"
)

// conn is a running engine.
type conn struct {
	in     io.WriteCloser // a write ends by its deadline, or it could hold up all else
	out    io.ReadCloser
	nice   func()       // makes it give way, with all threads that it has now
	kill   func()       // ends it, with all that it has started; may be called at any time
	wait   func() error // returns when it has ended, and why
	ended  chan struct{}
	reason error // of its end, once ended is closed
}

// openProcess starts an engine. Its error output goes nowhere.
func openProcess(o Options) (*conn, error) {
	path, err := exec.LookPath(o.Command)
	if err != nil {
		return nil, fmt.Errorf("the engine cannot be started: %w; set command to its path", err)
	}
	out, stdout, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	stdin, in, err := os.Pipe()
	if err != nil {
		return nil, errors.Join(err, out.Close(), stdout.Close())
	}
	cmd := exec.Command(path, o.Args...)
	cmd.Stdin, cmd.Stdout, cmd.Env = stdin, stdout, environment(os.LookupEnv)
	ownGroup(cmd)
	err = cmd.Start()
	stdin.Close() // they are the child's now
	stdout.Close()
	if err != nil {
		return nil, errors.Join(fmt.Errorf("the engine cannot be started: %w", err), in.Close(), out.Close())
	}
	group := &group{cmd: cmd, nice: o.Nice}
	return &conn{ended: make(chan struct{}), in: in, out: out, nice: group.giveWay, kill: group.kill, wait: group.wait}, nil
}

// group is a process and whatever it starts.
type group struct {
	cmd  *exec.Cmd
	nice int

	mu    sync.Mutex // protects following
	ended bool       // and reaped: its number may be another's by now
}

func (g *group) giveWay() {
	g.mu.Lock()
	defer g.mu.Unlock()
	if !g.ended && g.nice > 0 {
		setNice(g.cmd.Process.Pid, g.nice)
	}
}

func (g *group) kill() {
	g.mu.Lock()
	defer g.mu.Unlock()
	if !g.ended {
		killGroup(g.cmd)
	}
}

// wait waits for the process, and ends what it leaves behind.
func (g *group) wait() error {
	waitFor(g.cmd)
	g.kill()
	g.mu.Lock()
	defer g.mu.Unlock()
	g.ended = true
	if err := g.cmd.Wait(); err != nil {
		return fmt.Errorf("the engine has ended: %w", err)
	}
	return errors.New("the engine has ended by itself")
}

// watch notes the end of the process. It is the one that waits for it.
func (c *conn) watch() {
	c.reason = c.wait()
	close(c.ended)
}

// quit ends the engine, politely first if it may still listen, and returns when it is gone.
func (c *conn) quit(politely bool, within time.Duration) {
	if politely && c.say("quit\n", within) == nil {
		c.endsWithin(within)
	}
	c.kill()
	c.in.Close()
	<-c.ended
	c.out.Close() // something that fled from the group may still hold the other end
}

func (c *conn) endsWithin(d time.Duration) bool {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-c.ended:
		return true
	case <-timer.C:
		return false
	}
}

// say writes to the engine.
func (c *conn) say(text string, within time.Duration) error {
	if d, ok := c.in.(interface{ SetWriteDeadline(time.Time) error }); ok {
		d.SetWriteDeadline(time.Now().Add(within)) // without it a full pipe would hold us up
	}
	_, err := io.WriteString(c.in, text)
	return err
}
