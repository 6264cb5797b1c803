package main

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"

	"clocktell/overlay/wire"
)

// edgeOfNotice is how the beginning of a notice is drawn: what with, and in what box; "" where nothing is.
const edgeOfNotice = `(() => {
	const edge = document.querySelector('#notice > .edge');
	const { backgroundImage, backgroundColor } = getComputedStyle(edge);
	const drawn = backgroundImage !== 'none' || backgroundColor !== 'rgba(0, 0, 0, 0)';
	return drawn && edge.offsetWidth >= 12 && edge.offsetHeight >= 36 ? backgroundImage + backgroundColor + edge.offsetWidth : '';
})()`

// TestNoticeEdges: what a notice of the board is about is drawn at its beginning.
func TestNoticeEdges(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t)
	notice := map[string]func(*wire.Board){
		"timeTrouble": airTold("timeTrouble", 3), "longThink": airTold("longThink", 0), "firstThink": airTold("firstThink", 0), "leftPreparation": airTold("leftPreparation", 0),
		"novelty": func(b *wire.Board) { airStates["novelty"](b, showNow()) },
		"stale":   func(b *wire.Board) { airStates["stale"](b, showNow()) },
		"fault":   func(b *wire.Board) { b.Fault = "it cannot be played" },
		"result":  func(b *wire.Board) { airStates["result"](b, showNow()) },
	}
	seen := make(map[string]string)
	for kind, make := range notice {
		b := stated(t, 1, "thinking", showNow())
		make(&b)
		tapped(t, ctx, url+"/scene/board?motion=off")
		evaluate[chromedp.Void](t, ctx, sayShow(b))
		waitFor(t, ctx, "the notice of "+kind, fmt.Sprintf("document.querySelector('#notice').dataset.look === '%s'", kind))
		if seen[kind] = evaluate[string](t, ctx, edgeOfNotice); seen[kind] == "" {
			t.Errorf("%s: nothing is drawn at the beginning of its notice", kind)
		}
	}
	for _, two := range [][2]string{{"timeTrouble", "longThink"}, {"leftPreparation", "longThink"}, {"stale", "result"}, {"novelty", "result"}} {
		if seen[two[0]] == seen[two[1]] {
			t.Errorf("%s is drawn as %s: %s", two[0], two[1], seen[two[0]])
		}
	}
}

// airTold has an alert that has just come.
func airTold(kind string, level int) func(*wire.Board) {
	return func(b *wire.Board) { raise(b, kind, level, showNow()) }
}
