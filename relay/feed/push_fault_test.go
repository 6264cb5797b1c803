package feed

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

// pushRow is one push that is turned away; a good one after it is taken.
type pushRow struct {
	name   string
	method string // "": PUT
	body   func() io.Reader
	header []string
	code   int
	with   [2]string // a header of the answer
	told   string
	says   string // part of the answer
	took   time.Duration
}

func of(text string) func() io.Reader { return func() io.Reader { return strings.NewReader(text) } }

// endlessBody is a body of no announced length that never ends.
func endlessBody() io.Reader { return io.MultiReader(onesReader{}) }

type onesReader struct{}

func (onesReader) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = '1'
	}
	return len(b), nil
}

// emptyReader is gzip that never ends and never decodes to a byte.
type emptyReader struct{ rest []byte }

func (e *emptyReader) Read(b []byte) (int, error) {
	if len(e.rest) == 0 {
		e.rest = bytes.Repeat(zipped(nil), 1<<10)
	}
	n := copy(b, e.rest)
	e.rest = e.rest[n:]
	return n, nil
}

// dripping sends a byte per second, for ever.
func dripping() io.Reader { return dripReader{} }

type dripReader struct{}

func (dripReader) Read(b []byte) (int, error) {
	time.Sleep(time.Second)
	b[0] = '1'
	return 1, nil
}

// Sources: 401 and its header RFC 6750 §3, 405 RFC 9110 §15.5.6, 408 §15.5.9, 413 §15.5.14, 415 and
// its header §15.5.16, Content-Range §14.5; 400 for what is no PGN is asked for of this program.
func TestPushTurnsAway(t *testing.T) {
	for _, row := range []pushRow{
		{name: "GET", method: "GET", code: 405, with: [2]string{"Allow", "POST, PUT"}, says: "PUT or POST"},
		{name: "HEAD", method: "HEAD", code: 405, with: [2]string{"Allow", "POST, PUT"}},
		{name: "DELETE without a token", method: "DELETE", header: []string{"Authorization", ""}, code: 405, with: [2]string{"Allow", "POST, PUT"}},

		{name: "no token", body: of(pgn), header: []string{"Authorization", ""}, code: 401, with: [2]string{"WWW-Authenticate", "Bearer"}, told: "refused", says: "no token"},
		{name: "basic", body: of(pgn), header: []string{"Authorization", "Basic YTpi"}, code: 401, with: [2]string{"WWW-Authenticate", "Bearer"}, told: "refused"},
		{name: "a wrong token", body: of(pgn), header: []string{"Authorization", "Bearer wrong"}, code: 401, with: [2]string{"WWW-Authenticate", `Bearer error="invalid_token"`}, told: "refused", says: "not the token"},
		{name: "the beginning of the token", body: of(pgn), header: []string{"Authorization", "Bearer hidden-push"}, code: 401, told: "refused"},
		{name: "more than the token", body: of(pgn), header: []string{"Authorization", "Bearer " + pushToken + "x"}, code: 401, told: "refused"},
		{name: "an empty token", body: of(pgn), header: []string{"Authorization", "Bearer "}, code: 401, told: "refused"},

		{name: "a web page", body: of("<p>"), code: 400, told: "not_pgn", says: "no tag pair in 3 bytes; push the whole PGN as the body"},
		{name: "nothing", body: of(""), code: 400, told: "not_pgn", says: "no tag pair in 0 bytes"},
		{name: "a part", body: of(pgn), header: []string{"Content-Range", "bytes 0-9/100"}, code: 400, told: "malformed", says: "push the whole PGN"},

		{name: "a byte per second", body: dripping, code: 408, with: [2]string{"Connection", "close"}, told: "timeout", says: "no complete body within 10 s", took: 10 * sec},

		{name: "too long", body: of(strings.Repeat("1", 200_001)), code: 413, told: "too_large", says: "larger than 100000 bytes"},
		{name: "a byte too long", body: of(strings.Repeat("1", 100_001)), code: 413, told: "too_large", says: "larger than 100000 bytes"},
		{name: "too long and not announced", body: endlessBody, code: 413, told: "too_large"},
		{name: "endless empty gzip", body: func() io.Reader { return &emptyReader{} }, header: []string{"Content-Encoding", "gzip"}, code: 413, told: "too_large"},
		{name: "a bomb", body: func() io.Reader { return bytes.NewReader(bomb()) }, header: []string{"Content-Encoding", "gzip"}, code: 413, told: "too_large"},

		{name: "another coding", body: of("xxxx"), header: []string{"Content-Encoding", "br"}, code: 415, with: [2]string{"Accept-Encoding", "gzip"}, told: "malformed", says: `coded as "br"`},
		{name: "gzip twice", body: of("xxxx"), header: []string{"Content-Encoding", "gzip, gzip"}, code: 415, told: "malformed"},
		{name: "gzip that is none", body: of(pgn), header: []string{"Content-Encoding", "gzip"}, code: 400, told: "malformed", says: "gzip is broken"},
		{name: "gzip damaged", body: func() io.Reader { return bytes.NewReader(damaged()) }, header: []string{"Content-Encoding", "gzip"}, code: 400, told: "malformed", says: "gzip is broken"},
		{name: "gzip ends early", body: func() io.Reader { return bytes.NewReader(zipped([]byte(pgn))[:12]) }, header: []string{"Content-Encoding", "gzip"}, code: 400, told: "malformed", says: "gzip is broken"},
	} {
		t.Run(row.name, func(t *testing.T) {
			inHall(t, PushOptions{Check: checkTags, MaxBytes: 100_000}, row.run)
		})
	}
}

func (row pushRow) run(h *hall) {
	if row.method == "" {
		row.method = http.MethodPut
	}
	body := io.Reader(nil)
	if row.body != nil {
		body = row.body()
	}
	got := h.send(row.method, body, row.header...)
	if heard := h.heard(); got.code != row.code || heard != row.told || !strings.Contains(got.text, row.says) {
		h.t.Errorf("answered %d %q and told %q; want %d %q and %q", got.code, got.text, heard, row.code, row.says, row.told)
	}
	if row.with[0] != "" && got.header.Get(row.with[0]) != row.with[1] {
		h.t.Errorf("%s: got %q, want %q", row.with[0], got.header.Get(row.with[0]), row.with[1])
	}
	if got.took != row.took {
		h.t.Errorf("answered after %v, want %v", got.took, row.took)
	}
	h.want(204, "new "+pgn, strings.NewReader(pgn))
}

func TestPushLimitIsExact(t *testing.T) {
	body := strings.Repeat("x", 100_000)
	inHall(t, PushOptions{MaxBytes: 100_000}, func(h *hall) {
		h.want(204, "new "+body, strings.NewReader(body))
		h.want(204, "same", bytes.NewReader(stored([]byte(body))), "Content-Encoding", "gzip")
	})
}

// What is announced as too long is not waited for.
func TestPushTooLongByAnnouncement(t *testing.T) {
	inHall(t, PushOptions{MaxBytes: 1000}, func(h *hall) {
		conn := h.dial()
		defer conn.Close()
		begin := time.Now()
		fmt.Fprintf(conn, "PUT / HTTP/1.1\r\nHost: arena.example\r\nAuthorization: Bearer %s\r\nContent-Length: 1000000000\r\n\r\n", pushToken)
		resp, err := http.ReadResponse(bufio.NewReader(conn), nil)
		if err != nil {
			t.Fatal(err)
		}
		if resp.StatusCode != 413 || time.Since(begin) != 0 {
			t.Errorf("answered %d after %v, want 413 at once", resp.StatusCode, time.Since(begin))
		}
	})
}

// The rest of the connection's life goes on as before: the time limit was that body's.
func TestPushLeavesTheConnection(t *testing.T) {
	inHall(t, PushOptions{}, func(h *hall) {
		h.want(204, "new a", strings.NewReader("a"))
		time.Sleep(20 * sec)
		h.onTell = func() { time.Sleep(9 * sec) }
		h.want(204, "new b", strings.NewReader("b"))
		h.onTell = nil
		h.want(401, "refused", nil, "Authorization", "")
		time.Sleep(20 * sec)
		h.want(204, "new c", strings.NewReader("c"))
	})
}

// Whoever pushes goes away in the middle.
func TestPushCut(t *testing.T) {
	for _, head := range []string{"Content-Length: 100\r\n\r\n[White", "Transfer-Encoding: chunked\r\n\r\n6\r\n[White\r\n"} {
		inHall(t, PushOptions{}, func(h *hall) {
			conn := h.dial()
			fmt.Fprintf(conn, "PUT / HTTP/1.1\r\nHost: arena.example\r\nAuthorization: bearer %s\r\n%s", pushToken, head)
			synctest.Wait()
			conn.Close()
			synctest.Wait()
			if e := h.events[0]; !strings.Contains(e.err, "feed push: a push from an unknown address was answered 400: the body ended early, after 6 bytes") {
				t.Errorf("told %q", e.err)
			}
			if got := h.heard(); got != "cut" {
				t.Errorf("told %q", got)
			}
		})
	}
}

// At most one fault of a kind per second; a good push in between lets the next be told, unless it
// is about wrong tokens, which anybody may send.
func TestPushFaultsAreHeldBack(t *testing.T) {
	inHall(t, PushOptions{Check: checkTags}, func(h *hall) {
		wrong := []string{"Authorization", "Bearer wrong"}
		h.want(401, "refused", nil, wrong...)
		h.want(401, "", nil, wrong...)
		h.want(400, "not_pgn", strings.NewReader("a"))
		h.want(400, "", strings.NewReader("b"))
		h.want(204, "new "+pgn, strings.NewReader(pgn))
		h.want(401, "", nil, wrong...)
		h.want(400, "not_pgn", strings.NewReader("a"))
		time.Sleep(999 * ms)
		h.want(401, "", nil, wrong...)
		h.want(400, "", strings.NewReader("b"))
		time.Sleep(ms)
		h.want(401, "refused", nil, wrong...)
		h.want(400, "not_pgn", strings.NewReader("b"))
	})
}

// Faults that came before a good push are told before it, and none after the end.
func TestPushOrder(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		beforeHall(t, PushOptions{}, func(h *hall) {
			end := h.run()
			h.onTell = func() { time.Sleep(sec) }
			go h.put(strings.NewReader("a"))
			synctest.Wait()
			h.put(nil, "Authorization", "")
			h.put(strings.NewReader("x"), "Content-Encoding", "br")
			h.put(strings.NewReader("b"))
			if got := h.heard(); got != "new a, refused, malformed, new b" {
				t.Errorf("told %q", got)
			}
			go h.put(strings.NewReader("c"))
			synctest.Wait()
			h.put(strings.NewReader("x"), "Content-Encoding", "br")
			end()
			time.Sleep(9 * sec)
			if got := h.heard(); got != "new c" {
				t.Errorf("told %q after the end", got)
			}
		})
	})
}
