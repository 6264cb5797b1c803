package main

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"

	"clocktell/relay/relaytest"
)

// firstFrameMost is how long after its address was entered a scene may take, on this
// machine, to show the game as it stands.
const firstFrameMost = 300 * time.Millisecond

// floorMost is how long an empty page may take on a machine of which that is asked. On a
// slower one, or a busy one, the scene may take longer by as much as the empty page does.
const floorMost = 40 * time.Millisecond

// firstFrame notes in the page when a frame has been drawn with what is wanted in it,
// counted from the navigation. The frame after the one in which it is found has it.
const firstFrame = `(() => {
	const look = () => {
		if (document.body && READY) return requestAnimationFrame(() => setTimeout(() => (window.firstAt = performance.now())));
		requestAnimationFrame(look);
	};
	look();
})()`

// TestFirstFrame opens the board scene of a game under way again and again, each time
// with nothing in the browser's cache, in turn with a page that has nothing in it: what that
// takes is the floor. Type may come later; position, names and clocks count.
func TestFirstFrame(t *testing.T) {
	const loads = 9
	ctx := browser(t)
	url := pagesOf(t, shownGame{Game: relaytest.Game{Control: "3600+30", Moves: "e4 e5 Nf3 Nc6", Clocks: []string{"0:59:58", "0:59:57", "0:57:30", "0:57:40"}}})
	empty := bare(t)
	scene := `document.querySelector('#board')?.dataset.fen === 'r1bqkbnr/pppp1ppp/2n5/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R' && document.querySelectorAll('#board .man').length === 32` +
		` && document.querySelector('.clock[data-state=running]')?.dataset.text.startsWith('57:') && document.querySelector('.name').textContent !== ''`
	var floors, scenes []time.Duration
	for i := range loads + 1 {
		floor, got := firstAt(t, ctx, empty, "true"), firstAt(t, ctx, url+"/scene/board", scene)
		if i == 0 {
			t.Logf("the first load of the browser: scene %v, empty page %v", got, floor)
			continue // the browser itself was starting
		}
		floors, scenes = append(floors, floor), append(scenes, got)
	}
	slices.Sort(floors)
	slices.Sort(scenes)
	t.Logf("first correct frame of %d loads: median %v (%v to %v); an empty page: median %v (%v to %v)",
		loads, scenes[loads/2], scenes[0], scenes[loads-1], floors[loads/2], floors[0], floors[loads-1])
	most := time.Duration(float64(firstFrameMost) * max(1, float64(floors[loads/2])/float64(floorMost)))
	t.Logf("the scene takes %.1f times as long as an empty page; at most %v here, %v on a machine where that takes %v",
		float64(scenes[loads/2])/float64(floors[loads/2]), most.Round(time.Millisecond), firstFrameMost, floorMost)
	if scenes[loads/2] > most {
		t.Errorf("the scene took %v in the median, want at most %v", scenes[loads/2], most)
	}
}

// firstAt loads a page and returns when its first frame with what is wanted was drawn.
func firstAt(t *testing.T, ctx context.Context, url, ready string) time.Duration {
	t.Helper()
	tab, cancel := chromedp.NewContext(ctx)
	defer cancel()
	watchConsole(t, tab)
	page(t, tab, "metrics on", command(performance.Enable, performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks}))
	page(t, tab, "no cache", command(network.SetCacheDisabled, network.SetCacheDisabledParams{CacheDisabled: true}))
	script := strings.Replace(firstFrame, "READY", ready, 1)
	page(t, tab, "the watch", command(cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: script}))
	visit(t, tab, url)
	waitFor(t, tab, "the first frame of "+url, "window.firstAt !== undefined")
	if ready != "true" {
		cost := costs(t, tab)
		t.Logf("CPU time of the main thread until then %.0f ms, of it script %.0f ms", 1000*cost["TaskDuration"], 1000*cost["ScriptDuration"])
	}
	return time.Duration(evaluate[float64](t, tab, "window.firstAt") * float64(time.Millisecond)).Round(100 * time.Microsecond)
}
