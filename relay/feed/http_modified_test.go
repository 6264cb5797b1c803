package feed

import (
	"net/http"
	"testing"
	"testing/synctest"
	"time"
)

// dated answers with a body whose Last-Modified lies so far from the answer's own Date.
func dated(body string, from time.Duration, etag string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		tagged(body, etag, time.Now().Add(from).UTC().Format(http.TimeFormat))(w, r)
	}
}

// RFC 9110 §8.8.2.2: a date tells one body from the next only when it lies a second or more before
// the answer's. §8.8.2.1 forbids dates from the future, and a server that compares (most do,
// §13.1.3) answers 304 to one for as long as it lies ahead, whatever has changed.
func TestHTTPLastModifiedAsValidator(t *testing.T) {
	for _, row := range []struct {
		name     string
		from     time.Duration
		etag     string
		sentDate bool
	}{
		{"an hour ago", -time.Hour, "", true},
		{"a second ago", -sec, "", true},
		{"this very second", 0, "", false},
		{"in the future", time.Hour, "", false},
		{"in the future beside a tag", time.Hour, `"1"`, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				a, got := &arena{handler: dated(pgn, row.from, row.etag)}, &recorder{limit: 2}
				a.listen(t, HTTPOptions{}, got)
				if sent := a.headers[1].Get("If-Modified-Since"); (sent != "") != row.sentDate {
					t.Errorf("asked with date %q, want one: %v", sent, row.sentDate)
				}
				if sent := a.headers[1].Get("If-None-Match"); sent != row.etag {
					t.Errorf("asked with tag %q, want %q", sent, row.etag)
				}
			})
		})
	}
}

// A server as net/http's own: it answers 304 to every date that is not older than the file's.
func TestHTTPFileDatedAheadStillChanges(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		begin := time.Now()
		a := &arena{handler: func(w http.ResponseWriter, r *http.Request) {
			body, modified := "a", begin.Add(time.Hour)
			if time.Since(begin) > 90*ms {
				body, modified = "b", time.Now().Add(-time.Minute) // its clock was set right
			}
			w.Header().Set("Last-Modified", modified.UTC().Format(http.TimeFormat))
			since, err := http.ParseTime(r.Header.Get("If-Modified-Since"))
			if err == nil && !modified.Truncate(sec).After(since) {
				w.WriteHeader(http.StatusNotModified)
				return
			}
			text(body)(w, r)
		}}
		got := &recorder{limit: 2}
		a.listen(t, HTTPOptions{}, got)
		if e := got.events[1]; !e.isNew || e.body != "b" {
			t.Errorf("after the change: got %+v, want the new body", e)
		}
	})
}

// Without a Date the time of receipt stands for it [RFC 9110 §6.6.1].
func TestHTTPLastModifiedWithoutDate(t *testing.T) {
	now := time.Date(1994, 11, 6, 8, 49, 38, 0, time.UTC)
	for value, want := range map[string]bool{"Sun, 06 Nov 1994 08:49:37 GMT": true, "Sun, 06 Nov 1994 08:49:38 GMT": false, "nonsense": true, "": true} {
		if got := tells(http.Header{"Last-Modified": {value}}, now); got != want {
			t.Errorf("%q: got %v, want %v", value, got, want)
		}
	}
}

func TestHTTPModified(t *testing.T) {
	const first, second = "Sun, 06 Nov 1994 08:49:37 GMT", "Sun, 06 Nov 1994 08:49:47 GMT"
	at := time.Date(1994, 11, 6, 8, 49, 37, 0, time.UTC)
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: inTurn(
			text("a"), tagged("a", "", first), status(304), status(304, "Last-Modified", second), tagged("b", "", "soon"),
			dated("c", time.Hour, ""))}
		got := &recorder{limit: 6}
		begin := time.Now()
		a.listen(t, HTTPOptions{}, got)
		for i, want := range []time.Time{{}, at, at, at.Add(10 * sec), {}, begin.Add(time.Hour + 5*sec)} {
			if e := got.events[i]; e.reason != "" || !e.modified.Equal(want) {
				t.Errorf("answer %d: got %q, modified %v, want %v", i+1, e.short(), e.modified, want)
			}
		}
	})
}

// More bytes than announced cannot be seen: what lies behind the length belongs to no answer.
// The package comment says so.
func TestHTTPLengthTooShort(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		got := &recorder{limit: 1}
		a := &arena{handler: raw("HTTP/1.1 200 OK\r\nConnection: close\r\nContent-Length: 3\r\n\r\nabcdef", closed)}
		a.listen(t, HTTPOptions{}, got)
		if e := got.events[0]; e.body != "abc" {
			t.Errorf("got %+v, want what was announced", e)
		}
	})
}
