package overlay

import (
	"net"
	"net/netip"
	"sync"
	"time"

	"clocktell/overlay/access"
)

// Connections open at the same time unless the options say otherwise. A browser opens six
// besides its sockets, so one machine can have all scenes of a show and its pages.
const (
	DefaultMaxConns     = 2000 // in all
	DefaultMaxConnsEach = 200  // from one address
)

// Conns is what the metrics read of the connections.
type Conns struct {
	Open              int
	RefusedAll        uint64 // since the start, because too many were open
	RefusedOfOne      uint64 // because too many were open from one address
	WrongTokens       uint64
	WrongTokensOfPush uint64
}

// limits counts connections and lets no more in than may be open.
type limits struct {
	all, each int

	mu      sync.Mutex // protects following
	open    map[netip.Prefix]int
	count   int
	refused [2]uint64 // of all, of one
}

func newLimits(all, each int) *limits {
	return &limits{all: all, each: each, open: make(map[netip.Prefix]int)}
}

// take counts a connection in, unless there are too many.
func (l *limits) take(from netip.Prefix) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	switch {
	case l.count >= l.all:
		l.refused[0]++
		return false
	case l.open[from] >= l.each:
		l.refused[1]++
		return false
	}
	l.count++
	l.open[from]++
	return true
}

func (l *limits) giveBack(from netip.Prefix) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.count--
	if l.open[from]--; l.open[from] == 0 {
		delete(l.open, from)
	}
}

// limited is a listener that closes at once what is too many.
type limited struct {
	net.Listener
	limits *limits
}

func (l *limited) Accept() (net.Conn, error) {
	for {
		conn, err := l.Listener.Accept()
		if err != nil {
			return nil, err
		}
		from := access.Source(conn.RemoteAddr().String())
		if l.limits.take(from) {
			return &counted{Conn: conn, limits: l.limits, from: from}, nil
		}
		_ = conn.Close() // whatever it says, it is gone
	}
}

// counted is a connection that is counted out when it closes.
type counted struct {
	net.Conn
	limits *limits
	from   netip.Prefix
	once   sync.Once

	// Of a page's connection, see patience.go; one writes at a time.
	ended  func() bool   // whether the page has to go; nil: it is no page's
	waited time.Duration // since it has last taken something
}

func (c *counted) Close() error {
	c.once.Do(func() { c.limits.giveBack(c.from) })
	return c.Conn.Close()
}

// CloseWrite lets whoever sends too much read our answer before the line is cut.
func (c *counted) CloseWrite() error {
	if half, ok := c.Conn.(interface{ CloseWrite() error }); ok {
		return half.CloseWrite()
	}
	return nil
}

// Conns returns the connections open now, and what was turned away since the start.
func (s *Server) Conns() Conns {
	l := s.limits
	l.mu.Lock()
	defer l.mu.Unlock()
	return Conns{
		Open: l.count, RefusedAll: l.refused[0], RefusedOfOne: l.refused[1],
		WrongTokens: s.failed.Total(), WrongTokensOfPush: s.failedPush.Total(),
	}
}
