package overlay

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"time"

	"clocktell/overlay/access"
	"clocktell/overlay/wire"
)

// accessPath is where the producer's page asks for the viewers' token, and renews tokens.
const accessPath = "/api/access"

// keysEvery is how often a server looks whether another process has renewed a token.
const keysEvery = 2 * time.Second

func withCaller(ctx context.Context, c caller) context.Context {
	return context.WithValue(ctx, callerKey{}, c)
}

// LinkPath is where a link of a role leads, with its token: a scene of the viewers', else
// the role's page.
func LinkPath(role access.Role, token string) string {
	page := map[access.Role]string{access.Viewer: "/scene/board", access.Panel: "/panel", access.Desk: "/desk"}[role]
	if page == "" {
		page = "/health"
	}
	if token == "" {
		return page
	}
	return page + "?" + url.Values{"token": {token}}.Encode()
}

// tellAccess says which tokens there are, and the viewers', which addresses of scenes need.
func (s *Server) tellAccess(w http.ResponseWriter, _ *http.Request) {
	state := wire.Access{Roles: []wire.AccessRole{}}
	if s.Keys != nil {
		state.Tokens, state.Viewers = true, s.Keys.Viewers()
		for _, role := range access.Roles {
			state.Roles = append(state.Roles, wire.AccessRole{Role: role.String(), Made: s.Keys.Made(role).UnixMilli()})
		}
	}
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Type", "application/json")
	_, _ = w.Write(encode(state))
}

// renew makes a new token for a role, tells it this once, and cuts off whoever is there
// with the old one. The browser of a producer who renews its own keeps its place.
func (s *Server) renew(w http.ResponseWriter, r *http.Request) {
	answer, status := wire.Renewed{}, http.StatusOK
	role, err := access.ParseRole(r.PathValue("role"))
	switch {
	case err != nil:
		answer.Error, status = fmt.Sprintf("there is no such role; the roles are %v", access.Roles), http.StatusNotFound
	case s.Keys == nil:
		answer.Error, status = "no tokens are on; set access.dir in the configuration", http.StatusConflict
	default:
		token, err := s.Keys.Renew(role)
		if err != nil {
			answer.Error, status = "not renewed, the old token stays: "+err.Error(), http.StatusServiceUnavailable
			break
		}
		answer = wire.Renewed{Done: true, Role: role.String(), Path: LinkPath(role, token.Text)}
		if c := callerOf(r.Context()); c.way == byCookie && c.role == role {
			s.keep(w, r, token.Text)
		}
		defer s.renewed(role) // when whoever asked has the answer, and with it the new cookie
	}
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_, _ = w.Write(encode(answer))
	_ = http.NewResponseController(w).Flush()
}

func (s *Server) renewed(role access.Role) {
	s.Log.Info("token renewed", "role", role)
	s.pages.cutOff(role)
}

// watchKeys hears of tokens that another process has renewed, until ctx ends.
func (s *Server) watchKeys(ctx context.Context) {
	ticker := time.NewTicker(keysEvery)
	defer ticker.Stop()
	failing := false
	for {
		select {
		case <-ctx.Done():
			return
		case <-ticker.C:
		}
		roles, err := s.Keys.Refresh()
		if err != nil && !failing {
			s.Log.Warn("tokens cannot be read again; those of before stay", "err", err)
		}
		failing = err != nil
		for _, role := range roles {
			s.renewed(role)
		}
	}
}
