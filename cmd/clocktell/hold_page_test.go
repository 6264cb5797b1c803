package main

import (
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"clocktell/relay/relaytest"
)

// TestHoldFromTheHealthPage: the producer sets the hold of a group with the keyboard; the
// scene of the group, which has stood empty, shows the board as it was then, and its
// clock is that of then.
func TestHoldFromTheHealthPage(t *testing.T) {
	ctx := browser(t)
	address := pagesOf(t, shownGame{Game: relaytest.Game{Control: "600+5", Moves: "e4 e5", Clocks: []string{"0:09:58", "0:09:57"}}})
	scene, cancel := chromedp.NewContext(ctx)
	defer cancel()
	watchConsole(t, scene)
	visit(t, scene, address+"/scene/board?hold=air")
	waitFor(t, scene, "the scene is on the line", `document.body.dataset.line === 'open'`)

	visit(t, ctx, address+"/health")
	waitFor(t, ctx, "the group is listed as not set", `document.querySelector('#holds .hold[data-unset]')?.textContent.includes('not set: 1 scene shown nothing')`)
	if view := evaluate[string](t, scene, `document.querySelector('#stage').dataset.view`); view != "waiting" {
		t.Errorf("before the hold is set the scene shows %q, want to wait", view)
	}
	for _, keys := range []string{"1801\r", "0.5\r"} {
		evaluate[bool](t, ctx, `document.querySelector('[data-hold-group=air]').focus() ?? true`)
		page(t, ctx, "Enter", chromedp.KeyEvent("\r")) // its button: the group is put into the form
		evaluate[bool](t, ctx, `document.activeElement.select() ?? true`)
		page(t, ctx, "keys", chromedp.KeyEvent(keys))
		if keys == "1801\r" {
			waitFor(t, ctx, "the fault is told", `document.querySelector('#hold-form').textContent.includes('0 to 1800')`)
		}
	}
	waitFor(t, ctx, "the list tells the hold", `document.querySelector('#holds .hold:not([data-unset])')?.textContent.includes('0.5 s, 1 scene')`)
	waitFor(t, ctx, "the page's row tells it", `document.querySelector('.page[data-page="scene/board"] .from')?.textContent.includes('held back 0.5 s with air')`)
	waitFor(t, scene, "the scene shows the game", `document.querySelector('#stage').dataset.view === 'game'`)
	evaluate[bool](t, scene, `(async () => {
		const { ShowTime } = await import('/static/lib/time.js');
		const held = new ShowTime(), now = new ShowTime();
		const listen = (query, time) => new Promise((done) => {
			const socket = new WebSocket(location.origin.replace('http', 'ws') + '/live?page=scene/board' + query);
			socket.onmessage = (m) => { const f = JSON.parse(m.data); if (f.type === 'welcome') { time.welcome(f.now, f.rate); socket.close(); done(); } };
		});
		await Promise.all([listen('&hold=air', held), listen('', now)]);
		window.late = now.now() - held.now();
	})() && true`)
	waitFor(t, scene, "both scenes are on the line", `window.late !== undefined`)
	late := evaluate[float64](t, scene, `window.late`)
	if d := time.Duration(late * float64(time.Millisecond)); d < 400*time.Millisecond || d > 600*time.Millisecond {
		t.Errorf("the time of a scene of the group is %v behind, want about half a second", d)
	}
}
