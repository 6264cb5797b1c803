package overlay

import (
	"errors"
	"net"
	"os"
	"time"
)

// becomesPage has a connection wait for the page as a page is waited for, and has the system keep
// no more than sendMost for it, and unsentMost of what is not under way.
func becomesPage(conn net.Conn, box *mailbox) error {
	if sealed, ok := conn.(interface{ NetConn() net.Conn }); ok { // TLS
		conn = sealed.NetConn()
	}
	line, ok := conn.(*counted)
	if !ok {
		return errors.New("a connection that Serve has not accepted")
	}
	line.ended = box.ended
	if tcp, ok := line.Conn.(*net.TCPConn); ok { // others keep nothing
		return errors.Join(tcp.SetWriteBuffer(sendMost), boundUnsent(tcp))
	}
	return nil
}

// Write waits for a page as long as that takes something: over a slow line it is shown the newest
// as fast as that goes. It is looked at every writeStep, and not when the system says that there is
// room again, which it does when a third of its buffer is free: of sendMost that takes longer than
// writeWait at 10 kB/s. A page that has to go has writeWait in all. This must stand below TLS, which a
// write that has come to its deadline leaves broken (crypto/tls, Conn.SetWriteDeadline).
func (c *counted) Write(p []byte) (written int, err error) {
	if c.ended == nil {
		return c.Conn.Write(p) // of net/http, which sets limits of its own
	}
	for c.waited < writeWait {
		if err := c.SetWriteDeadline(time.Now().Add(writeStep)); err != nil {
			return written, err
		}
		n, err := c.Conn.Write(p[written:])
		written += n
		stuck := errors.Is(err, os.ErrDeadlineExceeded)
		if stuck {
			c.waited += writeStep
		}
		if c.waited > 0 && n > 0 && !c.ended() {
			c.waited = 0
		}
		if !stuck {
			return written, err
		}
	}
	return written, errSlowPage
}
