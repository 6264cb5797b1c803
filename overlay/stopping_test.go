package overlay

import (
	"net"
	"testing"
	"testing/synctest"
	"time"
)

// TestStopsInTime: a server that stops waits for no connection that has asked nothing yet, as browsers
// open some ahead, and a while for a request that does not end. Neither is an error of it.
func TestStopsInTime(t *testing.T) {
	for _, test := range []struct {
		name, says string
		most       time.Duration
	}{
		{"nothing was said", "", time.Second},
		{"half a header", "GET /heal", time.Second},
		{"half a body", "POST /by-hand HTTP/1.1\r\nHost: 127.0.0.1:8600\r\nContent-Type: application/json\r\nContent-Length: 20\r\n\r\n{", shutdownWait + time.Second},
	} {
		t.Run(test.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				h := newHall(t, 0)
				var conns []net.Conn
				for range 3 {
					conn := h.listener.dialFrom(net.IPv4(127, 0, 0, 1))
					if _, err := conn.Write([]byte(test.says)); err != nil {
						t.Fatal(err)
					}
					conns = append(conns, conn)
				}
				synctest.Wait()
				began := time.Now()
				h.stop() // which fails if Serve returns an error
				if took := time.Since(began); took > test.most {
					t.Errorf("it takes %v to stop, more than %v", took, test.most)
				}
				for _, conn := range conns {
					if n, err := conn.Read(make([]byte, 1)); err == nil {
						t.Errorf("a connection goes on after the end: %d bytes", n)
					}
				}
			})
		})
	}
}
