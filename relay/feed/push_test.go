package feed

import (
	"bytes"
	"fmt"

	"io"
	"net/http"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

func TestPushDelivers(t *testing.T) {
	for _, method := range []string{http.MethodPut, http.MethodPost} {
		inHall(t, PushOptions{Check: checkTags}, func(h *hall) {
			if got := h.send(method, strings.NewReader(pgn), "Content-Type", "image/png"); got.code != http.StatusNoContent || got.text != "" {
				t.Errorf("%s: answered %d %q, want 204 and no text", method, got.code, got.text)
			}
			if got := h.heard(); got != "new "+pgn {
				t.Errorf("told %q", got)
			}
			h.want(204, "same", strings.NewReader(pgn))
			h.want(204, "new "+pgn+"2", strings.NewReader(pgn+"2"))
			h.want(204, "new "+pgn, strings.NewReader(pgn)) // shorter, and meant
		})
	}
}

func TestPushStamps(t *testing.T) {
	inHall(t, PushOptions{}, func(h *hall) {
		begin := time.Now()
		slow, w := io.Pipe()
		go func() { write(w, "a", "b"); w.Close() }()
		h.put(slow)
		if e := h.events[0]; e.at.Sub(begin) != 600*ms || e.took != 600*ms || !e.modified.IsZero() {
			t.Errorf("got %+v, want it received and taking 600 ms", e)
		}
	})
}

func TestPushGzip(t *testing.T) {
	inHall(t, PushOptions{}, func(h *hall) {
		h.want(204, "new a", bytes.NewReader(zipped([]byte("a"))), "Content-Encoding", "gzip")
		h.want(204, "new b", bytes.NewReader(zipped([]byte("b"))), "Content-Encoding", "X-GZIP")
		h.want(204, "new c", strings.NewReader("c"), "Content-Encoding", "identity")
	})
}

// 204 says that the Sink has taken it, no sooner.
func TestPushWaitsForTheSink(t *testing.T) {
	inHall(t, PushOptions{}, func(h *hall) {
		h.onTell = func() { time.Sleep(3 * sec) }
		if got := h.want(204, "new a", strings.NewReader("a")); got.took != 3*sec {
			t.Errorf("answered after %v, want 3 s", got.took)
		}
	})
}

// A show that takes too long is busy for whoever waits, longer or shorter in the row.
func TestPushBusySink(t *testing.T) {
	inHall(t, PushOptions{Timeout: 2 * sec}, func(h *hall) {
		h.onTell = func() { time.Sleep(5 * sec) }
		first := make(chan pushReply)
		go func() { first <- h.put(strings.NewReader("a")) }()
		synctest.Wait()
		for _, got := range []pushReply{h.put(strings.NewReader("b")), <-first} {
			if got.code != 503 || got.header.Get("Retry-After") != "1" || got.took != 2*sec {
				t.Errorf("answered %d, Retry-After %q, after %v; want 503, 1, 2 s", got.code, got.header.Get("Retry-After"), got.took)
			}
		}
		time.Sleep(5 * sec)
		if got := h.heard(); got != "new a" { // b was not taken, as its answer says
			t.Errorf("told %q", got)
		}
	})
}

func TestPushLimitOfRequests(t *testing.T) {
	inHall(t, PushOptions{MaxWaiting: 2}, func(h *hall) {
		first, second := make(chan pushReply), make(chan pushReply)
		for _, c := range []chan pushReply{first, second} {
			slow, w := io.Pipe()
			go func() { write(w, "a"); w.Close() }()
			go func() { c <- h.put(slow) }()
		}
		synctest.Wait()
		if got := h.put(strings.NewReader("b")); got.code != 503 || got.header.Get("Retry-After") != "1" {
			t.Errorf("the third: answered %d, Retry-After %q, want 503 and 1", got.code, got.header.Get("Retry-After"))
		}
		if got := h.send(http.MethodPut, nil, "Authorization", ""); got.code != 401 {
			t.Errorf("without a token: answered %d, want 401 all the same", got.code)
		}
		for _, c := range []chan pushReply{first, second} {
			if got := <-c; got.code != 204 {
				t.Errorf("answered %d, want 204", got.code)
			}
		}
		if got := h.heard(); got != "refused, new a, same" {
			t.Errorf("told %q", got)
		}
		h.want(204, "new b", strings.NewReader("b"))
	})
}

// Whoever goes away while waiting leaves the place to others, and is not delivered.
func TestPushGoneWhileWaiting(t *testing.T) {
	inHall(t, PushOptions{MaxWaiting: 2}, func(h *hall) {
		h.onTell = func() { time.Sleep(3 * sec) }
		first := make(chan pushReply)
		go func() { first <- h.put(strings.NewReader("a")) }()
		synctest.Wait()
		conn := h.dial()
		fmt.Fprintf(conn, "PUT / HTTP/1.1\r\nHost: arena.example\r\nAuthorization: Bearer %s\r\nContent-Length: 1\r\n\r\nb", pushToken)
		synctest.Wait()
		conn.Close()
		synctest.Wait()
		third := h.put(strings.NewReader("c"))
		if a := <-first; a.code != 204 || third.code != 204 {
			t.Errorf("answered %d and %d, want 204 twice", a.code, third.code)
		}
		if got := h.heard(); got != "new a, new c" {
			t.Errorf("told %q", got)
		}
	})
}

func TestPushWhenTheShowIsNotRunning(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		beforeHall(t, PushOptions{}, func(h *hall) {
			notRunning := func(when string) {
				t.Helper()
				if got := h.put(strings.NewReader("a")); got.code != 503 || got.header.Get("Retry-After") != "5" {
					t.Errorf("%s: answered %d, Retry-After %q, want 503 and 5", when, got.code, got.header.Get("Retry-After"))
				}
			}
			notRunning("before Run")
			if got := h.put(nil, "Authorization", ""); got.code != 401 {
				t.Errorf("before Run, without a token: answered %d, want 401", got.code)
			}
			end := h.run()
			if err := h.push.Run(t.Context(), h); err == nil || err.Error() != "feed push: runs already" {
				t.Errorf("a second Run beside the first: %v", err)
			}
			h.want(204, "new a", strings.NewReader("a"))
			end()
			notRunning("after Run")
			end = h.run()
			h.want(204, "new a", strings.NewReader("a")) // another Run knows nothing of the first
			end()
		})
	})
}

// The show ends while a push waits for it: it is told so, and not that it was taken.
func TestPushWhenTheShowEnds(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		beforeHall(t, PushOptions{}, func(h *hall) {
			h.onTell = func() { time.Sleep(sec) }
			end, first, second := h.run(), make(chan pushReply), make(chan pushReply)
			go func() { first <- h.put(strings.NewReader("a")) }()
			synctest.Wait()
			go func() { second <- h.put(strings.NewReader("b")) }()
			synctest.Wait()
			end()
			if a, b := <-first, <-second; a.code != 204 || b.code != 503 || b.header.Get("Retry-After") != "5" || b.took != sec {
				t.Errorf("answered %d, and %d after %v; want 204 for what the Sink has taken and 503 at once for what it has not", a.code, b.code, b.took)
			}
			if got := h.heard(); got != "new a" {
				t.Errorf("told %q", got)
			}
		})
	})
}

func TestNewPushErrors(t *testing.T) {
	for want, o := range map[string]PushOptions{
		"feed push: no token; set one, or anybody could push":                                                     {},
		"feed hall: the token holds a space, a line end or a character outside ASCII; check what token_env holds": {Name: "hall", Token: "hid den"},
		"feed push: size limit -1 is negative; give a number of bytes, or nothing for 16777216":                   {Token: "x", MaxBytes: -1},
		"feed push: timeout -1ns is negative; give the time for one push, or nothing for 10s":                     {Token: "x", Timeout: -1},
		"feed push: limit of -1 pushes at once is negative; give a number, or nothing for 8":                      {Token: "x", MaxWaiting: -1},
	} {
		if p, err := NewPush(o); p != nil || err == nil || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}
