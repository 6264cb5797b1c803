package overlay

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"net"
	"net/http"
	"strings"
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

// refusal is why a request is not done, and the status that says so.
type refusal struct {
	status int
	text   string // what is wrong and what to do
}

// mayEnter refuses a request to change the show that comes from a page of somebody
// else, lacks the producer's token, or, where none is set, may come from elsewhere.
func (s *Server) mayEnter(r *http.Request, loopback bool) *refusal {
	if err := s.origins.Check(r); err != nil {
		return &refusal{http.StatusForbidden, "this request comes from a page of another address; only this relay's own pages may enter anything"}
	}
	switch {
	case s.Token != "" && !sameToken(bearer(r), s.Token):
		return &refusal{http.StatusUnauthorized, "the token is missing or wrong; open the page with it, as /health?token=TOKEN or /panel?token=TOKEN"}
	case s.Token == "" && (!loopback || forwarded(r)):
		return &refusal{http.StatusForbidden, "pages are served to other machines, so whoever enters something needs a token; name its environment variable as producer_token_env in the configuration and start again"}
	}
	return nil
}

// bearer returns the token that a request shows (RFC 6750, 2.1), or "".
func bearer(r *http.Request) string {
	scheme, token, _ := strings.Cut(r.Header.Get("Authorization"), " ")
	if !strings.EqualFold(scheme, "Bearer") {
		return ""
	}
	return strings.TrimSpace(token)
}

// sameToken compares in a time that tells nothing of the token, its length included.
func sameToken(shown, token string) bool {
	x, y := sha256.Sum256([]byte(shown)), sha256.Sum256([]byte(token))
	return subtle.ConstantTimeCompare(x[:], y[:]) == 1
}

// forwarded reports a request that a proxy has passed on: it may come from anywhere,
// although it reaches a listener on this machine.
func forwarded(r *http.Request) bool {
	return r.Header.Get("Forwarded") != "" || r.Header.Get("X-Forwarded-For") != "" || r.Header.Get("Via") != ""
}
