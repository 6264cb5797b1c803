package main

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/chromedp/chromedp"

	"clocktell/overlay/wire"
)

// measureScene reads every plate that is seen, and every text with the box that its letters may
// fill, the box that cuts it, its plate and its contrast as WCAG 2.2 defines it. What a
// line box has above and below its letters counts for nothing: 23 % and 15 % of it in Barlow,
// measured on its capitals and figures.
const measureScene = `(() => {
	const luminance = ([r, g, b]) => {
		const [x, y, z] = [r, g, b].map((n) => n / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
		return 0.2126 * x + 0.7152 * y + 0.0722 * z;
	};
	const colour = (text) => { const [r, g, b, a = 1] = (text.match(/[\d.]+/g) ?? [0, 0, 0, 0]).map(Number); return { rgb: [r, g, b], a }; };
	const box = ({ left, top, right, bottom }) => [left, top, right, bottom];
	const plates = [...document.querySelectorAll('#tag, #foot, .cell, #lifted, #waiting')].filter((p) => {
		const { visibility, opacity, display } = getComputedStyle(p);
		return visibility === 'visible' && opacity !== '0' && display !== 'none';
	});
	const texts = [];
	const walker = document.createTreeWalker(document.querySelector('#stage'), NodeFilter.SHOW_TEXT);
	for (let node; (node = walker.nextNode()); ) {
		const [holder, range] = [node.parentElement, document.createRange()];
		range.selectNodeContents(node);
		const rect = range.getBoundingClientRect();
		const plate = plates.findIndex((p) => p.contains(holder));
		if (!rect.width || plate < 0 || getComputedStyle(holder).visibility !== 'visible') continue;
		let cut = holder, ground = holder;
		while (cut && !/hidden|clip/.test(getComputedStyle(cut).overflowX) && !/strict|paint/.test(getComputedStyle(cut).contain)) cut = cut.parentElement;
		while (ground && colour(getComputedStyle(ground).backgroundColor).a < 1) ground = ground.parentElement;
		const inSvg = holder instanceof SVGElement;
		const style = getComputedStyle(holder);
		// Type of the tell line lies on a block of thought, or on the flag drawn right before it.
		const under = holder.matches('.tell-time:not(.hollow)') ? [230, 159, 0]
			: holder.matches('.tell-flag') ? colour(getComputedStyle(holder.previousElementSibling).fill).rgb
			: colour(getComputedStyle(ground).backgroundColor).rgb;
		const [a, b] = [colour(inSvg ? style.fill : style.color).rgb, under].map(luminance);
		const height = rect.height;
		texts.push({
			text: node.data, plate, svg: inSvg, by: [holder, holder.parentElement].map((e) => e.id || (e.className.baseVal ?? e.className)).find(Boolean), dots: style.textOverflow === 'ellipsis',
			box: [rect.left, rect.top + 0.23 * height, rect.right, rect.bottom - 0.15 * height],
			cut: cut && cut !== document.body && cut !== document.documentElement ? box(cut.getBoundingClientRect()) : null,
			size: parseFloat(style.fontSize), contrast: (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05),
		});
	}
	return { view: [innerWidth, innerHeight], plates: plates.map((p) => box(p.getBoundingClientRect())), texts };
})()`

type sceneMeasure struct {
	View   [2]float64
	Plates [][4]float64 // left, top, right, bottom, as are all boxes
	Texts  []sceneText
}

type sceneText struct {
	Text, By       string
	Plate          int
	SVG, Dots      bool
	Box            [4]float64
	Cut            *[4]float64 // what cuts it; nil: nothing
	Size, Contrast float64
}

// clipped is what is seen of a text that ends in dots.
func (s sceneText) clipped() [4]float64 {
	if !s.Dots || s.Cut == nil {
		return s.Box
	}
	return [4]float64{max(s.Box[0], s.Cut[0]), s.Box[1], min(s.Box[2], s.Cut[2]), s.Box[3]}
}

func overlap(a, b [4]float64) bool {
	const touch = 1.0 // px: boxes of neighbours may share an edge
	return a[0]+touch < b[2] && b[0]+touch < a[2] && a[1]+touch < b[3] && b[1]+touch < a[3]
}

// checkScene holds a picture to what every picture must be.
func checkScene(t *testing.T, what string, m sceneMeasure) {
	t.Helper()
	if len(m.Plates) == 0 || len(m.Texts) < 4 {
		t.Errorf("%s: %d plates and %d texts", what, len(m.Plates), len(m.Texts))
	}
	for i, plate := range m.Plates {
		if !within(plate, graphicsSafe(m.View)) {
			t.Errorf("%s: plate %v leaves the safe area of %v", what, plate, m.View)
		}
		for _, other := range m.Plates[:i] {
			if overlap(plate, other) {
				t.Errorf("%s: plates %v and %v overlap", what, plate, other)
			}
		}
	}
	for i, s := range m.Texts {
		checkText(t, what, m, s)
		for _, other := range m.Texts[:i] {
			if s.Plate == other.Plate && !s.SVG && !other.SVG && overlap(s.clipped(), other.clipped()) {
				t.Errorf("%s: %q at %v and %q at %v overlap", what, s.Text, s.Box, other.Text, other.Box)
			}
		}
	}
}

func checkText(t *testing.T, what string, m sceneMeasure, s sceneText) {
	t.Helper()
	if !within(s.clipped(), m.Plates[s.Plate]) {
		t.Errorf("%s: %q (%s) at %v leaves its plate %v", what, s.Text, s.By, s.Box, m.Plates[s.Plate])
	}
	if s.Cut != nil && !s.Dots && !within(s.Box, *s.Cut) {
		t.Errorf("%s: %q (%s) at %v is cut by %v", what, s.Text, s.By, s.Box, *s.Cut)
	}
	if s.Dots && s.Cut != nil && !within(s.Box, *s.Cut) && !slices.Contains([]string{"name", "tag", "mark"}, s.By) {
		t.Errorf("%s: %q (%s) ends in dots", what, s.Text, s.By)
	}
	if s.Contrast < 4.5 { // WCAG 2.2, 1.4.3
		t.Errorf("%s: %q (%s) has a contrast of %.1f", what, s.Text, s.By, s.Contrast)
	}
}

var airSizes = [][2]int64{{1280, 720}, {1920, 1080}, {3840, 2160}}

// openScene opens a scene on a relay without games: what it shows is said by the test.
func openScene(t *testing.T, ctx context.Context, url string, boards ...wire.Board) {
	t.Helper()
	tapped(t, ctx, url)
	// All of the type, before anything is set in it: "loaded" also says of a page that has asked for none.
	page(t, ctx, "the type", chromedp.Evaluate[bool]("Promise.all([...document.fonts].map((f) => f.load())).then(() => true)", chromedp.EvalAwaitPromise))
	evaluate[chromedp.Void](t, ctx, sayShow(boards...))
	waitFor(t, ctx, "the game", "document.querySelector('#stage').dataset.view === 'game' && document.fonts.status === 'loaded'")
}

// TestClocksFit: the lower third, in every state, at three sizes of the picture.
func TestClocksFit(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t)
	for state := range airStates {
		for _, query := range []string{"", "&side=black"} {
			openScene(t, ctx, url+"/scene/clocks?motion=off"+query, stated(t, 1, state, showNow()))
			for _, size := range map[string][][2]int64{"": airSizes, "&side=black": airSizes[1:2]}[query] {
				resize(t, ctx, size[0], size[1])
				checkScene(t, fmt.Sprintf("clocks%s, %s at %v", query, state, size), evaluate[sceneMeasure](t, ctx, measureScene))
			}
		}
	}
}
