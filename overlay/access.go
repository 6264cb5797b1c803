package overlay

import (
	"context"
	"crypto/rand"
	"fmt"
	"net"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"time"

	"clocktell/overlay/access"
)

// newRun names one start of the server.
func newRun() string { return rand.Text()[:12] }

// OnlyHere reports an address that nobody but this machine reaches.
func OnlyHere(addr net.Addr) bool {
	tcp, ok := addr.(*net.TCPAddr)
	return ok && tcp.IP.IsLoopback()
}

// headersMost is how many header fields a request may have; browsers send some fifteen.
const headersMost = 100

// hostForm is a name or an address, with a port or without (RFC 9110, 7.2; RFC 3986, 3.2.2).
var hostForm = regexp.MustCompile(`^([A-Za-z0-9._-]+|\[[0-9A-Fa-f:.]+\])(:[0-9]{1,5})?$`)

// guarded refuses requests that make no sense and sets the headers that keep a page to
// itself. Without tokens, when only this machine is served, it also refuses any other
// host name, so that a web page somewhere cannot point a name of its own at it and read along.
func (s *Server) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		protect(w.Header(), r)
		switch {
		case !hostForm.MatchString(r.Host):
			http.Error(w, "the Host of this request is no name of a host", http.StatusBadRequest)
		case fields(r.Header) > headersMost:
			http.Error(w, fmt.Sprintf("a request has at most %d header fields", headersMost), http.StatusRequestHeaderFieldsTooLarge)
		case s.Keys == nil && !isLocalName(r.Host):
			http.Error(w, "this relay answers on this machine only; open it as http://127.0.0.1 with its port", http.StatusForbidden)
		default:
			next.ServeHTTP(w, r)
		}
	})
}

func fields(h http.Header) int {
	n := 0
	for _, values := range h {
		n += len(values)
	}
	return n
}

// protect sets what keeps a page to itself: nothing inline runs, nothing comes from or
// goes elsewhere, nobody else frames it (Content Security Policy Level 3), and no address,
// which may hold a token, is told to others (Referrer Policy, 3.1).
func protect(h http.Header, r *http.Request) {
	socket := "ws://"
	if r.TLS != nil {
		socket = "wss://"
	}
	connect := "'self'"
	if hostForm.MatchString(r.Host) {
		connect += " " + socket + r.Host // older browsers do not take it for 'self'
	}
	h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src "+connect+
		"; form-action 'self'; base-uri 'none'; frame-ancestors 'self'")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=()")
	h.Set("Cache-Control", "no-cache")
}

func isLocalName(hostport string) bool {
	host, _, err := net.SplitHostPort(hostport)
	if err != nil {
		host = strings.Trim(hostport, "[]")
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
	text   string        // what is wrong and what to do
	why    string        // the error code of RFC 6750, 3.1; "" none
	retry  time.Duration // when it may be tried again; 0 nothing is said of it
	role   access.Role   // of the token that was shown
}

// way is how a request shows what it may do.
type way uint8

const (
	byBeingHere way = iota // no tokens are on
	byBearer               // Authorization: Bearer
	byAddress              // ?token=
	byCookie
)

// caller is who makes a request.
type caller struct {
	role  access.Role
	way   way
	token string // "" when none are on
}

type callerKey struct{}

// callerOf returns who makes a request that has come through a door.
func callerOf(ctx context.Context) caller {
	c, _ := ctx.Value(callerKey{}).(caller)
	return c
}

// caller finds out who makes a request. Its address counts only where it may hold a token.
func (s *Server) caller(r *http.Request, inAddress bool) (caller, *refusal) {
	if s.Keys == nil {
		if forwarded(r) {
			return caller{}, &refusal{status: http.StatusForbidden, text: "this request comes through a proxy, so it may come from anywhere; set access.dir in the configuration, so that tokens are asked for, and start again"}
		}
		return caller{role: access.Producer}, nil
	}
	header, given := r.Header["Authorization"]
	inURL := r.URL.Query()["token"]
	switch {
	case given && len(inURL) > 0, len(header) > 1, len(inURL) > 1:
		return caller{}, &refusal{status: http.StatusBadRequest, why: "invalid_request", text: "the token is shown more than once; send it in one place"} // RFC 6750, 2
	case given:
		return s.known(r, byBearer, bearer(header[0]))
	case inAddress && len(inURL) > 0:
		return s.known(r, byAddress, inURL[0])
	}
	if best := s.cookie(r); best.token != "" {
		if best.role == access.Nobody {
			return s.known(r, byCookie, best.token)
		}
		return best, nil
	}
	return caller{}, &refusal{status: http.StatusUnauthorized, text: `the token is missing; open the page with the link that holds it, or send "Authorization: Bearer TOKEN"`}
}

// known takes a token for what it is. Who shows wrong ones too often is told to wait.
func (s *Server) known(r *http.Request, by way, token string) (caller, *refusal) {
	if role := s.Keys.RoleOf(token); role != access.Nobody {
		return caller{role, by, token}, nil
	}
	if wait := s.failed.Note(r.RemoteAddr); wait > 0 {
		return caller{}, tooOften(wait)
	}
	return caller{}, &refusal{status: http.StatusUnauthorized, why: "invalid_token", text: "the token is wrong, or has been renewed; ask the producer for a new link"}
}

func tooOften(wait time.Duration) *refusal {
	return &refusal{status: http.StatusTooManyRequests, retry: wait, why: "invalid_token",
		text: fmt.Sprintf("too many wrong tokens from your address; ask the producer for a new link, and wait %v", wait.Round(time.Second))}
}

// bearer returns the token that a header shows (RFC 6750, 2.1), or "".
func bearer(header string) string {
	scheme, token, _ := strings.Cut(header, " ")
	if !strings.EqualFold(scheme, "Bearer") {
		return ""
	}
	return strings.TrimSpace(token)
}

// proxyFields are what proxies add to a request (RFC 7239; RFC 9110, 7.6.3; the X- ones are
// common practice, no source).
var proxyFields = []string{"Forwarded", "Via", "X-Forwarded-For", "X-Forwarded-Host", "X-Forwarded-Proto", "X-Real-Ip"}

// forwarded reports a request that a proxy says it has passed on: it may come from anywhere,
// although it reaches a listener on this machine. An empty field counts too: a proxy may add its
// own line behind one that the client has sent. A proxy that says nothing is not known for one.
func forwarded(r *http.Request) bool {
	return slices.ContainsFunc(proxyFields, func(name string) bool { _, given := r.Header[name]; return given })
}
