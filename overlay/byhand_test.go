package overlay

import (
	"context"
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

	"clocktell/overlay/access"
	"clocktell/overlay/wire"
	"clocktell/relay"
)

// The tokens of the tests that renew none.
var testKeys, testTokens = access.New(time.Now)

var goodToken = testTokens[len(testTokens)-1].Text // the producer's

func withToken(_ *hall, o *Options)   { o.Keys = testKeys }
func withoutHand(_ *hall, o *Options) { o.Enter = nil }
func onNetwork(h *hall, _ *Options)   { h.listener.ip = net.IPv4(192, 0, 2, 7) } // RFC 5737: for documentation
func stopped(_ *hall, o *Options) {
	o.Enter = func(context.Context, string, relay.Event) (relay.Entered, error) {
		return relay.Entered{}, errors.New("it is over")
	}
}

// inHallOf runs a test with a server in fake time that was changed before its start.
func inHallOf(t *testing.T, change func(*hall, *Options), test func(t *testing.T, h *hall)) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(t, 0, change)
		defer h.stop()
		test(t, h)
	})
}

// post sends an entry by hand, and returns the status and what the server says.
func (h *hall) post(body io.Reader, header http.Header) (*http.Response, wire.EntryReply) {
	h.t.Helper()
	return h.postTo("/by-hand", body, header)
}

func (h *hall) postTo(path string, body io.Reader, header http.Header) (*http.Response, wire.EntryReply) {
	h.t.Helper()
	request, err := http.NewRequest("POST", "http://127.0.0.1:8600"+path, body)
	if err != nil {
		h.t.Fatal(err)
	}
	request.Header.Set("Content-Type", "application/json")
	for name, values := range header {
		request.Header[name] = values
	}
	response, err := h.client.Do(request)
	if err != nil {
		h.t.Fatal(err)
	}
	defer response.Body.Close()
	said, err := io.ReadAll(response.Body)
	if err != nil {
		h.t.Fatal(err)
	}
	var reply wire.EntryReply
	if response.Header.Get("Content-Type") == "application/json" {
		if err := json.Unmarshal(said, &reply); err != nil {
			h.t.Fatalf("%v in %q", err, said)
		}
	}
	return response, reply
}

func header(pairs ...string) http.Header {
	h := make(http.Header)
	for i := 0; i < len(pairs); i += 2 {
		h.Set(pairs[i], pairs[i+1])
	}
	return h
}

const goodMove = `{"id":"x1","board":1,"act":"move","ply":3,"san":"Nf3"}`

// padded is an entry of exactly so many bytes.
func padded(bytes int) string {
	body := `{"id":"x1","board":1,"act":"move","ply":3,"san":"Nf3","text":""}`
	return strings.Replace(body, `"text":"`, `"text":"`+strings.Repeat("x", bytes-len(body)), 1)
}

func TestByHandStatuses(t *testing.T) {
	plain := func(*hall, *Options) {}
	bearerOf := func(token string) http.Header { return header("Authorization", "Bearer "+token) }
	for _, test := range []struct {
		name   string
		hall   func(*hall, *Options)
		header http.Header
		body   string
		status int
		says   string
	}{
		{"done", plain, nil, goodMove, 200, ""},
		{"with the charset named", plain, header("Content-Type", "application/json; charset=UTF-8"), goodMove, 200, ""},
		{"from our own page", plain, header("Origin", "http://127.0.0.1:8600", "Sec-Fetch-Site", "same-origin"), goodMove, 200, ""},
		{"of the greatest length", plain, nil, padded(entryMost), 200, ""},
		{"with the token", withToken, bearerOf(goodToken), goodMove, 200, ""},
		{"with the token, scheme in small letters", withToken, header("Authorization", "bearer "+goodToken), goodMove, 200, ""},
		{"with the token, from elsewhere", func(h *hall, o *Options) { onNetwork(h, o); withToken(h, o) }, bearerOf(goodToken), goodMove, 200, ""},

		{"no object", plain, nil, `["move"]`, 400, "one JSON object"},
		{"empty", plain, nil, ``, 400, "one JSON object"},
		{"null", plain, nil, `null`, 400, "there is no act"},
		{"two objects", plain, nil, goodMove + goodMove, 400, "one JSON object"},
		{"an unknown field", plain, nil, `{"id":"x1","board":1,"act":"move","ply":3,"move":"Nf3"}`, 400, `no field "move"`},
		{"a field in other letters", plain, nil, `{"id":"x1","board":1,"act":"move","ply":3,"SAN":"Nf3"}`, 400, `no field "SAN"`},
		{"a ply in quotes", plain, nil, `{"id":"x1","board":1,"act":"move","ply":"3","san":"Nf3"}`, 400, `"ply" holds a string`},
		{"no ID", plain, nil, `{"board":1,"act":"move","ply":3,"san":"Nf3"}`, 400, "an id has"},
		{"an ID too long", plain, nil, `{"id":"` + strings.Repeat("x", entryIDMost+1) + `","board":1,"act":"thaw"}`, 400, "an id has"},
		{"an unknown act", plain, nil, `{"id":"x1","board":1,"act":"undo"}`, 400, `no act "undo"`},
		{"a clock that is none", plain, nil, `{"id":"x1","board":1,"act":"clock","ply":2,"clock":"9.58"}`, 400, `clock reading "9.58"`},

		{"no token", withToken, nil, goodMove, 401, "token"},
		{"an empty token", withToken, bearerOf(""), goodMove, 401, "token"},
		{"a wrong token", withToken, bearerOf("another"), goodMove, 401, "token"},
		{"the start of the token", withToken, bearerOf(goodToken[:5]), goodMove, 401, "token"},
		{"more than the token", withToken, bearerOf(goodToken + "x"), goodMove, 401, "token"},
		{"the token in another scheme", withToken, header("Authorization", "Basic "+goodToken), goodMove, 401, "token"},

		{"through a proxy", plain, header("X-Forwarded-For", "192.0.2.9"), goodMove, 403, "access.dir"},
		{"from a page of another address", plain, header("Origin", "https://elsewhere.example"), goodMove, 403, "another address"},
		{"from a page of another port", plain, header("Origin", "http://127.0.0.1:9999"), goodMove, 403, "another address"},
		{"from a page without an address", plain, header("Origin", "null"), goodMove, 403, "another address"},
		{"from another site", plain, header("Sec-Fetch-Site", "cross-site"), goodMove, 403, "another address"},
		{"from a sister site", withToken, header("Sec-Fetch-Site", "same-site", "Cookie", "clocktell-8600="+goodToken), goodMove, 403, "another address"},
		{"from a sister site that has the token", withToken, header("Sec-Fetch-Site", "same-site", "Authorization", "Bearer "+goodToken), goodMove, 200, ""},

		{"nothing by hand here", withoutHand, nil, goodMove, 404, ""},
		{"a move that cannot be played", plain, nil, strings.Replace(goodMove, "Nf3", "Nf6", 1), 409, "cannot be played"},
		{"the wrong ply", plain, nil, strings.Replace(goodMove, "3", "9", 1), 409, "ply 3"},
		{"no such board", plain, nil, strings.Replace(goodMove, `"board":1`, `"board":9`, 1), 409, "no board 9"},
		{"too long", plain, nil, padded(entryMost + 1), 413, "at most"},
		{"as a form", plain, header("Content-Type", "application/x-www-form-urlencoded"), goodMove, 415, "application/json"},
		{"as text", plain, header("Content-Type", "text/plain"), goodMove, 415, "application/json"},
		{"without a type", plain, header("Content-Type", ""), goodMove, 415, "application/json"},
		{"in another charset", plain, header("Content-Type", "application/json; charset=utf-16"), goodMove, 415, "UTF-8"},
		{"after the show", stopped, nil, goodMove, 503, "it is over"},
	} {
		t.Run(test.name, func(t *testing.T) {
			inHallOf(t, test.hall, func(t *testing.T, h *hall) {
				h.play("e4 e5")
				synctest.Wait()
				response, reply := h.post(strings.NewReader(test.body), test.header)
				if response.StatusCode != test.status || !strings.Contains(reply.Error, test.says) || reply.Done != (test.status == 200) {
					t.Errorf("%d %+v, want %d and %q", response.StatusCode, reply, test.status, test.says)
				}
				if got := response.Header.Get("WWW-Authenticate"); (got != "") != (test.status == 401) {
					t.Errorf("WWW-Authenticate %q with %d", got, test.status)
				}
				board := h.server.Relay.Show().Boards[0]
				if done := len(board.Plies) == 3; done != (test.status == 200) {
					t.Errorf("%d plies are shown after %d", len(board.Plies), test.status)
				}
			})
		})
	}
}

// TestByHandMethods: nothing but POST changes the show (RFC 9110, 15.5.6: 405 names
// the methods there are).
func TestByHandMethods(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		for _, method := range []string{"GET", "PUT", "DELETE", "OPTIONS"} {
			request, _ := http.NewRequest(method, "http://127.0.0.1:8600/by-hand", nil)
			response, err := h.client.Do(request)
			if err != nil {
				t.Fatal(err)
			}
			response.Body.Close()
			if response.StatusCode != 405 || response.Header.Get("Allow") != "POST" || response.Header.Get("Access-Control-Allow-Origin") != "" {
				t.Errorf("%s: %d, allowed %q", method, response.StatusCode, response.Header.Get("Allow"))
			}
		}
	})
}

// TestByHandTakesTimeAndFields: every field arrives, stamped with the time of show.
func TestByHandTakesTimeAndFields(t *testing.T) {
	var got relay.Event
	keep := func(_ *hall, o *Options) {
		o.Enter = func(_ context.Context, id string, e relay.Event) (relay.Entered, error) {
			got = e
			return relay.Entered{ID: id}, nil
		}
	}
	inHallOf(t, keep, func(t *testing.T, h *hall) {
		time.Sleep(3 * time.Second)
		h.post(strings.NewReader(`{"id":"k","board":2,"act":"clock","ply":4,"san":"a","clock":"1:09:58","side":"black","text":"b","feed":"c","keep":"hand","asked":"d"}`), nil)
		want := relay.ByHand{
			At: h.tb.Now(), ID: "k", Board: 2, Act: relay.ActClock, Ply: 4, SAN: "a", Side: "black",
			Left: time.Hour + 9*time.Minute + 58*time.Second, Text: "b", Feed: "c", Keep: "hand", Asked: "d",
		}
		if got != want {
			t.Errorf("got  %+v\nwant %+v", got, want)
		}
	})
}

// TestByHandTwice: an entry sent again because its answer was lost is done once.
func TestByHandTwice(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		synctest.Wait()
		for range 2 {
			if response, reply := h.post(strings.NewReader(goodMove), nil); response.StatusCode != 200 || !reply.Done {
				t.Errorf("%d %+v", response.StatusCode, reply)
			}
		}
		if got := len(h.server.Relay.Show().Boards[0].Plies); got != 3 {
			t.Errorf("%d plies, want 3", got)
		}
	})
}

// TestSlowBody: a body that does not come is waited for no longer than requestWait
// (RFC 9110, 15.5.9), while a socket may be open for longer.
func TestSlowBody(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		p := h.open("page=panel")
		alive := make(chan struct{})
		go func() { // keeps the page from being taken for gone
			defer close(alive)
			for range 5 {
				p.send(`{"type":"ping","t":1,"late":[]}`)
				time.Sleep(silenceMost / 2)
			}
		}()
		go p.closed()
		body, slow := io.Pipe()
		go fmt.Fprint(slow, `{"id":`)
		start := time.Now()
		response, reply := h.post(body, nil)
		slow.Close()
		if took := time.Since(start); response.StatusCode != 408 || !strings.Contains(reply.Error, "whole within") || took != requestWait {
			t.Errorf("%d %+v after %v, want 408 after %v", response.StatusCode, reply, took, requestWait)
		}
		<-alive
		if got := h.server.Pages().Connected["panel"]; got != 1 {
			t.Errorf("%d panels are connected after %v, want 1", got, time.Since(start))
		}
		p.conn.CloseNow()
	})
}
