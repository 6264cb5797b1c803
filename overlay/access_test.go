package overlay

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/coder/websocket"

	"clocktell/overlay/access"
	"clocktell/relay/desk"
)

// tokenOf is the token of a role in the tests that renew none.
func tokenOf(role access.Role) string {
	for _, token := range testTokens {
		if token.Role == role {
			return token.Text
		}
	}
	return ""
}

// TestWhoMayDoWhat is the table of the README: every route, and for each role whether
// it may. Every route of the server must be in it.
func TestWhoMayDoWhat(t *testing.T) {
	const nobody, viewer, panel, desk_, producer = access.Nobody, access.Viewer, access.Panel, access.Desk, access.Producer
	table := map[string]access.Role{
		"GET /{$}": nobody, "GET /favicon.ico": nobody, "GET /static/": nobody,
		"PUT /push/{feed}": nobody, "POST /push/{feed}": nobody, // whose handlers have a token of their own
		"GET /scene/board": viewer, "GET /scene/clocks": viewer, "GET /scene/wall": viewer, "GET /scene/caption": viewer, "GET /scene/challenge": viewer,
		"GET /panel": panel, "POST /at-panel": panel,
		"GET /desk": desk_, "GET /api/actions": desk_,
		"GET /health": producer, "GET /metrics": producer, "GET /recap": producer, "POST /by-hand": producer, "GET /api/access": producer, "POST /api/access/{role}": producer,
		"GET /live": nobody, // itself asks by page: TestWhoMaySeeWhat
	}
	for page := range pageKinds {
		table["GET /"+page+"/{$}"] = nobody // leads to the page
	}
	for _, action := range desk.Actions {
		table["POST /api/actions/"+action.Name] = desk_
	}
	metrics := func(_ *hall, o *Options) {
		o.Keys, o.Metrics = testKeys, http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { fmt.Fprint(w, "figures") })
		o.Recap = func(_ context.Context, w io.Writer) error { _, err := io.WriteString(w, "archive"); return err }
	}
	inHallOf(t, metrics, func(t *testing.T, h *hall) {
		doors := h.server.doors()
		if len(doors) != len(table) {
			t.Errorf("the server has %d routes, the table %d", len(doors), len(table))
		}
		for _, d := range doors {
			needed, known := table[d.pattern]
			if !known || d.role != needed {
				t.Errorf("%s needs %v, the table says %v (%v)", d.pattern, d.role, needed, known)
			}
			if d.pattern == "GET /live" {
				continue
			}
			for _, role := range append([]access.Role{access.Nobody}, access.Roles...) {
				status := h.knock(d.pattern, role)
				if shut := status == 401 || status == 403; shut == role.May(needed) {
					t.Errorf("%s as %v: %d, and it needs %v", d.pattern, role, status, needed)
				}
			}
		}
		time.Sleep(time.Second) // what joins scripts leaves a goroutine behind for 250 ms
	})
}

// knock asks for a route with a role's token and returns the status.
func (h *hall) knock(pattern string, role access.Role) int {
	h.t.Helper()
	method, path, _ := strings.Cut(pattern, " ")
	path = strings.NewReplacer("{$}", "", "{feed}", "none", "{role}", "none").Replace(path)
	request, err := http.NewRequest(method, "http://127.0.0.1:8600"+path, nil)
	if err != nil {
		h.t.Fatal(err)
	}
	if role != access.Nobody {
		request.Header.Set("Authorization", "Bearer "+tokenOf(role))
	}
	response, err := h.client.Transport.RoundTrip(request) // follows nothing
	if err != nil {
		h.t.Fatal(err)
	}
	response.Body.Close()
	return response.StatusCode
}

// TestWhoMaySeeWhat: the socket of a page needs what the page needs.
func TestWhoMaySeeWhat(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		for _, page := range pageNames() {
			for _, role := range append([]access.Role{access.Nobody}, access.Roles...) {
				head := http.Header{}
				if role != access.Nobody {
					head = header("Authorization", "Bearer "+tokenOf(role))
				}
				may := role.May(pageRole(page)) && role != access.Nobody
				status, err := h.upgrade(t, "page="+page, head)
				want := map[bool]int{true: 101, false: 403}[may]
				if role == access.Nobody {
					want = 401
				}
				if status != want || (err == nil) != may {
					t.Errorf("socket of %s as %v: %d (%v), want %d", page, role, status, err, want)
				}
			}
		}
	})
}

func (h *hall) upgrade(t *testing.T, query string, head http.Header) (int, error) {
	t.Helper()
	conn, response, err := websocket.Dial(t.Context(), "ws://127.0.0.1:8600/live?"+query, &websocket.DialOptions{HTTPClient: h.client, HTTPHeader: head})
	if err == nil {
		conn.CloseNow()
	}
	if response == nil {
		return 0, err
	}
	return response.StatusCode, err
}

// TestMayServe: without tokens nobody but this machine is served.
func TestMayServe(t *testing.T) {
	for ip, open := range map[string]bool{"127.0.0.1": true, "127.9.9.9": true, "::1": true, "0.0.0.0": false, "::": false, "192.0.2.7": false} {
		addr := &net.TCPAddr{IP: net.ParseIP(ip), Port: 8600}
		if err := MayServe(addr, nil); (err == nil) != open || err != nil && !strings.Contains(err.Error(), "access.dir") {
			t.Errorf("%s without tokens: %v", ip, err)
		}
		if err := MayServe(addr, testKeys); err != nil {
			t.Errorf("%s with tokens: %v", ip, err)
		}
	}
	l := newPipeListener()
	l.ip = net.IPv4(192, 0, 2, 7) // RFC 5737: for documentation
	if err := New(Options{}).Serve(t.Context(), l); !errors.Is(err, errOpenToAll) {
		t.Errorf("serves all the same: %v", err)
	}
	<-l.done // it is closed, and nobody has been let in
}

// TestProxiesAreKnown: without tokens nothing of the show goes through a proxy that says it is
// one, whatever the client has put before the proxy's own line.
func TestProxiesAreKnown(t *testing.T) {
	inHallOf(t, func(*hall, *Options) {}, func(t *testing.T, h *hall) {
		if got := h.get(t, "/health", nil); got.StatusCode != 200 {
			t.Errorf("without a proxy: %d", got.StatusCode)
		}
		for _, name := range proxyFields {
			for _, values := range [][]string{{"192.0.2.9"}, {""}, {"", "192.0.2.9"}} {
				head := http.Header{name: values}
				if got := h.get(t, "/health", head); got.StatusCode != 403 {
					t.Errorf("%s %q: %d", name, values, got.StatusCode)
				}
				if status, _ := h.upgrade(t, "page=health", head); status != 403 {
					t.Errorf("%s %q, the socket: %d", name, values, status)
				}
			}
		}
	})
}
