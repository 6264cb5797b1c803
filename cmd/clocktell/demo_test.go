package main

import (
	"context"
	"io"
	"log/slog"
	"net"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/notnil/chess"

	"clocktell/relay"
	"clocktell/testdata/demo"
)

// testSpeed runs the match in well under a minute.
const testSpeed = 40

// liveDemo is a demo under way, whose relay can be stopped and started again
// while the hall plays on.
type liveDemo struct {
	t    *testing.T
	hall *arena
	tb   relay.Timebase
	addr string
	stop func()
}

func startDemo(t *testing.T) *liveDemo {
	t.Helper()
	tb := relay.NewTimebase(testSpeed)
	hall, err := newArena(demo.FS, tb.Now)
	if err != nil {
		t.Fatal(err)
	}
	d := &liveDemo{t: t, hall: hall, tb: tb, addr: "127.0.0.1:0"}
	d.start()
	t.Cleanup(func() { d.stop() })
	return d
}

func (d *liveDemo) start() {
	d.t.Helper()
	l, err := net.Listen("tcp", d.addr)
	if err != nil {
		d.t.Fatal(err)
	}
	d.addr = l.Addr().String()
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error)
	go func() {
		done <- playDemo(ctx, d.hall, demoShow{language: "en"}, d.tb, l, slog.New(slog.DiscardHandler), io.Discard)
	}()
	d.stop = func() {
		cancel()
		if err := <-done; err != nil {
			d.t.Error(err)
		}
		d.stop = func() {}
	}
}

func (d *liveDemo) url(path string) string { return "http://" + d.addr + path }

// positions replays a demo game with the rules library: the placement after each
// ply, and the ply of each placement. The wrong move of the script is ply -1.
func (d *liveDemo) positions(game int) map[string]int {
	d.t.Helper()
	plies := make(map[string]int)
	g := chess.NewGame()
	plies[placementOf(g.FEN())] = 0
	for i, move := range d.hall.games[game-1].Moves {
		for _, c := range d.hall.script.Correction {
			if c.Game == game && c.Ply == i+1 {
				wrong := g.Clone()
				if err := wrong.MoveStr(c.Wrong); err != nil {
					d.t.Fatal(err)
				}
				plies[placementOf(wrong.FEN())] = -1
			}
		}
		if err := g.MoveStr(move.SAN); err != nil {
			d.t.Fatal(err)
		}
		plies[placementOf(g.FEN())] = i + 1
	}
	return plies
}

// feedPlies returns how many plies the hall publishes of game 1 right now.
func (d *liveDemo) feedPlies() int {
	_, at := d.hall.clock()
	return len(d.hall.games[0].at(at).Moves)
}

// scenePoint is what a scene shows at one moment, read in one go.
type scenePoint struct {
	Drawn, Fen   string
	White, Black string // verdicts
	Left         string // text of the running clock
	Rev          string // revision of the board shown
}

const readScene = `({
	drawn: ` + drawn + `,
	fen: document.querySelector('#board').dataset.fen ?? '',
	white: document.querySelector('.tell[data-side=white]')?.dataset.verdict ?? '',
	black: document.querySelector('.tell[data-side=black]')?.dataset.verdict ?? '',
	rev: document.body.dataset.rev ?? '',
	left: document.querySelector('.clock[data-state=running]')?.dataset.text ?? '',
})`

// at waits until the scene shows a ply between two, and returns what it shows.
func (d *liveDemo) at(ctx context.Context, plies map[string]int, from, to int) (scenePoint, int) {
	d.t.Helper()
	for {
		p := evaluate[scenePoint](d.t, ctx, readScene)
		if n, known := plies[p.Drawn]; known && n >= from {
			if n > to {
				d.t.Fatalf("the scene shows ply %d already, wanted %d to %d", n, from, to)
			}
			return p, n
		}
	}
}

// TestDemoOnTheAir drives the board scene in a browser through the demo's match.
func TestDemoOnTheAir(t *testing.T) {
	ctx := browser(t)
	d := startDemo(t)
	plies := d.positions(1)
	visit(t, ctx, d.url("/scene/board?board=1"))
	evaluate[chromedp.Void](t, ctx, watchCorrections)
	waitFor(t, ctx, "the first picture", "document.querySelector('#board').dataset.fen")

	d.positionMatchesFeed(ctx, plies, 6)
	p, n := d.at(ctx, plies, 19, 27)
	if p.White != "preparation" {
		t.Errorf("at ply %d, about move 10, White's tell is %q, want preparation", n, p.White)
	}
	d.at(ctx, plies, 28, 28) // White thinks 2:41 on 15.f3
	d.clockCountsDown(ctx)
	p, n = d.at(ctx, plies, 29, 35)
	if p.White != "thinking" {
		t.Errorf("at ply %d, after the long think, White's tell is %q, want thinking", n, p.White)
	}
	d.positionMatchesFeed(ctx, plies, 30)
	d.at(ctx, plies, 41, 60)
	d.correctionWasShown(ctx)
	d.restart(ctx, plies)
	d.positionMatchesFeed(ctx, plies, 60)
	d.latency()
}

// positionMatchesFeed compares the pieces drawn with the position of the feed:
// the one it published when asked before the look, or after, or between.
func (d *liveDemo) positionMatchesFeed(ctx context.Context, plies map[string]int, from int) {
	d.t.Helper()
	for tries := 0; tries < 200; {
		before := d.feedPlies()
		p := evaluate[scenePoint](d.t, ctx, readScene)
		n, known := plies[p.Drawn]
		if before < from || p.Drawn == "" || n == -1 {
			continue
		}
		tries++
		if !known {
			d.t.Errorf("the scene draws %s, which is no position of the game", p.Drawn)
			return
		}
		if p.Drawn != p.Fen {
			d.t.Errorf("the pieces stand as %s, the page says %s", p.Drawn, p.Fen)
		}
		if n >= before && n <= d.feedPlies() {
			d.t.Logf("ply %d: the pieces drawn are the feed's position", n)
			return
		}
	}
	d.t.Errorf("from ply %d on, the scene never caught up with the feed", from)
}

// clockCountsDown samples the running clock of one think: it must fall, step by
// step, and by itself: between looks at the same revision of the board.
func (d *liveDemo) clockCountsDown(ctx context.Context) {
	d.t.Helper()
	first := evaluate[scenePoint](d.t, ctx, readScene)
	var texts []string
	byItself := 0
	for before, last := first, first; last.Drawn == first.Drawn && len(texts) < 20; last = evaluate[scenePoint](d.t, ctx, readScene) {
		if len(texts) == 0 || texts[len(texts)-1] != last.Left {
			texts = append(texts, last.Left)
			if last.Rev == before.Rev && len(texts) > 1 {
				byItself++
			}
		}
		before = last
	}
	d.t.Logf("clock on move: %s; %d of these steps with no update between", strings.Join(texts, " "), byItself)
	if byItself < 3 {
		d.t.Errorf("only %d steps without an update: the page does not count by itself", byItself)
	}
	if len(texts) < 5 {
		d.t.Errorf("the clock showed only %v during a long think", texts)
	}
	for i := 1; i < len(texts); i++ {
		if seconds(texts[i]) >= seconds(texts[i-1]) {
			d.t.Errorf("the clock went from %s to %s", texts[i-1], texts[i])
		}
	}
}

// seconds reads a clock such as 9:58 or 0:07.4.
func seconds(text string) float64 {
	minutes, rest, _ := strings.Cut(text, ":")
	m, _ := strconv.ParseFloat(minutes, 64)
	s, _ := strconv.ParseFloat(rest, 64)
	return m*60 + s
}

// watchCorrections notes every struck-out move with the words beside it.
const watchCorrections = `(() => {
	window.corrections = [];
	new MutationObserver(() => {
		const wrong = document.querySelector('#moves s[aria-label]');
		if (wrong) window.corrections.push(wrong.getAttribute('aria-label') + ' | ' + document.querySelector('#moves').textContent);
	}).observe(document.querySelector('#moves'), { childList: true, subtree: true });
	window.stays = 'the same page';
})()`

func (d *liveDemo) correctionWasShown(ctx context.Context) {
	d.t.Helper()
	seen := evaluate[[]string](d.t, ctx, "window.corrections")
	wrong := d.hall.script.Correction[0].Wrong
	if !slices.ContainsFunc(seen, func(s string) bool {
		return strings.HasPrefix(s, "not "+wrong) && strings.Contains(s, "corrected")
	}) {
		d.t.Errorf("%s was not shown as corrected; seen: %q", wrong, seen)
	}
}

// restart stops the relay and starts another at the same address: the page must
// notice, come back and go on, without being loaded again.
func (d *liveDemo) restart(ctx context.Context, plies map[string]int) {
	d.t.Helper()
	d.stop()
	waitFor(d.t, ctx, "the page to notice", "document.body.dataset.line === 'lost'")
	d.start()
	waitFor(d.t, ctx, "the page to come back", "document.body.dataset.line === 'open'")
	d.at(ctx, plies, 42, 79)
	if stays := evaluate[string](d.t, ctx, "window.stays ?? ''"); stays != "the same page" {
		d.t.Error("the page was loaded again")
	}
}

var latencyBucket = regexp.MustCompile(`(?m)^clocktell_packet_to_page_seconds_bucket\{le="([^"]+)"\} (\d+)$`)

// latency reports the time from packet to page as the relay counted it, for the
// page that came back after the restart: the bucket that holds the median and
// the one that holds the 99th percentile.
func (d *liveDemo) latency() {
	d.t.Helper()
	response, err := http.Get(d.url("/metrics"))
	if err != nil {
		d.t.Fatal(err)
	}
	defer response.Body.Close()
	body, err := io.ReadAll(response.Body)
	if err != nil {
		d.t.Fatal(err)
	}
	buckets := latencyBucket.FindAllStringSubmatch(string(body), -1)
	if len(buckets) == 0 {
		d.t.Fatal("no latency in the metrics")
	}
	all, _ := strconv.Atoi(buckets[len(buckets)-1][2])
	if all == 0 {
		d.t.Fatal("no page has reported its lateness")
	}
	for _, q := range []float64{0.5, 0.99} {
		for _, bucket := range buckets {
			if n, _ := strconv.Atoi(bucket[2]); float64(n) >= q*float64(all) {
				d.t.Logf("packet to page: %g of %d frames within %s s", q, all, bucket[1])
				break
			}
		}
	}
}

// TestDemoOnce: --once ends with the match, and the links are printed.
func TestDemoOnce(t *testing.T) {
	code, stdout, stderr := call(t, "demo", "--listen", "127.0.0.1:0", "--speed", "100", "--once")
	if code != 0 {
		t.Errorf("exit %d", code)
	}
	if stderr != "" {
		t.Errorf("stderr: %s", stderr)
	}
	for _, want := range []string{"/scene/board", "/scene/clocks", "/scene/wall", "/scene/caption", "/panel", "/health", "What to look for"} {
		if !strings.Contains(stdout, want) {
			t.Errorf("no %q in\n%s", want, stdout)
		}
	}
}

// TestWorkingPages opens panel and health on the demo.
func TestWorkingPages(t *testing.T) {
	ctx := browser(t)
	d := startDemo(t)
	visit(t, ctx, d.url("/health"))
	waitFor(t, ctx, "the verdict", "document.querySelector('#verdict')?.dataset.fine === 'true'")
	waitFor(t, ctx, "the feed", "document.querySelector('[data-feed=arena]')?.dataset.state === 'ok'")
	waitFor(t, ctx, "its own row", "document.querySelector('[data-page=health]')")
	visit(t, ctx, d.url("/panel"))
	waitFor(t, ctx, "a prompt", "document.querySelector('article[data-prompt]')")
	waitFor(t, ctx, "the line", "document.body.dataset.line === 'open'")
	for _, width := range []int64{360, 834, 1920} {
		page(t, ctx, "another size", chromedp.EmulateViewport(width, 800))
		if evaluate[bool](t, ctx, "document.documentElement.scrollWidth > innerWidth") {
			t.Errorf("the panel is wider than a screen of %d px", width)
		}
	}
}
