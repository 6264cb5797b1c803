package overlay

import (
	"context"
	"errors"
	"net"
	"net/http"
	"sync"
	"time"
)

// shutdownWait is how long open requests may take to end when the server stops.
const shutdownWait = 3 * time.Second

// shutDown ends a server whose pages have been told to go. What has not ended in time is cut off,
// which is no fault of the show.
func (s *Server) shutDown(server *http.Server) error {
	stop, cancel := context.WithTimeout(context.Background(), shutdownWait)
	defer cancel()
	err := server.Shutdown(stop)
	if !errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	s.Log.Warn("a request is cut off: it has not ended while the relay stops", "waited", shutdownWait)
	return server.Close()
}

// silent are the connections that have asked nothing yet. Browsers open some ahead of what they
// may ask for, and net/http would wait for these until it has known them for five seconds.
type silent struct {
	mu    sync.Mutex // protects following
	conns map[net.Conn]struct{}
}

// note is the server's ConnState.
func (s *silent) note(conn net.Conn, state http.ConnState) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if state == http.StateNew {
		s.conns[conn] = struct{}{}
	} else {
		delete(s.conns, conn)
	}
}

func (s *silent) close() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for conn := range s.conns {
		_ = conn.Close() // nobody waits for anything on it
	}
}
