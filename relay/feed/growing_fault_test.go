package feed

import (
	"net/http"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

// What goes wrong before the content grows is to end as in polling: the same rows.
func TestGrowingFaultThenGood(t *testing.T) {
	follow := func(a *arena, t *testing.T, o HTTPOptions, to *recorder) {
		a.follow(t, GrowingOptions{HTTPOptions: o}, to)
	}
	rows := slices.DeleteFunc(slices.Clone(faultRows), func(row faultRow) bool { return row.poll })
	rows = append(rows,
		faultRow{name: "304", first: status(304), reason: ReasonStatus, wait: time.Second, says: "status 304 Not Modified; check the address"},
		faultRow{name: "no answer to the dial", stall: true, reason: ReasonTimeout, took: 10 * time.Second, wait: time.Second, says: "no answer within 10 s"},
		faultRow{name: "hang before header", first: hangBeforeHeader, reason: ReasonTimeout, took: 10 * time.Second, wait: time.Second, says: "no answer within 10 s; is the arena's server up?"},
		faultRow{name: "a header byte per second", first: dripHeader, reason: ReasonTimeout, took: 10 * time.Second, wait: time.Second, says: "no answer within 10 s"},
	)
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) { row.run(t, follow) })
		})
	}
}

const sec = time.Second

// Every is 1 s, QuietMost 30 s, MaxWait 30 s, Timeout 10 s, and there is no jitter.
func TestGrowingAsksAgain(t *testing.T) {
	plain := text("a")
	for _, row := range []growingRow{
		{name: "after a whole response, at the step of polling", during: 2500 * ms, responses: []http.HandlerFunc{plain, plain, text("b")},
			want: []string{"0s new a", "1s same", "2s new b"}, asked: []time.Duration{0, sec, 2 * sec}},
		{name: "after a whole response that took long", during: 5200 * ms, responses: []http.HandlerFunc{growing(step{text: "a"}, step{500 * ms, "", ends}), growing(step{text: "ab"}, step{4 * sec, "", ends}), growing(step{text: "ab"})},
			want: []string{"0s new a", "500ms same", "1s new ab", "2.15s same", "3.15s same", "4.15s same", "5s same"}, asked: []time.Duration{0, sec, 5100 * ms}},
		{name: "after a reset", during: 8500 * ms, responses: []http.HandlerFunc{growing(step{text: "a"}, step{500 * ms, "", (*farEnd).reset}), status(500), status(500), growing(step{text: "a"})},
			want: []string{"0s new a", "500ms cut", "1.5s status", "3.5s status", "7.65s same"}, asked: []time.Duration{0, 1500 * ms, 3500 * ms, 7500 * ms}},
		{name: "after a dropped line, and what came before it is kept", during: sec, responses: []http.HandlerFunc{growing(step{text: "a "}, step{500 * ms, "b c", closed})},
			want: []string{"0s new a ", "500ms new a b ", "500ms cut"}},
		{name: "after quiet", during: 63500 * ms, o: GrowingOptions{HTTPOptions: HTTPOptions{Every: 20 * sec}}, responses: []http.HandlerFunc{growing(step{text: "a"})},
			want: []string{"0s new a", "20.15s same", "40.15s same", "1m0.15s same"}, asked: []time.Duration{0, 32 * sec}},
		{name: "and a good answer ends the back-off", during: 9 * sec, responses: []http.HandlerFunc{status(500), status(500), growing(step{text: "a"}, step{500 * ms, "", (*farEnd).reset}), status(500), growing()},
			want: []string{"0s status", "1s status", "3s new a", "3.5s cut", "4.5s status", "6.5s new ", "8.5s same"}, asked: []time.Duration{0, sec, 3 * sec, 4500 * ms, 6500 * ms}},
	} {
		row.run(t)
	}
}

// A response begins the content afresh, and its beginning takes nothing back.
func TestGrowingBeginsAfresh(t *testing.T) {
	first := growing(step{text: "a b c d "}, step{500 * ms, "", closed})
	for _, row := range []growingRow{
		{name: "in pieces", during: 5 * sec, responses: []http.HandlerFunc{first, growing(step{text: "a b "}, step{900 * ms, "c ", nil}, step{900 * ms, "d ", nil}, step{900 * ms, "e ", nil})},
			want: []string{"0s new a b c d ", "500ms cut", "2.5s same", "3.5s same", "4.2s new a b c d e "}},
		{name: "as it was", during: 3 * sec, responses: []http.HandlerFunc{first, growing(step{text: "a b c d "})},
			want: []string{"0s new a b c d ", "500ms cut", "1.65s same", "2.65s same"}},
		{name: "as long and different", during: 2 * sec, responses: []http.HandlerFunc{first, growing(step{text: "x b c d "})},
			want: []string{"0s new a b c d ", "500ms cut", "1.5s new x b c d "}},
		{name: "shorter, and quiet for a second", during: 3 * sec, responses: []http.HandlerFunc{first, growing(step{text: "x "})},
			want: []string{"0s new a b c d ", "500ms cut", "1.5s new x "}},
		{name: "shorter and whole", during: 2 * sec, responses: []http.HandlerFunc{first, text("x ")},
			want: []string{"0s new a b c d ", "500ms cut", "1.5s new x "}},
		{name: "shorter and cut", during: 3 * sec, responses: []http.HandlerFunc{first, growing(step{text: "x "}, step{500 * ms, "", closed})},
			want: []string{"0s new a b c d ", "500ms cut", "2s cut"}},
	} {
		row.run(t)
	}
}

func TestGrowingRefusedContent(t *testing.T) {
	o := GrowingOptions{HTTPOptions: HTTPOptions{Check: checkTags}, QuietMost: 4 * sec}
	drops := slices.Repeat([]step{{wait: 500 * ms, text: "<p> "}}, 30)
	for _, row := range []growingRow{
		{name: "the beginning gets a grace", o: o, during: 2 * sec, responses: []http.HandlerFunc{growing(step{text: "[Wh"}, step{900 * ms, "ite ", nil})},
			want: []string{"900ms new [White "}},
		{name: "a web page that stays open", o: o, during: 9 * sec, responses: []http.HandlerFunc{growing(step{text: "<p>"})},
			want: []string{"1s not_pgn", "2s not_pgn", "3s not_pgn", "4s not_pgn", "6s not_pgn", "7s not_pgn", "8s not_pgn"}, asked: []time.Duration{0, 5 * sec}},
		{name: "and then does hold games", o: o, during: 5100 * ms, responses: []http.HandlerFunc{growing(step{text: "<p>"}, step{2500 * ms, "[White ", nil})},
			want: []string{"1s not_pgn", "2s not_pgn", "2.5s new <p>[White ", "3.65s same", "4.65s same"}},
		{name: "a web page that never pauses", o: o, during: 12 * sec, responses: []http.HandlerFunc{growing(drops...)},
			want: []string{"10.15s not_pgn", "11.15s not_pgn"}},
		{name: "until the line drops", o: o, during: 5 * sec, responses: []http.HandlerFunc{growing(step{text: "<p> "}, step{1500 * ms, "[White x", nil}, step{end: closed}), growing(drops...)},
			want: []string{"1s not_pgn", "1.5s new <p> [White ", "1.5s cut", "3.5s same", "4.5s same"}},
		{name: "is not called an answer while it flows", o: o, during: 8 * sec, responses: []http.HandlerFunc{growing(step{text: "[White "}, step{500 * ms, "", ends}), text("<p>"), growing(drops...)},
			want: []string{"0s new [White ", "500ms same", "1s not_pgn"}},
		{name: "is not called an answer when it begins again", o: o, during: 6 * sec, responses: []http.HandlerFunc{growing(step{text: "[White "}, step{500 * ms, "", ends}), text("<p>"), growing(step{text: "<p>"}, step{100 * ms, "", closed}), growing()},
			want: []string{"0s new [White ", "500ms same", "1s not_pgn", "2.1s cut", "5.1s not_pgn"}},
	} {
		row.run(t)
	}
}

func TestGrowingLimit(t *testing.T) {
	o := GrowingOptions{HTTPOptions: HTTPOptions{MaxBytes: 10}}
	for _, row := range []growingRow{
		{name: "reached", o: o, during: sec, responses: []http.HandlerFunc{growing(step{text: "12345"}, step{500 * ms, "67890", nil})},
			want: []string{"0s new 12345", "500ms new 1234567890"}},
		{name: "passed", o: o, during: 4 * sec, responses: []http.HandlerFunc{growing(step{text: "12345"}, step{500 * ms, "678901", nil})},
			want: []string{"0s new 12345", "500ms too_large", "1.65s same", "2s too_large", "3.15s same", "3.5s too_large"}},
	} {
		row.run(t)
	}
}

// A Sink that is slow must not make an open line look dead.
func TestGrowingSlowSink(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: growing(step{text: "a"}, step{10 * sec, "b", nil})}
		got := &recorder{limit: 3, then: func(n int) {
			if n == 1 {
				time.Sleep(40 * sec)
			}
		}}
		begin := time.Now()
		a.follow(t, GrowingOptions{}, got)
		want := []string{"0s new a", "40.15s new ab", "41.3s same"}
		if heard := shorts(got.events, begin); !slices.Equal(heard, want) || len(a.asked) != 1 {
			t.Errorf("heard %q with %d requests, want %q with one", heard, len(a.asked), want)
		}
	})
}

// Ending the context ends every wait at once, and is no fault.
func TestGrowingEndsWithItsContext(t *testing.T) {
	for name, row := range map[string]struct {
		handler http.HandlerFunc
		events  int
	}{
		"before the header": {hangBeforeHeader, 0},
		"while quiet":       {growing(step{text: "a"}), 3},
		"while bytes flow":  {growing(slices.Repeat([]step{{wait: ms, text: "x"}}, 1000)...), 0},
		"in a back-off":     {status(503, "Retry-After", "30"), 1},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				a, got := &arena{handler: row.handler}, &recorder{during: 3 * sec}
				if row.events == 0 {
					got.during = 500 * ms
				}
				begin := time.Now()
				a.follow(t, GrowingOptions{HTTPOptions: HTTPOptions{MaxBytes: 1 << 40}}, got)
				if took := got.ended.Sub(begin); took != got.during || len(got.events) != row.events {
					t.Errorf("ended after %v with %d events, want %v and %d", took, len(got.events), got.during, row.events)
				}
			})
		})
	}
}

func TestNewGrowingErrors(t *testing.T) {
	const host = "http://arena.example/g?k=hidden"
	for _, row := range []struct {
		o    GrowingOptions
		want string
	}{
		{GrowingOptions{}, `feed address "" does not begin with http:// or https://; add it`},
		{GrowingOptions{HTTPOptions: HTTPOptions{URL: host}, QuietMost: -1}, "feed http://arena.example/g?…: quiet limit -1ns is negative; give the longest time without a byte, or nothing for 30s"},
		{GrowingOptions{HTTPOptions: HTTPOptions{URL: host, Every: 9e9}, QuietMost: 5e9}, "feed http://arena.example/g?…: quiet limit 5s is shorter than every 9s; make it at least as long"},
	} {
		if g, err := NewGrowing(row.o); g != nil || err == nil || err.Error() != row.want {
			t.Errorf("got %v, want %s", err, row.want)
		}
	}
	g, err := NewGrowing(GrowingOptions{HTTPOptions: HTTPOptions{URL: host, Every: time.Minute}})
	if err != nil || g.quietMost != time.Minute {
		t.Errorf("got %v, %v; want a quiet limit as long as every", g, err)
	}
}

// The rules for credentials and redirects are those of polling, in the same code.
func TestGrowingSendsCredentials(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: inTurn(func(w http.ResponseWriter, r *http.Request) {
			http.Redirect(w, r, "http://other.example/g", http.StatusFound)
		}, growing(step{text: "a"}))}
		a.follow(t, GrowingOptions{HTTPOptions: HTTPOptions{Bearer: bearer}}, &recorder{limit: 1})
		first, second := a.headers[0].Get("Authorization"), a.headers[1].Get("Authorization")
		if first != "Bearer "+bearer || second != "" {
			t.Errorf("sent %q, then %q to another host", first, second)
		}
		if got := a.headers[0].Get("Accept-Encoding") + strings.Join(a.headers[0]["If-None-Match"], ""); got != "gzip" {
			t.Errorf("asked for %q", got)
		}
	})
}
