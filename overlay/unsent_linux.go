package overlay

import (
	"errors"
	"net"

	"golang.org/x/sys/unix"
)

// boundUnsent has the system take nothing more for a page while unsentMost has not been sent yet
// (tcp(7) has no word of it; Linux, Documentation/networking/ip-sysctl.rst, tcp_notsent_lowat).
func boundUnsent(conn *net.TCPConn) error {
	raw, err := conn.SyscallConn()
	if err != nil {
		return err
	}
	var set error
	err = raw.Control(func(fd uintptr) {
		set = unix.SetsockoptInt(int(fd), unix.IPPROTO_TCP, unix.TCP_NOTSENT_LOWAT, unsentMost)
	})
	return errors.Join(err, set)
}
