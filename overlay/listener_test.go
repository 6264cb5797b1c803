package overlay

import (
	"errors"
	"io"
	"net"
	"net/http"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/overlay/access"
)

// TestConnectionsAreLimited: from one address and in all; what is too many is closed at once,
// others are served, and who leaves makes room.
func TestConnectionsAreLimited(t *testing.T) {
	inHallOf(t, func(_ *hall, o *Options) { o.MaxConns, o.MaxConnsEach = 5, 2 }, func(t *testing.T, h *hall) {
		one, two, three := net.IPv4(192, 0, 2, 1), net.IPv4(192, 0, 2, 2), net.IPv4(192, 0, 2, 3)
		open := []net.Conn{h.listener.dialFrom(one), h.listener.dialFrom(one)}
		third := h.listener.dialFrom(one)
		if _, err := third.Read(make([]byte, 1)); !errors.Is(err, io.EOF) {
			t.Errorf("a third from one address: %v, want it closed", err)
		}
		open = append(open, h.listener.dialFrom(two), h.listener.dialFrom(two), h.listener.dialFrom(three))
		sixth := h.listener.dialFrom(three)
		if _, err := sixth.Read(make([]byte, 1)); !errors.Is(err, io.EOF) {
			t.Errorf("a sixth in all: %v, want it closed", err)
		}
		synctest.Wait()
		if got := h.server.Conns(); got.Open != 5 || got.RefusedOfOne != 1 || got.RefusedAll != 1 {
			t.Errorf("%+v, want 5 open and one refused of each kind", got)
		}
		for _, conn := range open {
			conn.Close()
		}
		synctest.Wait()
		if got := h.get(t, "/panel", nil); got.StatusCode != http.StatusOK {
			t.Errorf("when all have left: %d", got.StatusCode)
		}
	})
}

// TestWrongTokensAreLimited: more than so many in a minute are told to wait (RFC 6585, 4), from
// their address alone, while a right token is taken all the same.
func TestWrongTokensAreLimited(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		wrong := header("Authorization", "Bearer wrong")
		for n := range access.FailuresMost {
			if got := h.get(t, "/panel", wrong); got.StatusCode != 401 {
				t.Fatalf("%d: %d", n, got.StatusCode)
			}
		}
		if got := h.get(t, "/panel", wrong); got.StatusCode != 429 || got.Header.Get("Retry-After") != "60" {
			t.Errorf("%d, Retry-After %q", got.StatusCode, got.Header.Get("Retry-After"))
		}
		if got := h.get(t, "/panel", header("Authorization", "Bearer "+goodToken)); got.StatusCode != 200 {
			t.Errorf("the right token is turned away with %d", got.StatusCode)
		}
		time.Sleep(access.FailuresWindow)
		if got := h.get(t, "/panel", wrong); got.StatusCode != 401 {
			t.Errorf("a minute later: %d", got.StatusCode)
		}
		if got := h.server.Conns().WrongTokens; got != access.FailuresMost+2 {
			t.Errorf("%d wrong tokens are counted", got)
		}
	})
}

// TestWrongPushesAreLimited: people make these tokens up, so here even the right one must wait.
func TestWrongPushesAreLimited(t *testing.T) {
	feed := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Header.Get("Authorization") != "Bearer right" {
			w.WriteHeader(http.StatusUnauthorized)
		}
	})
	inHallOf(t, func(_ *hall, o *Options) { o.Push = map[string]http.Handler{"hall": feed} }, func(t *testing.T, h *hall) {
		push := func(token string) int {
			response, _ := h.postTo("/push/hall", nil, header("Authorization", "Bearer "+token))
			return response.StatusCode
		}
		for range access.FailuresMost + 1 {
			if got := push("wrong"); got != 401 {
				t.Fatal(got)
			}
		}
		if got := push("right"); got != 429 {
			t.Errorf("%d, want 429", got)
		}
		time.Sleep(access.FailuresWindow)
		if got := push("right"); got != 200 {
			t.Errorf("a minute later: %d", got)
		}
	})
}

// TestFloodOfFrames: the count begins anew after its window.
func TestFloodOfFrames(t *testing.T) {
	var f flood
	now := time.Date(2030, 5, 4, 12, 0, 0, 0, time.UTC)
	for n := range framesMost {
		if !f.more(now) {
			t.Fatalf("frame %d is too many", n+1)
		}
	}
	if f.more(now.Add(framesWindow - 1)) {
		t.Error("one more is not too many")
	}
	if !f.more(now.Add(framesWindow)) {
		t.Error("still too many in the next window")
	}
}
