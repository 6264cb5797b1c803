package overlay

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/coder/websocket"

	"clocktell/overlay/access"
	"clocktell/overlay/wire"
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
		"GET /health": producer, "GET /metrics": producer, "POST /by-hand": producer, "GET /api/access": producer, "POST /api/access/{role}": producer,
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

// TestCookieWay: a link sets the cookie and leaves the address; the cookie opens the page,
// its socket and its calls. Attributes after RFC 6265bis, 5.6.
func TestCookieWay(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		synctest.Wait()
		response := h.get(t, "/panel?x=1&token="+tokenOf(access.Panel), nil)
		cookies := response.Cookies()
		if response.StatusCode != 303 || response.Header.Get("Location") != "/panel?x=1" || len(cookies) != 1 {
			t.Fatalf("%d to %q with %d cookies", response.StatusCode, response.Header.Get("Location"), len(cookies))
		}
		c := cookies[0]
		if c.Name != "clocktell-8600" || c.Value != tokenOf(access.Panel) || !c.HttpOnly || c.Secure || c.SameSite != http.SameSiteStrictMode ||
			c.Path != "/" || c.Domain != "" || c.MaxAge != int(cookieAge.Seconds()) {
			t.Errorf("cookie %v", c)
		}
		with := header("Cookie", c.Name+"="+c.Value, "Origin", "http://127.0.0.1:8600")
		if got := h.get(t, "/panel", with); got.StatusCode != 200 || len(got.Cookies()) != 1 {
			t.Errorf("the page with the cookie: %d, %d cookies", got.StatusCode, len(got.Cookies()))
		}
		if status, err := h.upgrade(t, "page=panel", with); err != nil {
			t.Errorf("the socket with the cookie: %d, %v", status, err)
		}
		if got, reply := h.postTo("/at-panel", strings.NewReader(`{"id":"a","who":"Nadja","act":"note","text":"hello"}`), with); got.StatusCode != 200 {
			t.Errorf("an act with the cookie: %d %+v", got.StatusCode, reply)
		}
		if got := h.get(t, "/desk", with); got.StatusCode != 403 {
			t.Errorf("the desk with the panel's cookie: %d", got.StatusCode)
		}
	})
}

func (h *hall) get(t *testing.T, path string, head http.Header) *http.Response {
	t.Helper()
	request, err := http.NewRequest("GET", "http://127.0.0.1:8600"+path, nil)
	if err != nil {
		t.Fatal(err)
	}
	for name, values := range head {
		request.Header[name] = values
	}
	response, err := h.client.Transport.RoundTrip(request)
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(response.Body)
	if err != nil {
		t.Fatal(err)
	}
	response.Body.Close()
	response.Body = io.NopCloser(bytes.NewReader(body))
	return response
}

// TestLinkTakesNothingAway: a producer who opens the panel's link stays the producer; who
// has less becomes more.
func TestLinkTakesNothingAway(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		as := func(role access.Role) http.Header { return header("Cookie", "clocktell-8600="+tokenOf(role)) }
		if got := h.get(t, "/panel?token="+tokenOf(access.Panel), as(access.Producer)); got.StatusCode != 303 || len(got.Cookies()) != 0 {
			t.Errorf("the producer's cookie gives way: %d, %v", got.StatusCode, got.Cookies())
		}
		if got := h.get(t, "/panel?token="+tokenOf(access.Panel), as(access.Viewer)); got.StatusCode != 303 || len(got.Cookies()) != 1 {
			t.Errorf("the viewer's cookie stays: %d, %v", got.StatusCode, got.Cookies())
		}
	})
}

// TestCookieOfALinkElsewhere: a browser that follows a link from another site sends no cookie of
// SameSite=Strict (RFC 6265bis, 8.8.3), so the page comes back by itself once, and no more.
func TestCookieOfALinkElsewhere(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		body := func(path string, head http.Header) (int, string) {
			response := h.get(t, path, head)
			text, _ := io.ReadAll(response.Body)
			return response.StatusCode, string(text)
		}
		status, text := body("/panel?a=b", nil)
		if status != 401 || !strings.Contains(text, `content="0;url=/panel?a=b&amp;again="`) {
			t.Errorf("%d %s", status, text)
		}
		if status, text := body("/panel?a=b&again=", nil); status != 401 || strings.Contains(text, "http-equiv") {
			t.Errorf("comes back for ever: %d %s", status, text)
		}
		got := h.get(t, "/panel?a=b&again=", header("Cookie", "clocktell-8600="+tokenOf(access.Panel)))
		if got.StatusCode != 303 || got.Header.Get("Location") != "/panel?a=b" {
			t.Errorf("with its cookie: %d to %q", got.StatusCode, got.Header.Get("Location"))
		}
	})
}

// TestTokenInTheAddress counts for scenes alone.
func TestTokenInTheAddress(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		token := "token=" + tokenOf(access.Producer)
		if got := h.get(t, "/scene/board?"+token, nil); got.StatusCode != 200 || len(got.Cookies()) != 0 {
			t.Errorf("a scene: %d, cookies %v", got.StatusCode, got.Cookies())
		}
		if status, err := h.upgrade(t, "page=scene/board&"+token, nil); err != nil {
			t.Errorf("a scene's socket: %d %v", status, err)
		}
		if status, _ := h.upgrade(t, "page=panel&"+token, nil); status != 401 {
			t.Errorf("the panel's socket: %d, want 401", status)
		}
		for _, path := range []string{"/by-hand", "/at-panel", "/api/actions/to-live", "/api/access/viewer"} {
			if got, _ := h.postTo(path+"?"+token, strings.NewReader(goodMove), nil); got.StatusCode != 401 {
				t.Errorf("POST %s: %d, want 401", path, got.StatusCode)
			}
		}
		if got := h.get(t, "/api/access?"+token, nil); got.StatusCode != 401 {
			t.Errorf("GET /api/access: %d, want 401", got.StatusCode)
		}
	})
}

// withFreshKeys gives a hall tokens of its own, which may be renewed.
func withFreshKeys(t *testing.T, tokens *[]access.Token) func(*hall, *Options) {
	return func(_ *hall, o *Options) {
		keys, made, err := access.Open(t.TempDir(), time.Now)
		if err != nil {
			t.Fatal(err)
		}
		o.Keys, *tokens = keys, made
	}
}

// TestRenewalCutsOff: the old token opens nothing, sockets that came with it end with their
// code, those of other roles stay; the producer who renews stays in.
func TestRenewalCutsOff(t *testing.T) {
	var tokens []access.Token
	inHallOf(t, withFreshKeys(t, &tokens), func(t *testing.T, h *hall) {
		as := func(i int) http.Header { return header("Authorization", "Bearer "+tokens[i].Text) }
		panel, scene := h.openAs("page=panel", as(1)), h.openAs("page=scene/board", as(0))
		panel.next()
		scene.next()
		code := make(chan websocket.StatusCode)
		go func() { code <- panel.closed() }()
		response, renewed := h.renew(t, "panel", header("Cookie", "clocktell-8600="+tokens[3].Text))
		if response.StatusCode != 200 || !renewed.Done || !strings.HasPrefix(renewed.Path, "/panel?token=") || len(response.Cookies()) != 0 {
			t.Fatalf("%d %+v", response.StatusCode, renewed)
		}
		if got := <-code; got != wire.CloseTokenRenewed {
			t.Errorf("the socket ended with %d, want %d", got, wire.CloseTokenRenewed)
		}
		if got := h.server.Pages().Connected["scene/board"]; got != 1 {
			t.Error("the scene went too")
		}
		if status, _ := h.upgrade(t, "page=panel", as(1)); status != 401 {
			t.Errorf("the old token: %d", status)
		}
		if got := h.get(t, renewed.Path, nil); got.StatusCode != 303 || len(got.Cookies()) != 1 {
			t.Errorf("the new link: %d", got.StatusCode)
		}
		response, renewed = h.renew(t, "producer", header("Cookie", "clocktell-8600="+tokens[3].Text))
		if response.StatusCode != 200 || len(response.Cookies()) != 1 || !strings.Contains(renewed.Path, response.Cookies()[0].Value) {
			t.Errorf("the producer who renews the own token is out: %d %v", response.StatusCode, response.Cookies())
		}
		scene.conn.CloseNow()
	})
}

// TestRenewedByAnotherProcess: the server hears of it within keysEvery.
func TestRenewedByAnotherProcess(t *testing.T) {
	var tokens []access.Token
	var file *access.Keys
	inHallOf(t, func(h *hall, o *Options) {
		withFreshKeys(t, &tokens)(h, o)
		file = o.Keys
		dir := t.TempDir()
		o.Keys, tokens, _ = access.Open(dir, time.Now)
		file, _, _ = access.Open(dir, time.Now)
	}, func(t *testing.T, h *hall) {
		panel := h.openAs("page=panel", header("Authorization", "Bearer "+tokens[1].Text))
		code := make(chan websocket.StatusCode)
		go func() { code <- panel.closed() }()
		if _, err := file.Renew(access.Panel); err != nil {
			t.Fatal(err)
		}
		start := time.Now()
		if got := <-code; got != wire.CloseTokenRenewed || time.Since(start) > keysEvery {
			t.Errorf("ended with %d after %v", got, time.Since(start))
		}
	})
}

func (h *hall) openAs(query string, head http.Header) *page {
	h.t.Helper()
	conn, _, err := websocket.Dial(h.t.Context(), "ws://127.0.0.1:8600/live?"+query, &websocket.DialOptions{HTTPClient: h.client, HTTPHeader: head})
	if err != nil {
		h.t.Fatal(err)
	}
	conn.SetReadLimit(1 << 20)
	return &page{h.t, conn}
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

func (h *hall) renew(t *testing.T, role string, head http.Header) (*http.Response, wire.Renewed) {
	t.Helper()
	request, err := http.NewRequest("POST", "http://127.0.0.1:8600/api/access/"+role, nil)
	if err != nil {
		t.Fatal(err)
	}
	for name, values := range head {
		request.Header[name] = values
	}
	response, err := h.client.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	var answer wire.Renewed
	if err := json.NewDecoder(response.Body).Decode(&answer); err != nil {
		t.Fatal(err)
	}
	return response, answer
}
