package main

import (
	"context"
	"flag"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strconv"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"

	"clocktell/relay/relaytest"
)

var aMinute = flag.Bool("minute", false, "watch scenes with running clocks for a minute each")

// Most that the scene may cost the machine that streams.
const (
	idleShareMost = 0.01                  // of one core, for clocks that run and nothing else
	wallShareMost = 0.02                  // the same for four boards in the first seconds, when a page also learns the time
	moveTaskMost  = 16 * time.Millisecond // of CPU time, for a move: a frame at 60 a second
)

// costs are the browser's own figures of a page since it was loaded: counts, and seconds of
// CPU time of the page's main thread, so that a busy machine does not count against it.
func costs(t *testing.T, ctx context.Context) map[string]float64 {
	t.Helper()
	out := make(map[string]float64)
	for _, m := range page(t, ctx, "metrics", result(performance.GetMetrics, cdp.Empty{})).Metrics {
		out[m.Name] = m.Value
	}
	return out
}

// during measures a page while it is left alone for so long, by its own clock.
func during(t *testing.T, ctx context.Context, length time.Duration) map[string]float64 {
	t.Helper()
	before := costs(t, ctx)
	script := fmt.Sprintf("new Promise((done) => setTimeout(done, %d, true))", length.Milliseconds())
	page(t, ctx, "the page by itself", chromedp.Evaluate[bool](script, chromedp.EvalAwaitPromise))
	after := costs(t, ctx)
	for name := range after {
		after[name] -= before[name]
	}
	return after
}

// bare is the floor: a page with nothing in it but a timer that goes once a second.
func bare(t *testing.T) string {
	t.Helper()
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, "<!doctype html><title>bare</title><script>setInterval(() => (document.body.dataset.n = Date.now()), 1000)</script>")
	}))
	t.Cleanup(server.Close)
	return server.URL
}

// idleLength is 12 s, a dozen ticks of each kind: what a tick costs does not depend on how many
// there were. With -minute it is a minute.
func idleLength() time.Duration {
	if *aMinute {
		return time.Minute
	}
	return 12 * time.Second
}

// underWay is a game whose clock runs, far from time trouble; the wall shows four.
func underWay(moves string) shownGame {
	return shownGame{Game: relaytest.Game{Control: "3600+30", Moves: moves, Clocks: []string{"0:59:58", "0:59:57", "0:57:30", "0:57:40"}}}
}

func fourUnderWay() []shownGame {
	return []shownGame{underWay("e4 e5 Nf3 Nc6"), underWay("d4 d5 c4 e6"), underWay("c4 c5 Nc3 Nf6"), underWay("Nf3 d5 g3 Nf6")}
}

// roundUnderWay is a feed with all four, as of one round: their clocks are read at the same moments.
func roundUnderWay(t *testing.T) string {
	t.Helper()
	var games []relaytest.Game
	for i, g := range fourUnderWay() {
		g.Table, g.White = strconv.Itoa(i+1), fmt.Sprintf("Weiss, Wanda %d", i+1)
		games = append(games, g.Game)
	}
	return pagesOfOne(t, games...)
}

// apartShareMost is the limit of a wall whose clocks all change at other moments: a frame for each.
func apartShareMost() float64 {
	if *aMinute {
		return idleShareMost
	}
	return wallShareMost
}

// TestRunningClocksCostNothing: while clocks run and nobody moves, no scene lays anything out,
// or takes more than a hundredth of a core; a wall of boards from several feeds takes twice that in its first seconds. Only
// where a tell line comes to the end of its scale it is drawn anew, and laid out once.
func TestRunningClocksCostNothing(t *testing.T) {
	length := idleLength()
	ctx := browserFor(t, patience+5*length)
	apart, round := pagesOf(t, fourUnderWay()...), roundUnderWay(t)
	page(t, ctx, "metrics on", command(performance.Enable, performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks}))
	visit(t, ctx, bare(t))
	floor := during(t, ctx, length)
	t.Logf("a bare page takes %.2f %% of a core", 100*floor["TaskDuration"]/length.Seconds())
	for _, s := range []struct {
		url, scene, boardsOf string
		boards               int
		most                 float64
	}{
		{apart, "board", "", 1, idleShareMost}, {apart, "clocks", "", 1, idleShareMost},
		{round, "wall?lift=off", " of one feed", 4, idleShareMost}, {apart, "wall?lift=off", " of four feeds", 4, apartShareMost()},
	} {
		scene, boards := s.scene, s.boards
		visit(t, ctx, s.url+"/scene/"+scene)
		waitFor(t, ctx, "the clocks", fmt.Sprintf("document.querySelectorAll('.clock[data-state=running]').length === %d && document.fonts.status === 'loaded' && !document.getAnimations().length", boards))
		evaluate[chromedp.Void](t, ctx, watchClock)
		evaluate[chromedp.Void](t, ctx, watchScales)
		got := during(t, ctx, length)
		checkIdle(t, scene+s.boardsOf, boards, s.most, length, got, evaluate[int](t, ctx, "window.clockTexts.size"), evaluate[int](t, ctx, "window.newScales"))
		checkNewScale(t, ctx, scene+s.boardsOf)
	}
}

// checkNewScale lets five minutes pass at once, in which every tell line comes to the end of
// its scale. That takes a layout; to bring the new scale in, for 0.4 s, takes none.
func checkNewScale(t *testing.T, ctx context.Context, scene string) {
	t.Helper()
	evaluate[chromedp.Void](t, ctx, watchScales)
	before := costs(t, ctx)
	evaluate[chromedp.Void](t, ctx, `(() => {
		const real = performance.now.bind(performance);
		performance.now = () => real() + 300_000;
		document.dispatchEvent(new Event('visibilitychange'));
	})()`)
	page(t, ctx, "the new scale", chromedp.Evaluate[bool]("new Promise((done) => setTimeout(done, 700, true))", chromedp.EvalAwaitPromise))
	layouts, scales := costs(t, ctx)["LayoutCount"]-before["LayoutCount"], evaluate[float64](t, ctx, "window.newScales")
	t.Logf("%s: %g layouts for %g new scales", scene, layouts, scales)
	if scales != 1 || layouts > scales {
		t.Errorf("%s: %g layouts for %g new scales, want one new scale, for all boards together, and a layout at most", scene, layouts, scales)
	}
}

// watchScales counts how often tell lines are drawn anew, all that are in one frame as one.
const watchScales = `
	window.newScales = 0;
	window.scaleWatch?.disconnect();
	window.scaleWatch = new MutationObserver(() => { window.newScales++; });
	for (const line of document.querySelectorAll('.tellline')) window.scaleWatch.observe(line, { childList: true, subtree: true });`

// checkIdle looks at what a scene took while clocks ran, of which one showed so many texts.
func checkIdle(t *testing.T, scene string, boards int, most float64, length time.Duration, got map[string]float64, texts, scales int) {
	t.Helper()
	share := got["TaskDuration"] / length.Seconds()
	t.Logf("%s: %v of running clocks, %d texts shown, %d new scales: %g layouts, %g style recalculations, %.2f %% of a core on the main thread, of it script %.2f %%",
		scene, length, texts, scales, got["LayoutCount"], got["RecalcStyleCount"], 100*share, 100*got["ScriptDuration"]/length.Seconds())
	if seconds := int(length.Seconds()); texts < seconds-2 || texts > seconds+2 {
		t.Errorf("%s: the clock showed %d texts in %v; does it run?", scene, texts, length)
	}
	if scales > boards || got["LayoutCount"] > float64(scales) { // the least scale lasts longer than a minute
		t.Errorf("%s: %g layouts for %d new scales, want none without a new scale, and of that one a board at most", scene, got["LayoutCount"], scales)
	}
	if share > most {
		t.Errorf("%s: the main thread took %.2f %% of a core, want at most %.0f %%", scene, 100*share, 100*most)
	}
}

// watchClock keeps every text of the running clock.
const watchClock = `
	window.clockTexts = new Set();
	new MutationObserver((records) => { for (const r of records) window.clockTexts.add(r.target.dataset.text); })
		.observe(document.querySelector('.clock[data-state=running]'), { attributes: true, attributeFilter: ['data-text'] });`

// TestMovesFitIntoAFrame: none of a burst of thirty moves, with corrections, alerts and
// sentences among them, takes the main thread longer than a frame. The tasks are those of
// the browser's own trace.
func TestMovesFitIntoAFrame(t *testing.T) {
	ctx := browser(t)
	fed(t, ctx)
	evaluate[float64](t, ctx, "update(60)") // into the middle of a game: the longer it is, the more there is to draw
	waitFor(t, ctx, "the page at rest", "document.getAnimations().length === 0")
	tasks := traced(t, ctx, func() {
		script := `new Promise((done) => { let n = 0; const next = () => { if (n++ === 30) return done(true); update(1); setTimeout(next, 50); }; next(); })`
		page(t, ctx, "thirty moves", chromedp.Evaluate[bool](script, chromedp.EvalAwaitPromise))
	})
	var long []time.Duration
	var worst, sum time.Duration
	for _, task := range tasks {
		sum, worst = sum+task, max(worst, task)
		if task > moveTaskMost {
			long = append(long, task)
		}
	}
	t.Logf("30 moves: %d tasks, %v of CPU time together, the longest %v", len(tasks), sum, worst)
	if len(tasks) < 60 {
		t.Errorf("the trace has %s tasks, too few for thirty moves", strconv.Itoa(len(tasks)))
	}
	if len(long) > 0 {
		t.Errorf("tasks above %v: %v", moveTaskMost, long)
	}
}
