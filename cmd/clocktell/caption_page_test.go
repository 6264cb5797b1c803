package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"clocktell/overlay/wire"
	"clocktell/relay/relaytest"
)

// tap lets a test say frames as the relay would, on the page's own line, and notes every
// animation that the page starts.
const tap = `{
	const Real = WebSocket;
	window.WebSocket = class extends Real {
		constructor(url) {
			super(url);
			window.say = (frame) => this.onmessage({ data: JSON.stringify(frame) });
			window.ownLine ??= this; // the first: the page's own
		}
	};
	window.played = [];
	const animate = Element.prototype.animate;
	Element.prototype.animate = function (frames, timing) {
		window.played.push(timing.duration ?? timing);
		return animate.call(this, frames, timing);
	};
}`

// tapped opens a scene with the tap in it.
func tapped(t *testing.T, ctx context.Context, url string) {
	t.Helper()
	page(t, ctx, "the tap", command(cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: tap}))
	visit(t, ctx, url)
	waitFor(t, ctx, "the line", "document.body.dataset.line === 'open'")
}

// command is a command of the browser as an action.
func command[P, R any](c cdp.Command[P, R], params P) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, c, params)
		return err
	})
}

// atPanel does what a co-host does.
func atPanel(t *testing.T, url string, act wire.PanelAct) {
	t.Helper()
	act.Who = "Nadja"
	body, err := json.Marshal(act)
	if err != nil {
		t.Fatal(err)
	}
	response, err := http.Post(url+"/at-panel", "application/json", bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	var reply wire.EntryReply
	if err := json.NewDecoder(response.Body).Decode(&reply); err != nil || !reply.Done {
		t.Fatalf("%s: status %s, %+v, %v", act.Act, response.Status, reply, err)
	}
}

// standing is the sentence that stands, "" while something still moves; none without one.
const standing = `(() => {
	const plates = [...document.querySelectorAll('.plate')];
	if (plates.length > 1 || document.getAnimations().length) return '';
	return plates.length ? plates[0].querySelector('.sentence').textContent : 'none';
})()`

func waitSentence(t *testing.T, ctx context.Context, text string) {
	t.Helper()
	want, err := json.Marshal(text)
	if err != nil {
		t.Fatal(err)
	}
	waitFor(t, ctx, fmt.Sprintf("the sentence %.20q", text), standing+" === "+string(want))
}

var quietGame = shownGame{Game: relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3 Nc6 Bc4 Bc5 b4", Clocks: []string{"0:10:03", "0:10:01", "0:10:05", "0:10:02", "0:10:07", "0:10:03", "0:10:08"}}}

// TestCaptionOnAir puts a sentence on the air from the panel, another in its place, takes
// that off, and stops the relay under a third.
func TestCaptionOnAir(t *testing.T) {
	ctx := browser(t)
	t.Run("while the relay runs", func(t *testing.T) {
		url := pagesOf(t, quietGame)
		tapped(t, ctx, url+"/scene/caption")
		if got := evaluate[string](t, ctx, standing); got != "none" {
			t.Errorf("before anything is on the air the scene shows %q", got)
		}
		for i, text := range []string{"The arbiter is at board one.", "Both players have left the stage."} {
			atPanel(t, url, wire.PanelAct{ID: fmt.Sprint("air-", i), Act: "air", Text: text})
			waitSentence(t, ctx, text)
		}
		atPanel(t, url, wire.PanelAct{ID: "off", Act: "off"})
		waitSentence(t, ctx, "none")
		// The first comes, the second wipes over it, and leaves.
		if got := evaluate[[]int](t, ctx, "played"); fmt.Sprint(got) != "[250 250 250 250]" {
			t.Errorf("animations of %v ms, want four of 250", got)
		}
		if lang := evaluate[string](t, ctx, "document.documentElement.lang"); lang != "en" {
			t.Errorf("the page is in %q, the show in en", lang)
		}
		atPanel(t, url, wire.PanelAct{ID: "last", Act: "air", Text: "Nobody is there to take this off."})
		waitSentence(t, ctx, "Nobody is there to take this off.")
		evaluate[chromedp.Void](t, ctx, `say({ type: 'show', rev: 9, title: '', lang: 'pt-BR', boards: 0 })`)
		if lang := evaluate[string](t, ctx, "document.documentElement.lang"); lang != "pt-BR" {
			t.Errorf("the page is in %q, the show in pt-BR", lang)
		}
	})
	waitFor(t, ctx, "the page to notice", "document.body.dataset.line === 'lost'")
	if got := evaluate[string](t, ctx, standing); got != "Nobody is there to take this off." {
		t.Errorf("with the relay gone, before its end, the scene shows %q", got)
	}
}

// TestCaptionStandsStill: neither the option nor the viewer's wish lets anything move.
func TestCaptionStandsStill(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t, quietGame)
	say := func(path string) {
		t.Helper()
		tapped(t, ctx, url+path)
		for i, text := range []string{"One sentence.", "Another sentence."} {
			evaluate[chromedp.Void](t, ctx, captionFrame(i, wire.Caption{Text: text}))
			waitSentence(t, ctx, text)
		}
		evaluate[chromedp.Void](t, ctx, `say({ type: 'caption', rev: 9, caption: null })`)
		waitSentence(t, ctx, "none")
		if got := evaluate[int](t, ctx, "played.length"); got != 0 {
			t.Errorf("%s: %d animations", path, got)
		}
	}
	say("/scene/caption?motion=off")
	still := &emulation.MediaFeature{Name: "prefers-reduced-motion", Value: "reduce"}
	page(t, ctx, "the wish", command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{still}}))
	say("/scene/caption")
}

// captionFrame is a script that says a sentence as the relay would.
func captionFrame(rev int, c wire.Caption) string {
	c.At, c.Key = 9e15, fmt.Sprint("prompt-", rev)
	if c.Marks == nil {
		c.Marks = []wire.Mark{}
	}
	frame, err := json.Marshal(wire.CaptionFrame{Type: wire.TypeCaption, Rev: uint64(rev), Caption: &c})
	if err != nil {
		panic(err) // strings and numbers only
	}
	return "say(" + string(frame) + ")"
}

// inventedTexts are sentences that are hard to set: as long as they may be, without a space,
// in other scripts.
var inventedTexts = map[string]string{
	"200 characters": "The knight on f6 guards the pawn that nobody has touched since the opening, and as long as it stays there the bishop on b3 looks at nothing but its own men, so White waits, and Black waits with White.",
	"one wide word":  strings.Repeat("M", 200),
	"wide words":     strings.Repeat("MMMMMMMMM ", 20),
	"Arabic":         strings.Repeat("يفكر اللاعب الأبيض طويلا في نقلته والساعة تمضي. ", 4),
	"Chinese":        strings.Repeat("白方在第十五步上思考了很久而黑方的时间已经不多了", 8),
	"short":          "Now.",
}
