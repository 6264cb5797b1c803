package main

import (
	"context"
	"flag"
	"fmt"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/heapprofiler"
	"github.com/chromedp/cdproto/memory"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

var tenThousand = flag.Bool("tenthousand", false, "watch the memory of pages for 10,000 updates each")

// Most by which a page may differ after many updates from what it held after the first thousand.
// No two games that have just ended hold the same: names, marks, times.
const (
	heapEachBoard  = 8 << 10 // bytes, for each board shown
	heapEachUpdate = 1.0     // bytes: less than the smallest object for every eight of them
	nodesEachBoard = 30
)

// footprint is what a page holds when everything that it can lose is lost.
type footprint struct{ heap, nodes, listeners float64 }

// atRest waits for what moves to have moved, and on the panel for cards to have left; it is a
// part of the page, because every new script that the browser is asked to run stays in the heap.
const atRest = `window.atRest = () => new Promise((done) => setTimeout(done, location.pathname === '/panel' ? 7000 : 500, true)), true`

func footprintOf(t *testing.T, ctx context.Context) footprint {
	t.Helper()
	page(t, ctx, "the page at rest", chromedp.Evaluate[bool]("atRest()", chromedp.EvalAwaitPromise))
	for range 3 { // what a finalizer frees, the next collection finds
		page(t, ctx, "collecting garbage", command(heapprofiler.CollectGarbage, cdp.Empty{}))
	}
	heap := page(t, ctx, "heap", result(runtime.GetHeapUsage, cdp.Empty{}))
	dom := page(t, ctx, "nodes", result(memory.GetDOMCounters, cdp.Empty{}))
	return footprint{heap.UsedSize, float64(dom.Nodes), float64(dom.JsEventListeners)}
}

// updates says so many of them to the page, and ends the games. Meanwhile nothing is laid out,
// which would take most of the time and none of the page's memory; at the end everything is.
func updates(t *testing.T, ctx context.Context, update string, count int) footprint {
	t.Helper()
	script := fmt.Sprintf(`(async (style) => {
		style.display = 'none';
		await %s(%d);
		style.display = '';
		updateToEnd();
		return true;
	})(document.documentElement.style)`, update, count)
	page(t, ctx, update, chromedp.Evaluate[bool](script, chromedp.EvalAwaitPromise))
	return footprintOf(t, ctx)
}

// grown says by how much a page has grown from what it held before so many updates, "" if it has not.
func grown(from, to footprint, boards, updates int) string {
	heap, nodes, listeners := to.heap-from.heap, to.nodes-from.nodes, to.listeners-from.listeners
	if heap > float64(boards*heapEachBoard)+heapEachUpdate*float64(updates) || nodes > float64(boards*nodesEachBoard) || listeners > 0 {
		return fmt.Sprintf("%+.0f bytes, %+.0f nodes, %+.0f listeners", heap, nodes, listeners)
	}
	return ""
}

// watchedPage is a page whose memory is watched: what updates it, how many boards it is shown,
// and how many updates there are between two looks.
type watchedPage struct {
	path, kind, update string
	boards, each       int
}

var watchedScenes = []watchedPage{
	{"/scene/board", "scene/board", "update", 1, 1000},
	{"/scene/clocks", "scene/clocks", "update", 1, 1000},
	{"/scene/wall", "scene/wall", "update", 4, 1000},
	{"/scene/caption", "scene/caption", "speak", 1, 1000},
}

// watchedSurfaces take longer: the panel draws all of its cards with each update.
var watchedSurfaces = []watchedPage{
	{"/panel", "panel", "update", 2, 250},
	{"/health", "health", "update", 2, 1000},
}

// TestPagesDoNotGrow: after ten thousand updates a page holds what it held after one thousand;
// without -tenthousand a scene after three thousand, and panel and health are not watched. The
// machine code that the browser makes of scripts would grow for a long time, and is switched off.
func TestPagesDoNotGrow(t *testing.T) {
	looks, pages := 2, watchedScenes
	if *tenThousand {
		looks, pages = 9, append(watchedSurfaces, watchedScenes...)
	}
	for _, c := range pages {
		t.Run(c.kind, func(t *testing.T) {
			ctx := browserFor(t, patience+time.Duration(looks)*time.Minute, chromedp.Flag("js-flags", "--jitless"))
			fedPage(t, ctx, c.path, c.kind, c.boards)
			evaluate[bool](t, ctx, atRest)
			first := updates(t, ctx, c.update, c.each)
			last, log := first, fmt.Sprint(first)
			for range looks {
				last = updates(t, ctx, c.update, c.each)
				log += fmt.Sprint(" ", last)
			}
			t.Logf("heap, nodes and listeners after each %d updates: %s", c.each, log)
			if how := grown(first, last, c.boards, looks*c.each); how != "" {
				// What grows is still there after as many updates again; what the look met, such as a notice, is not.
				last = updates(t, ctx, c.update, c.each)
				if still := grown(first, last, c.boards, looks*c.each); still != "" {
					t.Errorf("the page has grown: %s, then %s", how, still)
				}
			}
			findsLeak(t, ctx, c.update, c.boards)
		})
	}
}

// findsLeak: a page that keeps some bytes of every update must be found out by the same measure.
func findsLeak(t *testing.T, ctx context.Context, update string, boards int) {
	t.Helper()
	const leak = `{ const say = window.say; window.kept = []; window.say = (frame) => (window.kept.push({ rev: frame.rev, of: [frame.type] }), say(frame)); }; true`
	evaluate[bool](t, ctx, leak)
	const leakFor = 800 // updates
	from := updates(t, ctx, update, 100)
	if to := updates(t, ctx, update, leakFor); grown(from, to, boards, leakFor) == "" {
		t.Errorf("a leak that was put in is not found: %v, %v", from, to)
	}
}
