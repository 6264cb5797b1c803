package overlay

import (
	"fmt"
	"io"
	"net/http"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/coder/websocket"
	"go.uber.org/goleak"

	"clocktell/overlay/wire"
)

// childRoles are what this binary does instead of testing when a benchmark starts it again.
var (
	childRoles = make(map[string]func() error)
	childRole  string
)

func TestMain(m *testing.M) {
	if run := childRoles[childRole]; run != nil {
		if err := run(); err != nil {
			fmt.Fprintln(os.Stderr, childRole+":", err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	goleak.VerifyTestMain(m)
}

// inHall runs a test with a server in fake time, and stops it.
func inHall(t *testing.T, maxPages int, test func(t *testing.T, h *hall)) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(t, maxPages)
		defer h.stop()
		test(t, h)
	})
}

func TestSnapshotThenUpdates(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		p := h.open("page=scene/board&board=1")
		var welcome wire.Welcome
		p.until(wire.TypeWelcome, &welcome)
		if welcome.Version != wire.Version || welcome.Rate != 1 || welcome.Run != "SHOW" {
			t.Errorf("welcome = %+v", welcome)
		}
		whole := p.board()
		if whole.Base != 0 || len(whole.Plies) != 2 {
			t.Errorf("first board: base %d, %d plies; want a whole one of 2", whole.Base, len(whole.Plies))
		}
		h.play("e4 e5 Nf3")
		update := p.board()
		if update.Base != whole.Rev || update.Keep != 2 || len(update.Plies) != 1 || update.Plies[0].SAN != "Nf3" {
			t.Errorf("update: base %d (want %d), keep %d, plies %+v", update.Base, whole.Rev, update.Keep, update.Plies)
		}
	})
}

// TestEveryStartHasItsName: a server that is told none makes one up.
func TestEveryStartHasItsName(t *testing.T) {
	first, second := New(Options{}).Run, New(Options{}).Run
	if first == "" || first == second {
		t.Errorf("two starts are named %q and %q", first, second)
	}
}

func TestPageAsksAgain(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		p := h.open("page=scene/board")
		first := p.board()
		p.send(`{"type":"again","board":1}`)
		if again := p.board(); again.Base != 0 || again.Rev != first.Rev || len(again.Plies) != 1 {
			t.Errorf("asked again and got base %d, rev %d, %d plies", again.Base, again.Rev, len(again.Plies))
		}
	})
}

// TestSlowPage: a page that does not read gets the newest state when it does,
// never the backlog.
func TestSlowPage(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		p := h.open("page=scene/board")
		first := p.board()
		moves := strings.Fields("e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7")
		for i := 2; i <= len(moves); i++ {
			h.play(strings.Join(moves[:i], " "))
			synctest.Wait()
		}
		var revs []uint64
		var newest wire.Board
		for len(revs) == 0 || len(newest.Plies)+newest.Keep < len(moves) {
			newest = p.board()
			revs = append(revs, newest.Rev)
		}
		if len(revs) > 2 { // at most one was under way already
			t.Errorf("the page got revisions %v after %d, want the newest at once", revs, first.Rev)
		}
		if newest.Base != 0 {
			t.Errorf("the newest follows on %d; a page that skipped needs the whole", newest.Base)
		}
		if got := h.server.Pages().Superseded; got == 0 {
			t.Error("no superseded revision was counted")
		}
	})
}

// TestStalledPage: a page that takes nothing for five seconds is dropped.
func TestStalledPage(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		p := h.open("page=panel")
		time.Sleep(writeWait + time.Second)
		synctest.Wait()
		if got := h.server.Pages(); got.Dropped != 1 || got.Connected["panel"] != 0 {
			t.Errorf("pages = %+v, want one dropped and none connected", got)
		}
		p.conn.CloseNow()
	})
}

// TestSilentPage: a page that says nothing for 30 seconds is taken to be gone.
func TestSilentPage(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		p := h.open("page=panel")
		go p.closed()
		time.Sleep(silenceMost - time.Second)
		synctest.Wait()
		if got := h.server.Pages().Connected["panel"]; got != 1 {
			t.Errorf("%d panels connected, want 1", got)
		}
		time.Sleep(2 * time.Second)
		synctest.Wait()
		if got := h.server.Pages(); got.Connected["panel"] != 0 || got.Dropped != 0 {
			t.Errorf("pages = %+v; want none connected, and none dropped for slowness", got)
		}
		p.conn.CloseNow()
	})
}

func TestCloseCodes(t *testing.T) {
	for _, test := range []struct {
		name, query, send string
		want              websocket.StatusCode
	}{
		{"no page", "", "", wire.CloseUnknownPage},
		{"unknown page", "page=studio", "", wire.CloseUnknownPage},
		{"no such board number", "page=scene/board&board=x", "", wire.CloseUnknownPage},
		{"board zero", "page=scene/board&board=0", "", wire.CloseUnknownPage},
		{"not JSON", "page=panel", "hello", wire.CloseBadFrame},
		{"unknown type", "page=panel", `{"type":"shout"}`, wire.CloseBadFrame},
		{"a type that would not fit a close reason", "page=panel", `{"type":"` + strings.Repeat("\U000E0001", 40) + `"}`, wire.CloseBadFrame},
		{"ping of another shape", "page=panel", `{"type":"ping","t":"x"}`, wire.CloseBadFrame},
		{"again of another shape", "page=panel", `{"type":"again","board":"x"}`, wire.CloseBadFrame},
		{"too large", "page=panel", `{"type":"ping","x":"` + strings.Repeat("x", frameMost) + `"}`, websocket.StatusMessageTooBig},
	} {
		t.Run(test.name, func(t *testing.T) {
			inHall(t, 0, func(t *testing.T, h *hall) {
				p := h.open(test.query)
				if test.send != "" {
					p.next()
					go p.conn.Write(t.Context(), websocket.MessageText, []byte(test.send))
				}
				if got := p.closed(); got != test.want {
					t.Errorf("close code %d, want %d", got, test.want)
				}
			})
		})
	}
}

func TestGoingAway(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(t, 0)
		p := h.open("page=panel")
		closed := make(chan websocket.StatusCode)
		go func() { closed <- p.closed() }()
		synctest.Wait()
		go h.stop()
		if got := <-closed; got != websocket.StatusGoingAway {
			t.Errorf("close code %d, want 1001", got)
		}
	})
}

func TestTooManyPages(t *testing.T) {
	inHall(t, 1, func(t *testing.T, h *hall) {
		first := h.open("page=panel")
		first.next()
		second := h.open("page=panel")
		if got := second.closed(); got != websocket.StatusTryAgainLater {
			t.Errorf("close code %d, want 1013", got)
		}
		if got := h.server.Pages(); got.Refused != 1 || got.Connected["panel"] != 1 {
			t.Errorf("pages = %+v", got)
		}
	})
}

func TestPingsAndLateness(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		scene := h.open("page=scene/board&board=2")
		scene.send(`{"type":"ping","t":12.5,"late":[7,9,-3,99999999]}`)
		var pong wire.Pong
		scene.until(wire.TypePong, &pong)
		if pong.T != 12.5 || pong.Now != h.tb.Now().UnixMilli() {
			t.Errorf("pong = %+v", pong)
		}
		health := h.open("page=health")
		var pages wire.Pages
		health.until(wire.TypePages, &pages)
		if len(pages.Items) != 2 || pages.Items[1].Page != "scene/board" || pages.Items[1].Board != 2 || !slices.Equal(pages.Items[1].Late, []int64{7, 9}) {
			t.Errorf("pages = %+v", pages.Items)
		}
		if want := []time.Duration{7 * time.Millisecond, 9 * time.Millisecond}; !slices.Equal(h.late, want) {
			t.Errorf("lateness told = %v, want %v", h.late, want)
		}
	})
}

// TestPanelHearsOfStaleFeed follows an alert from silence to the panel.
func TestPanelHearsOfStaleFeed(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		p := h.open("page=panel")
		for {
			var prompts wire.Prompts
			p.until(wire.TypePrompts, &prompts)
			if len(prompts.Items) == 1 && prompts.Items[0].Kind == "feed" {
				return
			}
		}
	})
}

func TestRoutes(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		for _, test := range []struct {
			method, host, path string
			status             int
			body               string
		}{
			{"GET", "127.0.0.1:8600", "/scene/board", 200, "<p>scene/board"},
			{"GET", "localhost:8600", "/panel", 200, "<p>panel"},
			{"GET", "[::1]:8600", "/health", 200, "<p>health"},
			{"GET", "127.0.0.1:8600", "/static/lib/x.js", 200, "as x}"},
			{"GET", "127.0.0.1:8600", "/static/lib/none.js", 404, ""},
			{"GET", "127.0.0.1:8600", "/static/../server.go", 404, ""},
			{"GET", "127.0.0.1:8600", "/desk", 200, "<p>desk"},
			{"GET", "127.0.0.1:8600", "/static/", 404, ""},
			{"GET", "127.0.0.1:8600", "/panel/", 200, "<p>panel"}, // by a redirect
			{"GET", "127.0.0.1:8600", "/", 200, "<p>health"},
			{"GET", "127.0.0.1:8600", "/favicon.ico", 204, ""},
			{"POST", "127.0.0.1:8600", "/panel", 405, ""},
			{"GET", "127.0.0.1:8600", "/live", 426, ""}, // RFC 6455: no upgrade asked for
			{"GET", "rebind.example", "/panel", 403, "this machine only"},
		} {
			request, err := http.NewRequest(test.method, "http://127.0.0.1:8600"+test.path, nil)
			if err != nil {
				t.Fatal(err)
			}
			request.Host = test.host
			response, err := h.client.Do(request)
			if err != nil {
				t.Fatal(err)
			}
			body, _ := io.ReadAll(response.Body)
			response.Body.Close()
			if response.StatusCode != test.status || !strings.Contains(string(body), test.body) {
				t.Errorf("%s %s at %s: %d %.60q, want %d %q", test.method, test.path, test.host, response.StatusCode, body, test.status, test.body)
			}
			if csp := response.Header.Get("Content-Security-Policy"); test.status == 200 && !strings.HasPrefix(csp, "default-src 'none'; script-src 'self'; style-src 'self';") {
				t.Errorf("%s: policy %q", test.path, csp)
			}
		}
		time.Sleep(time.Second) // what has joined x.js leaves a goroutine behind for 250 ms
	})
}

// TestForeignOrigin: another web page in the same browser must not read along
// (RFC 6455, 10.2: answer 403).
func TestForeignOrigin(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		_, response, err := websocket.Dial(t.Context(), "ws://127.0.0.1:8600/live?page=panel", &websocket.DialOptions{
			HTTPClient: h.client, HTTPHeader: http.Header{"Origin": {"https://elsewhere.example"}},
		})
		if err == nil || response.StatusCode != http.StatusForbidden {
			t.Errorf("err %v, response %v; want 403", err, response)
		}
	})
}
