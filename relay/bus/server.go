package bus

import (
	"errors"
	"fmt"
	"net"
	"time"

	"github.com/nats-io/nats-server/v2/server"
)

// readyWait is how long the server in this process may take to start.
const readyWait = 10 * time.Second

// Server is a NATS server in this process: a bus for a small network and for tests.
type Server struct{ server *server.Server }

// ServerOptions say where it listens and keeps its streams.
type ServerOptions struct {
	Listen string // HOST:PORT
	Dir    string // where streams are kept
	Token  string // that clients show; "" none
}

// Serve starts a server; Close ends it.
func Serve(o ServerOptions) (*Server, error) {
	host, port, err := hostPort(o.Listen)
	if err != nil {
		return nil, fmt.Errorf("serve a bus at %q: %w", o.Listen, err)
	}
	s, err := server.NewServer(&server.Options{
		ServerName: "clocktell", Host: host, Port: port, JetStream: true, StoreDir: o.Dir, SyncAlways: true,
		Authorization: o.Token, MaxPayload: messageMost, MaxPending: 2 * messageMost, NoSigs: true, NoLog: true, DontListen: false,
	})
	if err != nil {
		return nil, fmt.Errorf("serve a bus at %s: %w", o.Listen, err)
	}
	s.Start()
	if !s.ReadyForConnections(readyWait) {
		s.Shutdown()
		return nil, fmt.Errorf("serve a bus at %s: it did not start within %v; is the address taken, or %s not writable?", o.Listen, readyWait, o.Dir)
	}
	return &Server{server: s}, nil
}

// URL returns what others reach it by.
func (s *Server) URL() string { return s.server.ClientURL() }

// Close ends the server and waits for it.
func (s *Server) Close() {
	s.server.Shutdown()
	s.server.WaitForShutdown()
}

var errHostPort = errors.New("not an address such as 127.0.0.1:4222")

func hostPort(address string) (host string, port int, err error) {
	tcp, err := net.ResolveTCPAddr("tcp", address)
	if err != nil || tcp.IP == nil {
		return "", 0, errHostPort
	}
	if tcp.Port == 0 {
		return tcp.IP.String(), server.RANDOM_PORT, nil
	}
	return tcp.IP.String(), tcp.Port, nil
}
