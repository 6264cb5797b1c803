package bus

import (
	"net"
	"sync"
	"testing"
	"time"
)

// proxy is the line of one process to the bus, which can fail in the ways that lines do.
type proxy struct {
	to       string
	listener net.Listener
	group    sync.WaitGroup

	mu      sync.Mutex // protects what follows
	changed *sync.Cond
	conns   map[net.Conn]bool
	stalled bool          // nothing goes either way, and nothing is cut
	mute    bool          // what the bus says gets lost
	down    bool          // nobody gets a connection
	delay   time.Duration // each way
	closed  bool
}

func newProxy(t *testing.T, to string) *proxy {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	p := &proxy{to: to, listener: listener, conns: make(map[net.Conn]bool)}
	p.changed = sync.NewCond(&p.mu)
	p.group.Go(p.accept)
	t.Cleanup(func() {
		p.set(func() { p.closed = true })
		listener.Close()
		p.cut()
		p.group.Wait()
	})
	return p
}

func (p *proxy) url() string { return "nats://" + p.listener.Addr().String() }

// set changes how the line is.
func (p *proxy) set(change func()) {
	p.mu.Lock()
	defer p.mu.Unlock()
	change()
	p.changed.Broadcast()
}

func (p *proxy) stall(is bool) { p.set(func() { p.stalled = is }) }

// cut ends all connections.
func (p *proxy) cut() {
	p.set(func() {
		for c := range p.conns {
			c.Close()
		}
		clear(p.conns)
	})
}

// drop cuts, and lets nobody connect until heal.
func (p *proxy) drop() {
	p.set(func() { p.down = true })
	p.cut()
}

// heal makes the line a good one.
func (p *proxy) heal() {
	p.set(func() { p.stalled, p.mute, p.down, p.delay = false, false, false, 0 })
}

func (p *proxy) accept() {
	for {
		near, err := p.listener.Accept()
		if err != nil {
			return
		}
		p.mu.Lock()
		refused := p.down || p.closed
		p.mu.Unlock()
		far, err := net.Dial("tcp", p.to)
		if refused || err != nil {
			near.Close()
			if err == nil {
				far.Close()
			}
			continue
		}
		p.set(func() { p.conns[near], p.conns[far] = true, true })
		p.group.Go(func() { p.copy(near, far, false) })
		p.group.Go(func() { p.copy(far, near, true) })
	}
}

func (p *proxy) copy(from, to net.Conn, back bool) {
	defer from.Close()
	defer to.Close()
	buffer := make([]byte, 64<<10)
	for {
		n, err := from.Read(buffer)
		if err != nil {
			return
		}
		forward, delay := p.wait(from, back)
		if delay > 0 {
			timer := time.NewTimer(delay)
			<-timer.C
		}
		if forward {
			if _, err := to.Write(buffer[:n]); err != nil {
				return
			}
		}
	}
}

// wait waits while the line stands still, and tells whether what was read goes on.
func (p *proxy) wait(from net.Conn, back bool) (forward bool, delay time.Duration) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for p.stalled && !p.closed && p.conns[from] {
		p.changed.Wait()
	}
	return !p.mute || !back, p.delay
}
