package main

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"clocktell/overlay/wire"
)

// measureCaption reads where the plate and every line of its text lie, and how they contrast:
// (L1 + 0.05) / (L2 + 0.05) with the relative luminance L that WCAG 2.2 defines.
const measureCaption = `(() => {
	const luminance = (colour) => {
		const [r, g, b] = colour.match(/^rgb\((\d+), (\d+), (\d+)\)$/).slice(1) // opaque, or it fails
			.map((n) => n / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
		return 0.2126 * r + 0.7152 * g + 0.0722 * b;
	};
	const box = ({ left, top, right, bottom }) => [left, top, right, bottom];
	const plate = document.querySelector('.plate');
	const ground = luminance(getComputedStyle(plate).backgroundColor);
	const texts = [...plate.querySelectorAll('p')].map((p) => {
		const range = document.createRange();
		range.selectNodeContents(p);
		const rects = [...range.getClientRects()].filter((r) => r.width);
		const text = luminance(getComputedStyle(p).color);
		const [light, dark] = text > ground ? [text, ground] : [ground, text];
		return { lines: new Set(rects.map((r) => Math.round(r.bottom))).size, boxes: rects.map(box), contrast: (light + 0.05) / (dark + 0.05) };
	});
	return { view: [innerWidth, innerHeight], plate: box(plate.getBoundingClientRect()), texts, size: Number(plate.dataset.size), dir: plate.dir };
})()`

type captionMeasure struct {
	View  [2]float64
	Plate [4]float64 // left, top, right, bottom, as are the boxes
	Texts []struct {
		Lines    int
		Boxes    [][4]float64
		Contrast float64
	}
	Size int
	Dir  string
}

// within reports that a box lies in another one, less a rounding of layout.
func within(inner, outer [4]float64) bool {
	const rounding = 0.6 // px: half a pixel of the screen, and a bit
	return inner[0] >= outer[0]-rounding && inner[1] >= outer[1]-rounding && inner[2] <= outer[2]+rounding && inner[3] <= outer[3]+rounding
}

// graphicsSafe is the box of EBU R 95 for a 16:9 picture: 5 % from every edge.
func graphicsSafe(view [2]float64) [4]float64 {
	w, h := view[0], view[1]
	return [4]float64{0.05 * w, 0.05 * h, 0.95 * w, 0.95 * h}
}

// TestCaptionFits sets hard sentences at three sizes of the picture. Where a script has no
// type on the machine, its signs are drawn as boxes, and are measured as such.
func TestCaptionFits(t *testing.T) {
	ctx := browser(t)
	tapped(t, ctx, pagesOf(t, quietGame)+"/scene/caption?motion=off")
	const source = "board 1 · Quintanilha – Tveiterås · move 15"
	for _, size := range [][2]int64{{1280, 720}, {1920, 1080}, {3840, 2160}} {
		resize(t, ctx, size[0], size[1])
		for name, text := range inventedTexts {
			if n := len([]rune(text)); n > 200 {
				t.Fatalf("%s has %d characters", name, n)
			}
			evaluate[chromedp.Void](t, ctx, captionFrame(1, wire.Caption{Text: text, Kind: "tell", Source: source}))
			waitSentence(t, ctx, text)
			m := evaluate[captionMeasure](t, ctx, measureCaption)
			checkCaption(t, fmt.Sprintf("%s at %v", name, size), m)
			if rtl := m.Dir == "rtl"; rtl != (name == "Arabic") {
				t.Errorf("%s is set %s", name, m.Dir)
			}
			if name == "short" && (m.Size != 56 || m.Texts[0].Lines != 1) {
				t.Errorf("a short sentence is set in %d px on %d lines", m.Size, m.Texts[0].Lines)
			}
		}
	}
}

// resize waits until the stage has followed the window.
func resize(t *testing.T, ctx context.Context, width, height int64) {
	t.Helper()
	page(t, ctx, "another size", chromedp.EmulateViewport(width, height))
	waitFor(t, ctx, "the stage to follow", fmt.Sprintf("document.querySelector('#stage').getBoundingClientRect().width === %d", width))
}

func checkCaption(t *testing.T, what string, m captionMeasure) {
	t.Helper()
	if !within(m.Plate, graphicsSafe(m.View)) {
		t.Errorf("%s: plate %v leaves the safe area of %v", what, m.Plate, m.View)
	}
	if m.Texts[0].Lines > 3 || m.Texts[0].Lines < 1 {
		t.Errorf("%s: %d lines", what, m.Texts[0].Lines)
	}
	if len(m.Texts) != 2 {
		t.Errorf("%s: %d texts, want the sentence and its source", what, len(m.Texts))
	}
	for _, text := range m.Texts {
		for _, box := range text.Boxes {
			if !within(box, m.Plate) {
				t.Errorf("%s: text at %v leaves its plate %v", what, box, m.Plate)
			}
		}
		if text.Contrast < 4.5 { // WCAG 2.2, 1.4.3
			t.Errorf("%s: contrast %.1f", what, text.Contrast)
		}
	}
}

// TestCaptionPlace: the plate stands at the side that is asked for.
func TestCaptionPlace(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t, quietGame)
	for query, want := range map[string][2]int{"": {0, 96}, "?side=right": {2, 1824}, "?side=left&safe=on": {0, 96}} {
		tapped(t, ctx, url+"/scene/caption"+query)
		resize(t, ctx, 1920, 1080)
		evaluate[chromedp.Void](t, ctx, captionFrame(1, wire.Caption{Text: "Now."}))
		waitSentence(t, ctx, "Now.")
		if m := evaluate[captionMeasure](t, ctx, measureCaption); math.Abs(m.Plate[want[0]]-float64(want[1])) > 0.6 {
			t.Errorf("%q: the plate lies at %v", query, m.Plate)
		}
		if safe := evaluate[bool](t, ctx, "!!document.querySelector('#safe')"); safe != strings.Contains(query, "safe") {
			t.Errorf("%q: safe areas drawn: %v", query, safe)
		}
	}
}

// TestCaptionEdges: what a sentence is about is drawn, so the drawings differ without their
// colours too.
func TestCaptionEdges(t *testing.T) {
	ctx := browser(t)
	tapped(t, ctx, pagesOf(t, quietGame)+"/scene/caption?motion=off")
	seen := make(map[string]string)
	for _, kind := range []string{"tell", "clock", "feed", "reference", "facts", "match", ""} {
		evaluate[chromedp.Void](t, ctx, captionFrame(1, wire.Caption{Text: "About " + kind, Kind: kind}))
		waitSentence(t, ctx, "About "+kind)
		drawing := evaluate[string](t, ctx, edgeDrawing)
		if other, twice := seen[drawing]; twice {
			t.Errorf("%q is drawn as %q: %s", kind, other, drawing)
		}
		seen[drawing] = kind
	}
	evaluate[chromedp.Void](t, ctx, captionFrame(1, wire.Caption{Text: "About the weather", Kind: "weather"}))
	waitSentence(t, ctx, "About the weather")
	if drawing := evaluate[string](t, ctx, edgeDrawing); seen[drawing] != "" {
		t.Errorf("a kind that is not known is drawn as %q", seen[drawing])
	}
}

const edgeDrawing = `[null, '::before', '::after'].map((part) => {
	const { content, backgroundImage, backgroundSize, clipPath, width } = getComputedStyle(document.querySelector('.edge'), part);
	if (part && content === 'none') return '';
	return [backgroundImage.replace(/rgba?\([^)]*\)/g, 'ink'), backgroundSize, clipPath, width].join(' | ');
}).join(' / ')`

// TestMarksOnBoard points at squares while a sentence is on the air, from both sides of the
// board, until the next move.
func TestMarksOnBoard(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t, quietGame)
	marks := []wire.Mark{{Kind: "look", To: "b4"}, {Kind: "danger", From: "c5", To: "b4"}, {Kind: "guard", From: "c6", To: "e5"}, {Kind: "plan", From: "c5", To: "b4"}}
	frame := captionFrame(1, wire.Caption{Text: "A pawn is offered.", Board: 1, Marks: marks})
	for query, want := range map[string]string{"": "1.50 4.50", "&side=black": "6.50 3.50"} {
		openBoard(t, ctx, url, query)
		evaluate[chromedp.Void](t, ctx, frame)
		if kinds := evaluate[string](t, ctx, markKinds); kinds != "look guard plan danger" {
			t.Errorf("%q: marks %q", query, kinds)
		}
		if got := evaluate[string](t, ctx, ringAt); got != want {
			t.Errorf("%q: the ring lies at %s squares from the upper left, want %s", query, got, want)
		}
	}
	evaluate[chromedp.Void](t, ctx, `say({ type: 'caption', rev: 2, caption: null })`)
	waitFor(t, ctx, "the marks to go with their sentence", markKinds+" === ''")
	evaluate[chromedp.Void](t, ctx, frame)
	waitFor(t, ctx, "the marks again", markKinds+" === 'look guard plan danger'")
	evaluate[chromedp.Void](t, ctx, captionFrame(3, wire.Caption{Text: "A pawn is offered.", Board: 1}))
	waitFor(t, ctx, "the marks to go when they are no longer true", markKinds+" === ''")
	evaluate[chromedp.Void](t, ctx, captionFrame(4, wire.Caption{Text: "A pawn is offered.", Board: 2, Marks: marks}))
	if kinds := evaluate[string](t, ctx, markKinds); kinds != "" {
		t.Errorf("the marks of board 2 on board 1: %q", kinds)
	}

	openBoard(t, ctx, url, "&marks=off")
	evaluate[chromedp.Void](t, ctx, frame)
	if kinds := evaluate[string](t, ctx, markKinds); kinds != "" {
		t.Errorf("marks=off shows %q", kinds)
	}
}

func openBoard(t *testing.T, ctx context.Context, url, query string) {
	t.Helper()
	tapped(t, ctx, url+"/scene/board?board=1"+query)
	waitFor(t, ctx, "the board", "document.querySelector('#board').dataset.fen")
}

const markKinds = `[...document.querySelectorAll('#board .mark')].map((m) => m.dataset.kind).join(' ')`

// ringAt is the middle of the ring, in squares of the board as they are seen.
const ringAt = `(() => {
	const board = document.querySelector('#board').getBoundingClientRect();
	const ring = document.querySelector('.mark[data-kind=look]').getBoundingClientRect();
	const at = (a, b, from, size) => (((a + b) / 2 - from) / size * 8).toFixed(2);
	return at(ring.left, ring.right, board.left, board.width) + ' ' + at(ring.top, ring.bottom, board.top, board.height);
})()`
