package feed

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

const ms = time.Millisecond

// step is one thing a growing response does: after a wait it sends a text, or ends.
type step struct {
	wait time.Duration
	text string
	end  func(*farEnd) // nil: goes on
}

// growing answers with the steps, and stays open and quiet after the last.
func growing(steps ...step) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		conn, _, err := w.(http.Hijacker).Hijack()
		if err != nil {
			panic(err)
		}
		far := conn.(*farEnd)
		fmt.Fprintf(conn, "HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n")
		for _, s := range steps {
			time.Sleep(s.wait)
			if s.text != "" {
				if _, err := fmt.Fprintf(conn, "%x\r\n%s\r\n", len(s.text), s.text); err != nil {
					return
				}
			}
			if s.end != nil {
				s.end(far)
				return
			}
		}
		far.Read(make([]byte, 1)) // until the other side hangs up
		far.Close()
	}
}

// ends ends a chunked response as a whole one.
func ends(f *farEnd) {
	fmt.Fprint(f, "0\r\n\r\n")
	f.Close()
}

// growingRow is what a Sink hears of responses, the n-th answering the n-th request.
type growingRow struct {
	name      string
	responses []http.HandlerFunc
	o         GrowingOptions
	during    time.Duration
	want      []string        // time since the first request, and the event in short
	asked     []time.Duration // when requests were made
}

func (row growingRow) run(t *testing.T) {
	t.Run(row.name, func(t *testing.T) {
		synctest.Test(t, func(t *testing.T) {
			a, got := &arena{handler: inTurn(row.responses...)}, &recorder{during: row.during}
			begin := time.Now()
			a.follow(t, row.o, got)
			if heard := shorts(got.events, begin); !slices.Equal(heard, row.want) {
				t.Errorf("heard\n%s\nwant\n%s", strings.Join(heard, "\n"), strings.Join(row.want, "\n"))
			}
			var asked []time.Duration
			for _, at := range a.asked {
				asked = append(asked, at.Sub(begin))
			}
			if row.asked != nil && !slices.Equal(asked, row.asked) {
				t.Errorf("asked at %v, want %v", asked, row.asked)
			}
		})
	})
}

// The times asked for of this program, from no outside source: a pause of 150 ms, a second
// at most while bytes flow, Every between answers without news. A new answer is
// stamped with its last byte's time.
func TestGrowingDelivers(t *testing.T) {
	quick := slices.Repeat([]step{{wait: 70 * ms, text: "ab "}}, 20)
	halves := slices.Repeat([]step{{70 * ms, "N", nil}, {70 * ms, "f3 ", nil}}, 10)
	for _, row := range []growingRow{
		{name: "at a pause", during: 999 * ms, responses: []http.HandlerFunc{growing(step{100 * ms, "a", nil}, step{149 * ms, "b", nil}, step{300 * ms, "c", nil})},
			want: []string{"249ms new ab", "549ms new abc"}, asked: []time.Duration{0}},
		{name: "each second while bytes flow", during: 2000 * ms, responses: []http.HandlerFunc{growing(quick...)},
			want: []string{"1.05s new " + strings.Repeat("ab ", 15), "1.4s new " + strings.Repeat("ab ", 20)}},
		{name: "no word cut in two while bytes flow", during: 1110 * ms, responses: []http.HandlerFunc{growing(halves...)},
			want: []string{"1.05s new " + strings.Repeat("Nf3 ", 7)}},
		{name: "and its rest when no more comes", during: 1300 * ms, responses: []http.HandlerFunc{growing(append(quick[:14:14], step{70 * ms, "Nf", nil})...)},
			want: []string{"1.05s new " + strings.Repeat("ab ", 14), "1.05s new " + strings.Repeat("ab ", 14) + "Nf"}},
		{name: "a word cut in two at a pause", during: 999 * ms, responses: []http.HandlerFunc{growing(step{text: "e4 N"}, step{500 * ms, "f3", nil})},
			want: []string{"0s new e4 N", "500ms new e4 Nf3"}},
		{name: "quiet counts as an answer", during: 3500 * ms, responses: []http.HandlerFunc{growing(step{text: "a"})},
			want: []string{"0s new a", "1.15s same", "2.15s same", "3.15s same"}},
		{name: "nothing at all", during: 2500 * ms, responses: []http.HandlerFunc{growing()},
			want: []string{"0s new ", "2s same"}},
		{name: "quiet for longer than Every", during: 2200 * ms, o: GrowingOptions{HTTPOptions: HTTPOptions{Every: 2 * time.Second}}, responses: []http.HandlerFunc{growing(step{text: "a"})},
			want: []string{"0s new a", "2.15s same"}},
	} {
		row.run(t)
	}
}

func TestGrowingTook(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: growing(step{100 * ms, "a", nil}, step{100 * ms, "b", nil}, step{400 * ms, "c", nil}, step{50 * ms, "d", nil})}
		got := &recorder{limit: 2}
		a.follow(t, GrowingOptions{}, got)
		if took := []time.Duration{got.events[0].took, got.events[1].took}; took[0] != 200*ms || took[1] != 50*ms {
			t.Errorf("took %v, want 200 ms from the request to the last byte, then 50 ms from the first new byte", took)
		}
	})
}

// What a Sink was given must stay as it was, however the content grows and begins afresh; and
// a Sink that appends to it spoils nothing.
func TestGrowingNeverChangesABody(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		steps := slices.Repeat([]step{{70 * ms, "N", nil}, {70 * ms, "f3 ", nil}}, 100)
		steps = append(steps, step{wait: 200 * ms, end: (*farEnd).reset})
		kept := &keeper{}
		a, got := &arena{handler: inTurn(growing(steps...), growing(step{text: strings.Repeat("x", 400)}))}, &recorder{during: 17 * sec}
		kept.recorder = got
		a.serve(t, func(transport http.RoundTripper) {
			g, err := NewGrowing(GrowingOptions{HTTPOptions: HTTPOptions{}.forTest(transport)})
			if err != nil {
				t.Fatal(err)
			}
			ctx, cancel := got.context(t.Context())
			defer cancel()
			g.Run(ctx, kept)
		})
		n := len(kept.copies)
		if n < 14 || kept.copies[n-2] != strings.Repeat("Nf3 ", 100) || kept.copies[n-1] != strings.Repeat("x", 400) {
			t.Errorf("got %d bodies, the last two %q", n, kept.copies[max(0, n-2):])
		}
		for i, body := range kept.bodies {
			if string(body) != kept.copies[i] {
				t.Errorf("body %d was changed to %.20q", i+1, body)
			}
		}
	})
}

// keeper keeps bodies as they were given, and copies of them.
type keeper struct {
	*recorder
	bodies [][]byte
	copies []string
}

func (k *keeper) Answered(a Answer) {
	if a.New {
		k.bodies, k.copies = append(k.bodies, a.Body), append(k.copies, string(a.Body))
	}
	k.recorder.Answered(a)
	_ = append(a.Body, 'X')
}

// The header's date belongs to every answer of the response.
func TestGrowingModified(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a := &arena{handler: func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Last-Modified", "Sun, 06 Nov 1994 08:49:37 GMT")
			w.Write([]byte("a"))
			w.(http.Flusher).Flush()
			<-r.Context().Done()
		}}
		got := &recorder{limit: 2}
		a.follow(t, GrowingOptions{}, got)
		for i, e := range got.events {
			if want := time.Date(1994, 11, 6, 8, 49, 37, 0, time.UTC); !e.modified.Equal(want) {
				t.Errorf("answer %d: modified %v, want %v", i+1, e.modified, want)
			}
		}
	})
}
