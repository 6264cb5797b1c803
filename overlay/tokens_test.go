package overlay

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/coder/websocket"

	"clocktell/overlay/access"
	"clocktell/overlay/wire"
)

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
