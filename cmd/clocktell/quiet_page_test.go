package main

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"

	"clocktell/relay/relaytest"
)

// TestQuietFromTheHealthPage: the producer switches quiet mode with the keyboard. The
// scene then draws a result but does not announce it, and announces the next one when
// quiet mode is off again.
func TestQuietFromTheHealthPage(t *testing.T) {
	ctx := browser(t)
	address := pagesOf(t, shownGame{Game: relaytest.Game{Control: "600+5", Moves: "e4 e5"}})
	scene, cancel := chromedp.NewContext(ctx)
	defer cancel()
	watchConsole(t, scene)
	visit(t, scene, address+"/scene/board")
	waitFor(t, scene, "the scene shows the game", `document.querySelector('#stage').dataset.view === 'game'`)
	visit(t, ctx, address+"/health")
	press := func(want string) {
		waitFor(t, ctx, "the state of the switch", `document.querySelector('#quiet-switch').getAttribute('aria-disabled') === 'false'`)
		evaluate[bool](t, ctx, `document.querySelector('#quiet-switch').focus() ?? true`)
		page(t, ctx, "space", chromedp.KeyEvent(" "))
		waitFor(t, ctx, "quiet mode is "+want, fmt.Sprintf(`document.querySelector('#quiet-switch').getAttribute('aria-checked') === '%s'`, want))
	}
	result := func(text, drawn string) {
		evaluate[bool](t, ctx, fmt.Sprintf(`fetch('/by-hand', { method: 'POST', headers: { 'Content-Type': 'application/json' },
			body: JSON.stringify({ id: 'result %[1]s', board: 1, act: 'result', text: '%[1]s' }) }) && true`, text))
		waitFor(t, scene, "the result "+text, fmt.Sprintf(`document.querySelector('#moves .result')?.textContent === '%s'`, drawn))
	}
	const announced = `document.querySelector('#notice').dataset.kind`

	press("true")
	if evaluate[bool](t, ctx, `document.querySelector('#quiet-note').hidden`) {
		t.Error("the head of the health page does not say that quiet mode is on")
	}
	result("1-0", "1–0")
	if got := evaluate[string](t, scene, announced); got != "" {
		t.Errorf("in quiet mode the scene announces %q", got)
	}
	press("false")
	result("0-1", "0–1")
	if got := evaluate[string](t, scene, announced); got != "result" {
		t.Errorf("after quiet mode the scene announces %q, want the result", got)
	}
}
