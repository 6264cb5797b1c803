package main

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// TestVerifierAcrossMoves lets a page go to another edge, with faults planted into what it is
// sent there: each is found, and nothing is found where there is none.
func TestVerifierAcrossMoves(t *testing.T) {
	scene, health := want{page: "scene/board", boards: []int{1}}, want{page: "health"}
	all := []string{welcome, board(1), board(2), board(3), board(4)}
	whole := func(rev int) string { // revision rev with all its plies
		b := strings.Replace(board(rev), fmt.Sprintf(`"base":%d`, rev-1), `"base":0`, 1)
		var plies []string
		for _, san := range sans[:rev-1] {
			plies = append(plies, fmt.Sprintf(`{"san":%q}`, san))
		}
		return strings.NewReplacer(fmt.Sprintf(`"keep":%d`, rev-2), `"keep":0`, b[strings.Index(b, `"plies":[`):strings.Index(b, `],"result"`)], `"plies":[`+strings.Join(plies, ",")).Replace(b)
	}
	logged := append(slices.Clone(all), logLines(40, 41))
	show := func(rev int) string { return text("show", fmt.Sprintf(`"rev":%d,"title":""`, rev)) }
	for _, c := range []struct {
		name          string
		want          want
		truth         score
		before, after []string
		found         []breach
	}{
		{"nothing: it comes back to what it has", scene, 3, all, []string{welcome, whole(4)}, nil},
		{"nothing: it has missed a move", scene, 4, all, []string{welcome, whole(5)}, nil},
		{"nothing: the log goes on", health, 3, logged, []string{welcome, whole(4), logLines(42, 43)}, nil},
		{"nothing: no line is new", health, 3, logged, []string{welcome, whole(4)}, nil},
		{"nothing: a state as it was, then the next", health, 3, append(slices.Clone(logged), show(7)), []string{welcome, whole(4), show(7), show(8)}, nil},
		{"a revision falls", scene, 3, all, []string{welcome, whole(3), board(4)}, []breach{breachOrder}},
		{"a state falls", health, 3, append(slices.Clone(logged), show(7)), []string{welcome, whole(4), show(6), show(7)}, []breach{breachOrder}},
		{"a line of the log is repeated", health, 3, logged, []string{welcome, whole(4), logLines(41, 42)}, []breach{breachDoubled}},
		{"a line of the log is lost", health, 3, logged, []string{welcome, whole(4), logLines(43)}, []breach{breachLost}},
		{"another show", scene, 3, all, []string{strings.Replace(welcome, `"run":"A"`, `"run":"B"`, 1), whole(4)}, []breach{breachLost}},
		{"an update on what the page has no more", scene, 4, all, []string{welcome, board(5)}, []breach{breachLost, breachLost}},
		{"the board never comes", scene, 3, all, []string{welcome}, []breach{breachLost}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var found []breach
			v := verifier{truth: c.truth, want: c.want, breach: func(b breach, format string, args ...any) {
				t.Logf("%v: %s", b, fmt.Sprintf(format, args...))
				found = append(found, b)
			}}
			for _, frames := range [][]string{c.before, c.after} {
				v.forget()
				for _, f := range frames {
					read, err := decode([]byte(f))
					if err != nil {
						t.Fatalf("%v: %s", err, f)
					}
					v.take(read, start)
				}
			}
			v.ends(1, &marks{})
			if !slices.Equal(found, c.found) {
				t.Errorf("found %v, want %v", found, c.found)
			}
		})
	}
}

// TestPageSaysWhatItHas: a page that comes back says which show it has, and how far.
func TestPageSaysWhatItHas(t *testing.T) {
	for _, c := range []struct {
		page, path string
		run        string
		line       uint64
		seen       int64
	}{
		{"health", "/live?log=41&page=health&run=A", "A", 41, 0},
		{"health", "/live?page=health", "", 0, 0},
		{"scene/board", "/live?board=1&page=scene%2Fboard&run=A&seen=7", "A", 41, 7},
	} {
		v := verifier{want: wantOf(c.page, 0, 1), run: c.run, line: c.line, seen: c.seen}
		if got := v.path(); got != c.path {
			t.Errorf("%s, want %s", got, c.path)
		}
	}
}

// TestEdgeClock: at a relay no receipt is ahead of the page's time, at an edge by a little.
func TestEdgeClock(t *testing.T) {
	for _, c := range []struct {
		edge bool
		by   time.Duration
		want bool
	}{
		{false, 0, false}, {false, time.Millisecond, true}, {true, edgeBehindMost, false}, {true, edgeBehindMost + 1, true},
	} {
		v := verifier{edge: c.edge, behind: new(histogram)}
		if v.ahead(c.by) != c.want {
			t.Errorf("%+v", c)
		}
	}
}

// TestPlaces: all places get as many pages, and who comes back comes elsewhere.
func TestPlaces(t *testing.T) {
	ps := places{{address: "a"}, {address: "b"}, {address: "c"}}
	count := make(map[*place]int)
	for n := range 30 {
		count[ps.first(n)]++
		for _, p := range ps {
			if ps.other(p) == p {
				t.Error("it came back to where it was")
			}
		}
	}
	if count[ps[0]] != 10 || count[ps[1]] != 10 || ps[:1].other(ps[0]) != ps[0] {
		t.Error(count)
	}
	s := ps[0].stay()
	if s.killed() {
		t.Error("nobody was killed")
	}
	if ps[0].kills.Add(1); !s.killed() || ps[0].stay().killed() {
		t.Error("who was there when it was killed knows, who came later does not")
	}
}

// TestMessageCounter counts messages however the bytes are cut up. The bytes are written as
// the description of the protocol has them, from memory.
func TestMessageCounter(t *testing.T) {
	text := "INFO {\"a\":1}\r\nPING\r\nMSG a.b 1 11\r\nHello\nMSG a\r\nHMSG a.b 9 re.ply 12 18\r\nNATS/1.0\r\n\r\nMSG 1 \r\n+OK\r\nMSG a.b 1 re 0\r\n\r\nPONG\r\n"
	for size := 1; size <= len(text); size++ {
		var n atomic.Uint64
		c := &messageCounter{count: &n}
		for piece := range slices.Chunk([]byte(text), size) {
			if k, err := c.Write(bytes.Clone(piece)); k != len(piece) || err != nil {
				t.Fatal(k, err)
			}
		}
		if n.Load() != 3 {
			t.Errorf("in pieces of %d: %d messages", size, n.Load())
		}
	}
}

// TestOnWire holds what a frame takes on a network to sums made by hand.
func TestOnWire(t *testing.T) {
	for payload, want := range map[int]int{50: 50 + 2 + 22 + 70, 1000: 1000 + 4 + 22 + 70, 1423: 1423 + 4 + 22 + 2*70, 70_000: 70_000 + 10 + 22 + 49*70} {
		if got := onWire(payload); got != want {
			t.Errorf("%d bytes take %d, want %d", payload, got, want)
		}
	}
}
