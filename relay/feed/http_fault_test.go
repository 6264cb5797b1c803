package feed

import (
	"net/http"
	"strings"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"
)

// faultRow is one way a first poll goes wrong; the second finds a good answer.
type faultRow struct {
	name   string
	first  http.HandlerFunc // answers all requests of the first poll
	refuse int32            // dials refused in the first poll, instead of first
	stall  bool             // a dial without answer, instead of first
	reason Reason
	took   time.Duration // until the fault
	wait   time.Duration // from the fault to the next request
	says   string        // part of the error: what is wrong and the way out
	poll   bool          // holds for polling alone
}

// With Every 1 s, Timeout 10 s, MaxWait 5 min and no jitter. The numbers are those asked for of
// this program, from no outside source; Retry-After rows rest on RFC 9110 §10.2.3.
var faultRows = []faultRow{
	{name: "500", first: status(500), reason: ReasonStatus, wait: time.Second, says: "status 500 Internal Server Error; the arena's server is in trouble"},
	{name: "503 in seconds", first: status(503, "Retry-After", "7"), reason: ReasonStatus, wait: 7 * time.Second, says: "status 503"},
	{name: "503 at a date", first: inSeconds(9), reason: ReasonStatus, wait: 9 * time.Second, says: "status 503"},
	{name: "503 for too long", first: status(503, "Retry-After", "86400"), reason: ReasonStatus, wait: 5 * time.Minute, says: "status 503"},
	{name: "503 at once", first: status(503, "Retry-After", "0"), reason: ReasonStatus, wait: time.Second, says: "status 503"},
	{name: "503 at a date gone by", first: inSeconds(-60), reason: ReasonStatus, wait: time.Second, says: "status 503"},
	{name: "503 with nonsense", first: status(503, "Retry-After", "-5"), reason: ReasonStatus, wait: time.Second, says: "status 503"},
	{name: "500 may not say when", first: status(500, "Retry-After", "7"), reason: ReasonStatus, wait: time.Second, says: "status 500"},
	{name: "429", first: status(429, "Retry-After", "3"), reason: ReasonStatus, wait: 3 * time.Second, says: "status 429 Too Many Requests; the arena's server wants fewer requests; raise every"},
	{name: "429 without a time", first: status(429), reason: ReasonStatus, wait: time.Second, says: "status 429"},
	{name: "304 without body", poll: true, first: status(304), reason: ReasonStatus, wait: time.Second, says: "status 304 (unchanged) for a body never read"},
	{name: "304 with a tag never given", poll: true, first: status(304, "ETag", `"1"`), reason: ReasonStatus, wait: time.Second, says: "status 304"},
	{name: "204", first: status(204), reason: ReasonStatus, wait: time.Second, says: "status 204 No Content; check the address"},
	{name: "a status without a name", first: status(599), reason: ReasonStatus, wait: time.Second, says: "status 599; "},
	{name: "401 with bearer", first: status(401), reason: ReasonStatus, wait: time.Second, says: "status 401 Unauthorized; the arena's server does not take these credentials; check what token_env"},
	{name: "403", first: status(403), reason: ReasonStatus, wait: time.Second, says: "status 403 Forbidden; "},
	{name: "404", first: status(404), reason: ReasonStatus, wait: time.Second, says: "status 404 Not Found; check the address"},
	{name: "407", first: status(407), reason: ReasonStatus, wait: time.Second, says: "proxy settings"},

	{name: "no answer to the dial", poll: true, stall: true, reason: ReasonTimeout, took: 10 * time.Second, wait: time.Second, says: "no complete answer within 10 s"},
	{name: "hang before header", poll: true, first: hangBeforeHeader, reason: ReasonTimeout, took: 10 * time.Second, wait: time.Second, says: "no complete answer within 10 s; is the arena's server up?"},
	{name: "hang in body", poll: true, first: hangInBody, reason: ReasonTimeout, took: 10 * time.Second, wait: time.Second, says: "no complete answer within 10 s"},
	{name: "a byte per second", poll: true, first: drip, reason: ReasonTimeout, took: 10 * time.Second, wait: time.Second, says: "no complete answer within 10 s"},

	{name: "a header byte per second", first: dripHeader, poll: true, reason: ReasonTimeout, took: 10 * time.Second, wait: time.Second, says: "no complete answer within 10 s"},

	{name: "half a body", first: raw("HTTP/1.1 200 OK\r\nContent-Length: 100\r\n\r\n[White", closed), reason: ReasonCut, wait: time.Second, says: "ended early, after 6 bytes"},
	{name: "half a chunked body", first: raw("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n6\r\n[White\r\n", closed), reason: ReasonCut, wait: time.Second, says: "ended early, after 6 bytes"},
	{name: "half a gzip body", first: raw("HTTP/1.1 200 OK\r\nContent-Encoding: gzip\r\nContent-Length: 100\r\n\r\n"+string(zipped([]byte(pgn))[:12]), closed), reason: ReasonCut, wait: time.Second, says: "ended early, after 12 bytes"},
	{name: "reset mid-body", first: raw("HTTP/1.1 200 OK\r\nContent-Length: 100\r\n\r\n[White", (*farEnd).reset), reason: ReasonCut, wait: time.Second, says: "connection reset by peer"},

	{name: "a web page with 200", first: text("<!doctype html><title>Sign in</title>"), reason: ReasonNotPGN, wait: time.Second, says: "no tag pair in 37 bytes; is this the address of the PGN?"},
	{name: "empty body", first: text(""), reason: ReasonNotPGN, wait: time.Second, says: "no tag pair in 0 bytes"},

	{name: "50 MB", first: big(50_000_000), reason: ReasonTooLarge, wait: time.Second, says: "larger than 16777216 bytes"},
	{name: "50 MB announced", first: raw("HTTP/1.1 200 OK\r\nContent-Length: 50000000\r\n\r\n", func(*farEnd) {}), reason: ReasonTooLarge, wait: time.Second, says: "larger than 16777216 bytes"},
	{name: "endless", first: endless, reason: ReasonTooLarge, wait: time.Second, says: "raise the size limit"},
	{name: "gzip bomb", first: bombing, reason: ReasonTooLarge, wait: time.Second, says: "larger than 16777216 bytes"},
	{name: "endless empty gzip", first: emptyMembers, reason: ReasonTooLarge, wait: time.Second, says: "larger than 16777216 bytes"},
	{name: "endless header", first: raw("HTTP/1.1 200 OK\r\nX: "+strings.Repeat("x", 128<<10)+"\r\n\r\n", closed), reason: ReasonTooLarge, wait: time.Second, says: "header is larger than 65536 bytes"},

	{name: "gzip that is none", first: coded("gzip", []byte(pgn)), reason: ReasonMalformed, wait: time.Second, says: "gzip is broken"},
	{name: "gzip damaged", first: coded("gzip", damaged()), reason: ReasonMalformed, wait: time.Second, says: "gzip is broken"},
	{name: "gzip ends early by itself", first: coded("gzip", zipped([]byte(pgn))[:12]), reason: ReasonMalformed, wait: time.Second, says: "gzip is broken"},
	{name: "coding not asked for", first: coded("br", []byte("xxxx")), reason: ReasonMalformed, wait: time.Second, says: `coded as "br"`},
	{name: "chunks broken", first: raw("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n", closed), reason: ReasonMalformed, wait: time.Second, says: "chunks are broken"},
	{name: "two lengths that differ", first: raw("HTTP/1.1 200 OK\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\n[White", closed), reason: ReasonMalformed, wait: time.Second, says: "length cannot be told (net/http"},
	{name: "a length that is none", first: raw("HTTP/1.1 200 OK\r\nContent-Length: six\r\n\r\n[White", closed), reason: ReasonMalformed, wait: time.Second, says: "Content-Length"},
	{name: "a transfer coding not asked for", first: raw("HTTP/1.1 200 OK\r\nTransfer-Encoding: gzip\r\n\r\n[White", closed), reason: ReasonMalformed, wait: time.Second, says: "length cannot be told"},
	{name: "not HTTP", first: raw("hello\r\n\r\n", closed), reason: ReasonMalformed, wait: time.Second, says: "not HTTP; check the address and its port"},

	{name: "redirect loop", first: bouncing, reason: ReasonStatus, wait: time.Second, says: "redirected more than 5 times; check the address"},
	{name: "redirect elsewhere than HTTP", first: status(302, "Location", "file:///etc/games.pgn"), reason: ReasonStatus, wait: time.Second, says: "other than http or https"},
	{name: "redirect to nonsense", first: status(302, "Location", "http://[hidden-bearer?hidden-query"), reason: ReasonStatus, wait: time.Second, says: "Location header"},
	{name: "redirect to nowhere", first: status(302), reason: ReasonStatus, wait: time.Second, says: "status 302 Found; check the address"},

	{name: "refused", refuse: 1, reason: ReasonConnect, wait: time.Second, says: "connection refused); check the address, and is the arena's server up?"},
	{name: "closed before the header", first: raw("", closed), reason: ReasonConnect, wait: time.Second, says: "no connection (EOF)"},
	{name: "reset before the header", first: raw("", (*farEnd).reset), reason: ReasonConnect, wait: time.Second, says: "connection reset by peer"},
}

func TestHTTPFaultThenGood(t *testing.T) {
	for _, row := range faultRows {
		t.Run(row.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) { row.run(t, (*arena).listen) })
		})
	}
}

func (row faultRow) run(t *testing.T, listen func(*arena, *testing.T, HTTPOptions, *recorder)) {
	var over atomic.Bool
	a := &arena{handler: func(w http.ResponseWriter, r *http.Request) {
		if over.Load() {
			text(pgn)(w, r)
			return
		}
		row.first(w, r)
	}}
	a.refuse.Store(row.refuse)
	a.stall.Store(row.stall)
	got := &recorder{limit: 2, then: func(int) { over.Store(true) }}
	begin := time.Now()
	listen(a, t, HTTPOptions{Bearer: bearer, MaxWait: 5 * time.Minute, Check: checkTags}, got)

	fault, good := got.events[0], got.events[1]
	if fault.reason != row.reason || !strings.Contains(fault.err, row.says) {
		t.Errorf("first: got %q, %q; want %q, saying %q", fault.reason, fault.err, row.reason, row.says)
	}
	if fault.took != row.took || fault.at.Sub(begin) != row.took {
		t.Errorf("fault took %v, at %v; want both %v", fault.took, fault.at.Sub(begin), row.took)
	}
	if !strings.HasPrefix(fault.err, shownStart) || strings.Contains(fault.err, "hidden") {
		t.Errorf("error %q: want it to begin with %q and to hold no secret", fault.err, shownStart)
	}
	if len(a.asked) != 2 {
		t.Fatalf("asked %d times, want 2", len(a.asked))
	}
	if wait := a.asked[1].Sub(fault.at); wait != row.wait {
		t.Errorf("waited %v, want %v", wait, row.wait)
	}
	if good.reason != "" || !good.isNew || good.body != pgn {
		t.Errorf("then: got %+v, want a new answer", good)
	}
}
