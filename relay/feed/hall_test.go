package feed

import (
	"context"
	"io"
	"net"
	"net/http"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"
)

const pushToken = "hidden-push-token"

// hall is a Push behind a server on a network in memory, and whoever pushes to it.
type hall struct {
	t         *testing.T
	push      *Push
	transport http.RoundTripper
	dial      func() net.Conn

	mu     sync.Mutex
	events []event
	onTell func() // before each event; the Sink takes as long as this does
}

func (h *hall) Answered(a Answer) {
	h.tell(event{at: a.At, took: a.Took, isNew: a.New, body: string(a.Body), modified: a.Modified})
}

func (h *hall) Failed(f Fault) {
	h.tell(event{at: f.At, took: f.Took, reason: f.Reason, err: f.Err.Error(), partial: f.Partial})
}

func (h *hall) tell(e event) {
	if h.onTell != nil {
		h.onTell()
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	h.events = append(h.events, e)
}

// heard takes what the Sink has been told since the last call, in short.
func (h *hall) heard() string {
	synctest.Wait()
	h.mu.Lock()
	defer h.mu.Unlock()
	var out []string
	for _, e := range h.events {
		out = append(out, e.short())
		if strings.Contains(e.err, pushToken) {
			h.t.Errorf("%q shows the token", e.err)
		}
	}
	h.events = nil
	return strings.Join(out, ", ")
}

// inHall runs use in a bubble, beside a running Push.
func inHall(t *testing.T, o PushOptions, use func(h *hall)) {
	t.Helper()
	synctest.Test(t, func(t *testing.T) {
		beforeHall(t, o, func(h *hall) {
			end := h.run()
			use(h)
			end()
		})
	})
}

// beforeHall is inHall without the running.
func beforeHall(t *testing.T, o PushOptions, use func(h *hall)) {
	o.Token = pushToken
	p, err := NewPush(o)
	if err != nil {
		t.Fatal(err)
	}
	a := &arena{handler: p.ServeHTTP}
	a.serve(t, func(transport http.RoundTripper) {
		dial := func() net.Conn {
			conn, err := a.dial(t.Context(), "tcp", "")
			if err != nil {
				t.Fatal(err)
			}
			return conn
		}
		use(&hall{t: t, push: p, transport: transport, dial: dial})
		time.Sleep(sec) // net/http lets a connection it closes linger for half of that
	})
}

// run runs the Push until the returned function is called, which waits for it.
func (h *hall) run() (end func()) {
	ctx, cancel := context.WithCancel(h.t.Context())
	ran := make(chan error)
	go func() { ran <- h.push.Run(ctx, h) }()
	synctest.Wait()
	return func() {
		cancel()
		if err := <-ran; err != nil {
			h.t.Errorf("Run returned %v, want nil", err)
		}
	}
}

// reply is what a push was answered.
type pushReply struct {
	code   int
	header http.Header
	text   string
	took   time.Duration
}

// put pushes body with the right token; the header is in pairs, and may change that.
func (h *hall) put(body io.Reader, header ...string) pushReply {
	return h.send(http.MethodPut, body, header...)
}

func (h *hall) send(method string, body io.Reader, header ...string) pushReply {
	r, err := http.NewRequest(method, "http://arena.example/push", body)
	if err != nil {
		h.t.Error(err)
		return pushReply{}
	}
	r.Header.Set("Authorization", "Bearer "+pushToken)
	for i := 0; i < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
		if header[i+1] == "" {
			r.Header.Del(header[i])
		}
	}
	start := time.Now()
	resp, err := (&http.Client{Transport: h.transport}).Do(r)
	if err != nil {
		h.t.Error(err)
		return pushReply{}
	}
	defer resp.Body.Close()
	text, _ := io.ReadAll(resp.Body)
	if resp.Close { // the client takes this header away
		resp.Header.Set("Connection", "close")
	}
	if strings.Contains(string(text), pushToken) {
		h.t.Errorf("the answer %q shows the token", text)
	}
	return pushReply{resp.StatusCode, resp.Header, string(text), time.Since(start)}
}

// want puts and holds the answer and what the Sink was told against these.
func (h *hall) want(code int, told string, body io.Reader, header ...string) pushReply {
	h.t.Helper()
	got := h.put(body, header...)
	if heard := h.heard(); got.code != code || heard != told {
		h.t.Errorf("answered %d %q and told %q, want %d and %q", got.code, got.text, heard, code, told)
	}
	return got
}
