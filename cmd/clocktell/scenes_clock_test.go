package main

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"clocktell/overlay/wire"
)

// clocksHeld tells the clocks of a scene, Black's and White's of each board.
const clocksHeld = `[...document.querySelectorAll('.cell[data-view=card] .clock, #foot .clock')].map((c) => c.dataset.text).join(' ')`

// TestScenesWithoutRelay: without the relay the picture stays, and soon it says that it is behind:
// the clocks that they are held, a wall in each cell that there is no data, a board since when.
func TestScenesWithoutRelay(t *testing.T) {
	ctx := browser(t)
	says := map[string]string{
		"/scene/clocks": "", "/scene/wall": "document.querySelector('.cell .number').textContent === 'no data'",
		"/scene/board": "document.querySelector('#notice b').textContent.startsWith('No data for 0:')",
	}
	for path, words := range says {
		t.Run("while the relay runs", func(t *testing.T) {
			visit(t, ctx, pagesOf(t, quietGame)+path)
			waitFor(t, ctx, "clocks", "document.querySelector('.clock[data-text]')")
			if got := evaluate[string](t, ctx, clocksHeld); strings.Contains(got, "‖") {
				t.Errorf("%s: with the relay there the clocks show %s", path, got)
			}
		})
		waitFor(t, ctx, "both clocks to be held", clocksHeld+".split('‖').length === 3")
		if words != "" {
			waitFor(t, ctx, path+" to say so", words)
		}
		if view := evaluate[string](t, ctx, "document.querySelector('#stage').dataset.view"); view != "game" {
			t.Errorf("%s: without the relay it shows %q", path, view)
		}
	}
}

// clockTruth brings a scene up to the time, as showing its page does, and compares the clocks
// drawn with what lib/clock.js says of the frames. Show time and this page's clock may differ
// by as much as the way to the relay takes.
const clockTruth = `(async () => {
	const { leftAt, stepOf, figures } = await import('/static/lib/clock.js');
	// All ten figures lie in one place (lib/digits.js): what is read there are those that have a colour.
	const read = (n) => n.nodeType === Node.TEXT_NODE ? n.data : n.dataset?.figure && getComputedStyle(n).color !== 'rgba(0, 0, 0, 0)' ? n.dataset.figure : [...n.childNodes].map(read).join('');
	document.dispatchEvent(new Event('visibilitychange'));
	const [now, wrong] = [Date.now(), []];
	for (const board of window.frames) {
		for (const side of ['white', 'black']) {
			const root = document.querySelector('.card[data-board="' + board.board + '"]') ?? document.querySelector('#foot');
			const clock = root.querySelector('.clock[data-side=' + side + ']');
			const seen = read(clock.querySelector('.time'));
			const near = board[side].clock.quality === 'estimated' ? '≈' : '';
			const may = [-50, -25, 0, 25, 50].map((off) => figures(leftAt(board, side, now + off), stepOf(board[side].clock)).flat().join(''));
			if (!may.includes(seen) || near + seen !== clock.dataset.text) wrong.push(board.board + ' ' + side + ': ' + clock.dataset.text + ', want ' + may[2]);
		}
	}
	return wrong.join('; ');
})()`

const runningClock = `document.querySelector('.clock[data-state=running]').dataset.text`

// TestClockTexts: what a clock shows is what lib/clock.js says, on both scenes.
func TestClockTexts(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t)
	var boards []wire.Board
	for i, state := range []string{"thinking", "time trouble", "hours", "estimated", "long think", "minutes"} {
		boards = append(boards, stated(t, i+1, state, showNow()))
	}
	truth := func(path string, boards ...wire.Board) {
		t.Helper()
		openScene(t, ctx, url+path, boards...)
		frames, err := json.Marshal(boards)
		if err != nil {
			t.Fatal(err)
		}
		evaluate[chromedp.Void](t, ctx, "window.frames = "+string(frames))
		for range 10 {
			if wrong := page(t, ctx, "the truth", chromedp.Evaluate[string](clockTruth, chromedp.EvalAwaitPromise)); wrong != "" {
				t.Errorf("%s: %s", path, wrong)
			}
		}
		first := evaluate[string](t, ctx, runningClock)
		waitFor(t, ctx, "the clock to go on by itself", fmt.Sprintf("%s !== '%s'", runningClock, first))
	}
	truth("/scene/wall?lift=off", boards...)
	for _, b := range boards[:5] { // the last goes on once a minute
		truth(fmt.Sprintf("/scene/clocks?board=%d", b.Board), b)
	}
}
