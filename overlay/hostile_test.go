package overlay

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"testing/synctest"
	"time"
	"unicode"

	"clocktell/overlay/access"
)

// The table of hostile requests and frames, in hostile_requests_test.go and
// hostile_frames_test.go: what is sent, byte by byte, and what must come back.
// One server lives through all of it, in fake time.

// hostile is one row. In what is sent {viewer}, {panel}, {desk}, {producer} stand for the
// tokens and {stale} for one of the panel that has been renewed.
type hostile struct {
	name   string
	send   string
	then   []byte // sent behind it
	socket bool   // it opens a socket, and frames come back
	want   string // "401": the status; "close 1002": the socket ends so; "cut": it ends without a word, or in the middle of one ("cut short")

	says   string        // the answer holds it
	lacks  string        // the answer does not hold it
	every  time.Duration // between the bytes of then; 0 all at once
	deaf   bool          // reads nothing until the server has cut the line
	within time.Duration // until the line is closed; 0 does not matter
	may    string        // a token that the answer may hold: whoever sent it is given it back
}

// rowsLeast is how many rows the table must have.
const rowsLeast = 60

func TestHostile(t *testing.T) {
	rows := append(append(append(hostileForms(), hostilePaths()...), hostileTokens()...), hostileEntries()...)
	rows = append(append(rows, hostileFrames()...), hostilePace()...)
	if len(rows) < rowsLeast {
		t.Errorf("only %d rows", len(rows))
	}
	t.Logf("%d rows", len(rows))
	var tokens []access.Token
	synctest.Test(t, func(t *testing.T) {
		h := newHall(t, 0, withFreshKeys(t, &tokens), func(_ *hall, o *Options) {
			o.Metrics = http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { fmt.Fprint(w, "figures") })
			o.Push = map[string]http.Handler{"hall": http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(401) })}
			o.Static = withLongFile(o.Static)
		})
		defer h.stop()
		h.play("e4 e5")
		a := newAttack(t, h, tokens)
		for i, row := range rows {
			a.run(t, i, row)
		}
		a.harmless(t)
	})
}

// attack is a server under attack, and what must stay as it is.
type attack struct {
	h          *hall
	secrets    *strings.Replacer
	tokens     []string
	goroutines int
	plies      int
}

func newAttack(t *testing.T, h *hall, tokens []access.Token) *attack {
	t.Helper()
	renewed, err := h.server.Keys.Renew(access.Panel)
	if err != nil {
		t.Fatal(err)
	}
	stale := tokens[1].Text
	now := []string{tokens[0].Text, renewed.Text, tokens[2].Text, tokens[3].Text}
	a := &attack{h: h, tokens: now, plies: 2, secrets: strings.NewReplacer(
		"{viewer}", now[0], "{panel}", now[1], "{desk}", now[2], "{producer}", now[3], "{stale}", stale,
		"{pan}", now[1][:9], "{lower}", strings.ToLower(now[1]))}
	a.legitimate(t, "before the attack") // makes what is made once
	time.Sleep(time.Second)
	synctest.Wait()
	if a.goroutines = goroutines(); a.goroutines < 3 {
		t.Errorf("sees %d goroutines of a server; too few", a.goroutines)
	}
	return a
}

// run does one row and looks what has become of the server.
func (a *attack) run(t *testing.T, number int, row hostile) {
	t.Helper()
	start := time.Now()
	answer := a.send(net.IPv4(198, 51, 100, byte(number)), row) // RFC 5737
	if row.within > 0 && time.Since(start) > row.within {
		t.Errorf("%s: the line was open for %v, want %v at most", row.name, time.Since(start), row.within)
	}
	if got := outcome(answer); got != row.want {
		t.Errorf("%s: %s, want %s\n%.300q", row.name, got, row.want, answer)
	}
	if row.says != "" && !bytes.Contains(answer, []byte(row.says)) || row.lacks != "" && bytes.Contains(answer, []byte(row.lacks)) {
		t.Errorf("%s: want %q and not %q in\n%.600q", row.name, row.says, row.lacks, answer)
	}
	for _, token := range a.tokens {
		if row.may != "" && token == a.secrets.Replace(row.may) {
			continue
		}
		if bytes.Contains(answer, []byte(token)) {
			t.Errorf("%s: the answer holds a token\n%.600q", row.name, answer)
		}
	}
	synctest.Wait()
	if plies := len(a.h.server.Relay.Show().Boards[0].Plies); plies != a.plies {
		t.Errorf("%s: the board has %d plies, it had %d", row.name, plies, a.plies)
	}
	a.legitimate(t, row.name)
	if open := a.h.server.Conns().Open; open != 0 {
		t.Errorf("%s: %d connections are still open", row.name, open)
	}
	if now := goroutines(); now > a.goroutines {
		t.Errorf("%s: %d goroutines, there were %d", row.name, now, a.goroutines)
		a.goroutines = now
	}
}

// legitimate opens the panel as its people do, from an address that has done nothing.
func (a *attack) legitimate(t *testing.T, after string) {
	t.Helper()
	response := a.h.get(t, "/panel", header("Cookie", "clocktell-8600="+a.tokens[1]))
	body, _ := io.ReadAll(response.Body)
	if response.StatusCode != 200 || string(body) != "<p>panel" {
		t.Errorf("after %s: the panel answers %d %q", after, response.StatusCode, body)
	}
	p := a.h.openAs("page=panel", header("Cookie", "clocktell-8600="+a.tokens[1]))
	if board := p.board(); len(board.Plies) != a.plies {
		t.Errorf("after %s: the panel's board has %d plies", after, len(board.Plies))
	}
	p.conn.CloseNow()
	time.Sleep(time.Second)
	synctest.Wait()
}

// harmless looks at what the pages have been sent of all that: HTML arrives as text that no
// parser of HTML takes for any, and nothing in it steers a terminal (RFC 8259, 7).
func (a *attack) harmless(t *testing.T) {
	t.Helper()
	told := 0
	for _, name := range pageNames() {
		p := a.h.openAs("page="+name, header("Authorization", "Bearer "+a.tokens[3]))
		for {
			ctx, cancel := context.WithTimeout(t.Context(), 2*time.Second)
			_, data, err := p.conn.Read(ctx)
			cancel()
			if err != nil {
				break
			}
			told += bytes.Count(data, []byte(`\u003cscript\u003ealert(1)`))
			if bytes.ContainsAny(data, "<>") || bytes.ContainsFunc(data, unicode.IsControl) {
				t.Errorf("%s is sent %.300q", name, data)
			}
		}
		p.conn.CloseNow()
	}
	if told < 3 {
		t.Errorf("the names and texts of the attack have been told %d times; the check sees too little", told)
	}
}
