package feed

import (
	"net/http"
	"testing"
	"testing/synctest"
)

// tagged answers with a body and its validators, whatever is asked.
func tagged(body, etag, modified string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if etag != "" {
			w.Header().Set("ETag", etag)
		}
		if modified != "" {
			w.Header().Set("Last-Modified", modified)
		}
		text(body)(w, r)
	}
}

// Sources: tags sent back as they came, the "W/" too [RFC 9110 §8.8.3, values of the table
// in §8.8.3.2]; both validators [RFC 9111 §4.3.1]; the date of §5.6.7, obsolete forms too.
func TestHTTPSendsValidatorsVerbatim(t *testing.T) {
	for _, v := range []struct{ etag, modified string }{
		{`W/"1"`, ""},
		{`"1"`, ""},
		{`""`, ""},
		{"", "Sun, 06 Nov 1994 08:49:37 GMT"},
		{`W/"2"`, "Sunday, 06-Nov-94 08:49:37 GMT"},
	} {
		synctest.Test(t, func(t *testing.T) {
			a := &arena{handler: inTurn(tagged(pgn, v.etag, v.modified), status(304))}
			got := &recorder{limit: 3}
			a.listen(t, HTTPOptions{}, got)
			for i, h := range a.headers[1:] {
				if h.Get("If-None-Match") != v.etag || h.Get("If-Modified-Since") != v.modified {
					t.Errorf("request %d: got %q and %q, want %+v", i+2, h.Get("If-None-Match"), h.Get("If-Modified-Since"), v)
				}
			}
			for i, e := range got.events {
				if e.reason != "" || e.isNew != (i == 0) || (e.body == "") == (i == 0) {
					t.Errorf("answer %d: got %+v, want only the first to be new", i+1, e)
				}
			}
		})
	}
}

// RFC 9111 §4.3.4: a 304 renews the validators it carries.
func TestHTTP304RenewsTheTag(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		const later = "Sun, 06 Nov 1994 08:49:37 GMT"
		a := &arena{handler: inTurn(tagged(pgn, `W/"1"`, ""), status(304, "ETag", `"1"`, "Last-Modified", later), status(304))}
		a.listen(t, HTTPOptions{}, &recorder{limit: 3})
		if got := a.headers[2].Get("If-None-Match"); got != `"1"` {
			t.Errorf("got %q, want the tag of the 304", got)
		}
		if got := a.headers[2].Get("If-Modified-Since"); got != later {
			t.Errorf("got %q, want the date of the 304", got)
		}
	})
}

func TestHTTPSameBytesAreNotNew(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: inTurn(tagged("a", `"1"`, ""), tagged("a", `"2"`, ""), tagged("b", `"2"`, ""), text("a"))}
		got := &recorder{limit: 4}
		a.listen(t, HTTPOptions{}, got)
		for i, want := range []bool{true, false, true, true} {
			if got.events[i].isNew != want {
				t.Errorf("answer %d: new is %v, want %v", i+1, got.events[i].isNew, want)
			}
		}
		if tag := a.headers[2].Get("If-None-Match"); tag != `"2"` {
			t.Errorf("after the same bytes under a new tag: sent %q, want the new tag", tag)
		}
	})
}

// A refused body takes its own validators and the older ones with it.
func TestHTTPRefusedBodyDropsValidators(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: inTurn(tagged(pgn, `"1"`, ""), tagged("sign in", `"2"`, ""), tagged(pgn, `"3"`, ""))}
		got := &recorder{limit: 3}
		a.listen(t, HTTPOptions{Check: checkTags}, got)
		if sent := a.headers[2].Get("If-None-Match"); sent != "" {
			t.Errorf("sent %q after a refused body, want nothing", sent)
		}
		if e := got.events[2]; e.reason != "" || e.isNew {
			t.Errorf("the body known before: got %+v, want an unchanged answer", e)
		}
	})
}

// A fault that brought no body leaves the validators alone.
func TestHTTPOtherFaultsKeepValidators(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: inTurn(tagged(pgn, `"1"`, ""), status(500), status(304))}
		got := &recorder{limit: 3}
		a.listen(t, HTTPOptions{}, got)
		if sent := a.headers[2].Get("If-None-Match"); sent != `"1"` || got.events[2].reason != "" {
			t.Errorf("sent %q and got %+v, want the tag and an unchanged answer", sent, got.events[2])
		}
	})
}

// A body without validators was never asked about, so that a 304 answers nothing.
func TestHTTP304ToAPlainRequestIsNotBelieved(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		got := &recorder{limit: 2}
		(&arena{handler: inTurn(text(pgn), status(304))}).listen(t, HTTPOptions{}, got)
		if e := got.events[1]; e.reason != ReasonStatus {
			t.Errorf("got %+v, want a status fault", e)
		}
	})
}

// An ETag belongs to one address [RFC 9110 §8.8.3]: once the redirect leads elsewhere, a 304 says nothing.
func TestHTTP304FromAnotherAddressIsNotBelieved(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		to := func(path string, then http.HandlerFunc) http.HandlerFunc {
			return func(w http.ResponseWriter, r *http.Request) {
				if r.URL.Path == "/games.pgn" {
					http.Redirect(w, r, path, http.StatusFound)
					return
				}
				then(w, r)
			}
		}
		one, two := to("/1", tagged("a", `"1"`, "")), to("/2", status(304))
		a := &arena{handler: inTurn(one, one, two, two, text("b"))}
		got := &recorder{limit: 3}
		a.listen(t, HTTPOptions{}, got)
		if e := got.events[1]; e.reason != ReasonStatus {
			t.Errorf("got %+v, want a status fault", e)
		}
		if e := got.events[2]; !e.isNew || e.body != "b" || a.headers[4].Get("If-None-Match") != "" {
			t.Errorf("got %+v, want the whole asked for and delivered", e)
		}
	})
}

// No request could carry such a validator, so that every further poll would fail.
func TestHTTPDropsValidatorsItCannotSend(t *testing.T) {
	for _, tag := range []string{"\"a\x01\"", "\"a\x7f\"", `"` + string(make([]byte, 2000)) + `"`} {
		if got := sendable(tag); got != "" {
			t.Errorf("sendable(%.10q) = %.10q, want nothing", tag, got)
		}
	}
	if long := `"é"`; sendable(long) != long {
		t.Errorf("bytes above ASCII may stand in a tag [RFC 9110 §8.8.3], got %q", sendable(long))
	}
}
