package overlay

import (
	"crypto/rand"
	"net"
	"net/http"
)

// newRun names one start of the server.
func newRun() string { return rand.Text()[:12] }

func isLoopback(addr net.Addr) bool {
	tcp, ok := addr.(*net.TCPAddr)
	return ok && tcp.IP.IsLoopback()
}

// guarded sets the headers that keep a page to itself. A server that listens on
// this machine only also refuses any other host name, so that a web page
// somewhere cannot point a name of its own at it and read along.
func guarded(next http.Handler, loopback bool) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if loopback && !isLocalName(r.Host) {
			http.Error(w, "this relay answers on this machine only; open it as http://127.0.0.1 with its port", http.StatusForbidden)
			return
		}
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'self'; connect-src 'self' ws://"+r.Host+" wss://"+r.Host+"; object-src 'none'; base-uri 'none'; frame-ancestors 'self'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-cache")
		next.ServeHTTP(w, r)
	})
}

func isLocalName(hostport string) bool {
	host, _, err := net.SplitHostPort(hostport)
	if err != nil {
		host = hostport
	}
	if host == "localhost" {
		return true
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}
