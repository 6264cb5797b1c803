package overlay

import (
	"net/http"
	"slices"
	"strings"

	"clocktell/overlay/access"
)

// door is one route: who may use it, and what is behind it. All doors together are the
// only place that says who may do what.
type door struct {
	pattern   string
	role      access.Role // the lowest that may; Nobody: everyone
	page      string      // "": no page for people to look at
	inAddress bool        // the token may stand in the address
	behind    http.Handler
}

// pageRole returns the lowest role that may see a page; one that nobody has thought of is
// the producer's.
func pageRole(page string) access.Role {
	switch {
	case isScene(page):
		return access.Viewer
	case page == "panel":
		return access.Panel
	case page == "desk":
		return access.Desk
	}
	return access.Producer
}

// isScene reports a page for the streaming software, which keeps an address and nothing else.
func isScene(page string) bool { return strings.HasPrefix(page, "scene/") }

// actRoles says who may do what changes the show, by its route.
var actRoles = map[string]access.Role{
	"/at-panel": access.Panel, actionsPath: access.Desk, "/by-hand": access.Producer, accessPath: access.Producer,
}

// opened puts the doors into a table of routes.
func (s *Server) opened(doors []door) http.Handler {
	mux := http.NewServeMux()
	for _, d := range doors {
		mux.Handle(d.pattern, s.through(d))
	}
	return s.guarded(mux)
}

// through lets in who may.
func (s *Server) through(d door) http.Handler {
	if d.role == access.Nobody {
		return d.behind
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if d.page != "" && !d.inAddress && s.enterPage(w, r, d) {
			return
		}
		c, refused := s.mayEnter(r, d)
		if refused != nil {
			s.refuse(w, r, d, refused)
			return
		}
		if d.page != "" && c.way == byCookie {
			s.keep(w, r, c.token) // its age counts from now
			if r.URL.Query().Has(againKey) {
				query := r.URL.Query()
				query.Del(againKey)
				redirect(w, r, query.Encode())
				return
			}
		}
		d.behind.ServeHTTP(w, r.WithContext(withCaller(r.Context(), c)))
	})
}

// mayEnter refuses a request that comes from a page of somebody else, unless it shows a
// token that no browser adds by itself, and one of too low a role.
func (s *Server) mayEnter(r *http.Request, d door) (caller, *refusal) {
	if _, explicit := r.Header["Authorization"]; s.Keys == nil || !explicit {
		if err := s.origins.Check(r); err != nil {
			return caller{}, &refusal{status: http.StatusForbidden, text: "this request comes from a page of another address; only this relay's own pages may enter anything"}
		}
	}
	c, refused := s.caller(r, d.inAddress)
	if refused == nil && !c.role.May(d.role) {
		refused = tooLow(c.role, d.role)
	}
	return c, refused
}

// refuse says no in the way that a door's users understand.
func (s *Server) refuse(w http.ResponseWriter, r *http.Request, d door, refused *refusal) {
	s.Log.Debug("refused", "at", d.pattern, "from", r.RemoteAddr, "status", refused.status, "why", refused.text)
	switch {
	case d.page != "":
		s.refusePage(w, r, d, refused)
	case r.Method == http.MethodPost:
		reply(w, refused)
	default:
		refused.headers(w.Header())
		http.Error(w, refused.text, refused.status)
	}
}

// pageNames are all pages, in a fixed order.
func pageNames() []string {
	names := make([]string, 0, len(pageKinds))
	for name := range pageKinds {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
