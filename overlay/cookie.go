package overlay

import (
	"net"
	"net/http"
	"strconv"
	"strings"
	"time"

	"clocktell/overlay/access"
)

// cookieAge is how long a browser keeps a token after a page was opened with it: longer
// than any event lasts. Renewing the token ends it at once.
const cookieAge = 30 * 24 * time.Hour

// cookiesMost is how many cookies of our name are looked at; a browser sends one.
const cookiesMost = 4

// cookieName is the name of our cookie. Cookies of one host are sent to all its ports
// (RFC 6265bis, 8.5), so two relays on one machine need two names; with TLS the prefix
// binds it to this host, the whole of it, and TLS (4.1.3.2).
func cookieName(port int, secure bool) string {
	name := "clocktell-" + strconv.Itoa(port)
	if secure {
		return "__Host-" + name
	}
	return name
}

// cookie returns the caller whose token the cookies of a request hold: the highest if there
// are several, without a token if there is none.
func (s *Server) cookie(r *http.Request) caller {
	var best caller
	for i, c := range r.CookiesNamed(cookieName(s.port, r.TLS != nil)) {
		if i == cookiesMost {
			break
		}
		if role := s.Keys.RoleOf(c.Value); best.token == "" || role > best.role {
			best = caller{role, byCookie, c.Value}
		}
	}
	return best
}

// keep has the browser show a token from now on. No script sees it (RFC 6265bis, 5.6.6),
// and no request that a page of somebody else starts carries it (5.6.7).
func (s *Server) keep(w http.ResponseWriter, r *http.Request, token string) {
	http.SetCookie(w, &http.Cookie{
		Name: cookieName(s.port, r.TLS != nil), Value: token, Path: "/", MaxAge: int(cookieAge.Seconds()),
		HttpOnly: true, Secure: r.TLS != nil, SameSite: http.SameSiteStrictMode,
	})
}

// enterPage takes the token out of a page's address into a cookie. It reports whether it
// has answered. A browser that may do more already goes on doing so.
func (s *Server) enterPage(w http.ResponseWriter, r *http.Request, d door) bool {
	query := r.URL.Query()
	shown := query["token"]
	if len(shown) == 0 {
		return false
	}
	if s.Keys != nil {
		c, refused := s.caller(r, true)
		if refused == nil && !c.role.May(d.role) {
			refused = tooLow(c.role, d.role)
		}
		if refused != nil {
			s.refusePage(w, r, d, refused)
			return true
		}
		has := s.cookie(r)
		if has.token == "" && mayWithhold(r) && !query.Has(againKey) {
			s.comeBack(w, d, query)
			return true
		}
		if has.role < c.role {
			s.keep(w, r, c.token)
		}
	}
	query.Del("token")
	query.Del(againKey)
	redirect(w, r, query.Encode())
	return true
}

// mayWithhold reports a browser that may have a cookie of ours and not have sent it, since a
// link on another site has led here (RFC 6265bis, 5.2), or since it does not say from where
// it comes: over plain HTTP browsers leave that out (Fetch Metadata Request Headers, 2.2).
func mayWithhold(r *http.Request) bool {
	if from := r.Header.Get("Sec-Fetch-Site"); from != "" {
		return from == "cross-site"
	}
	return strings.Contains(r.Header.Get("Accept"), "text/html")
}

// redirect leads to the same page with another query.
func redirect(w http.ResponseWriter, r *http.Request, query string) {
	target := *r.URL
	target.Scheme, target.Host, target.RawQuery = "", "", query
	w.Header().Set("Cache-Control", "no-store")
	http.Redirect(w, r, target.String(), http.StatusSeeOther)
}

// portOf is the port that a server listens on.
func portOf(addr net.Addr) int {
	if tcp, ok := addr.(*net.TCPAddr); ok {
		return tcp.Port
	}
	return 0
}

// tooLow is for a token that is right and not enough (RFC 6750, 3.1).
func tooLow(role, needed access.Role) *refusal {
	return &refusal{status: http.StatusForbidden, why: "insufficient_scope", role: role,
		text: "this token is the " + role.String() + "'s, and what you ask for needs the " + needed.String() + "'s; ask the producer for that link"}
}
