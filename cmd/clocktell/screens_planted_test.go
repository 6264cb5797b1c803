package main

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"clocktell/overlay/wire"
)

// planted are changes that a comparison has to see, each in one state of a scene: in what the
// relay says, or by a script in the page.
var planted = []struct {
	what, scene, state string
	frames             func(said []any)
	script             string
	small              bool // so small that it need be seen only at the size that scenes are made for
}{
	{what: "a white pawn one square aside", scene: "board", state: "novelty", frames: placed("1BP2N1P/PP3PP1", "1BP2NPP/PP3P2")},
	{what: "a black king one square aside", scene: "board", state: "light", frames: placed("rnbq1rk1", "rnbq1r1k")},
	{what: "a black pawn less on a wall of twelve", scene: "wall", state: "twelve-calm", frames: onBoard(12, func(b *wire.Board) { b.FEN = strings.Replace(b.FEN, "p", "1", 1) })},
	{what: "a second of a resting clock", scene: "board", state: "long-think", frames: onBoard(1, func(b *wire.Board) { b.White.Clock.LeftMs += 1000 })},
	{what: "a tenth of a running clock", scene: "clocks", state: "time-trouble", frames: onBoard(1, func(b *wire.Board) { b.Black.Clock.LeftMs += 100 })},
	{what: "a second on a wall of twelve", scene: "wall", state: "twelve", frames: onBoard(12, func(b *wire.Board) { b.White.Clock.LeftMs += 1000 })},
	{what: "a clock that is exact after all", scene: "clocks", state: "draw-estimated", frames: onBoard(1, func(b *wire.Board) { b.White.Clock.Quality = wire.QualityRead })},
	{what: "preparation for thinking", scene: "clocks", state: "novelty", script: recoloured("--thinking", "#56b4e9")},
	{what: "thinking a shade redder", scene: "board", state: "correction", script: recoloured("--thinking", "#e69012")},
	{what: "plates a shade lighter", scene: "caption", state: "tell", script: recoloured("--ink", "#1b222b")},
	{what: "plates that let through a twentieth", scene: "board", state: "quiet", script: recoloured("--ink", "#12161cf2")},
	{what: "no light behind the running clock", scene: "clocks", state: "bold", script: recoloured("--lit", "var(--ink)")},
	{what: "no line under the last move", scene: "board", state: "promotion", script: recoloured("--last-move-line", "transparent")},
	{what: "another type", scene: "caption", state: "clock", script: recoloured("--font-narrow", "serif") + recoloured("--font", "serif") + recoloured("--font-sentence", "serif")},
	{what: "a figure of the evidence", small: true, scene: "board", state: "long-game", frames: onBoard(1, func(b *wire.Board) { b.White.Tell.Evidence = anotherFigure(b.White.Tell.Evidence) })},
	{what: "a letter without its ring", scene: "clocks", state: "start", frames: onBoard(1, func(b *wire.Board) { b.Black.Short = "Tveiteras" })},
	{what: "a title", scene: "board", state: "start", frames: onBoard(1, func(b *wire.Board) { b.White.Title = "IM" })},
	{what: "the number of a move in small type", small: true, scene: "caption", state: "reference", frames: func(said []any) {
		f := said[1].(wire.CaptionFrame)
		c := *f.Caption
		c.Source = strings.Replace(c.Source, "15", "12", 1)
		f.Caption = &c
		said[1] = f
	}},
	{what: "a move that took nine seconds longer", scene: "clocks", state: "long-think", frames: onBoard(1, func(b *wire.Board) { b.Plies[12].SpentMs += 9000 })},
	{what: "the foot three pixels higher", scene: "board", state: "mate", script: "document.querySelector('#foot').style.translate = '0 -3px';"},
}

func recoloured(property, value string) string {
	return "document.documentElement.style.setProperty('" + property + "', '" + value + "');"
}

// anotherFigure is a time in figures, one second later or earlier.
func anotherFigure(text string) string {
	other := []byte(text)
	other[strings.IndexByte(text, ' ')-1] ^= 1
	return string(other)
}

// onBoard changes a board of a show, by its number.
func onBoard(number int, how func(*wire.Board)) func([]any) {
	return func(said []any) {
		b := said[number].(wire.Board)
		how(&b)
		said[number] = b
	}
}

func placed(was, is string) func([]any) {
	return onBoard(1, func(b *wire.Board) { b.FEN = strings.Replace(b.FEN, was, is, 1) })
}

// stateOf is a state of a scene.
func stateOf(t *testing.T, scene, state string) screen {
	t.Helper()
	for _, s := range screenScenes {
		if s.name == scene && s.states[state] != nil {
			return s.states[state](t)
		}
	}
	t.Fatalf("%s has no state %q", scene, state)
	return screen{}
}

// TestScreensSeeFaults plants faults, and each must be seen at each size.
func TestScreensSeeFaults(t *testing.T) {
	ctx, url := screenBrowser(t), pagesOf(t)
	for _, p := range planted {
		s := stateOf(t, p.scene, p.state)
		if p.frames != nil {
			p.frames(s.frames)
		}
		s.then += p.script
		for _, size := range airSizes {
			got := asKept(s.taken(t, ctx, url, p.scene, size))
			_, count := unlike(got, kept(t, keptPath(p.scene, p.state, size), got.Rect))
			t.Logf("%s: %d pixels at %v", p.what, count, size)
			if count <= mostOthers && (!p.small || size == airSizes[1]) {
				t.Errorf("%s is not seen at %v: %d pixels of one place are other, and %d may be", p.what, size, count, mostOthers)
			}
		}
	}
}

// TestScreensSeeUnsafe: a foot that stands two units of the stage too far to the left leaves the safe area.
func TestScreensSeeUnsafe(t *testing.T) {
	ctx, url := screenBrowser(t), pagesOf(t)
	s := stateOf(t, "clocks", "start")
	s.then += "document.querySelector('#foot').style.translate = '-2px 0';"
	for _, size := range airSizes {
		if drawn, safe := drawnIn(s.taken(t, ctx, url, "clocks", size)); drawn.In(safe) {
			t.Errorf("at %v: drawn in %v, which does not leave %v", size, drawn, safe)
		}
	}
}

// renderers draw edges otherwise than the browser does by itself: the first sets every letter on a
// whole pixel, the second draws all shapes with the means of a graphics card, in software.
var renderers = map[string][]chromedp.ExecAllocatorOption{
	"whole pixels": {chromedp.Flag("disable-font-subpixel-positioning", true)},
	"card": {
		chromedp.Flag("disable-gpu", false), chromedp.Flag("use-gl", "angle"), chromedp.Flag("use-angle", "swiftshader"), chromedp.Flag("enable-unsafe-swiftshader", true),
		chromedp.Flag("enable-gpu-rasterization", true), chromedp.Flag("ignore-gpu-blocklist", true),
	},
}

// TestScreensForgiveRenderers: another renderer, which draws thousands of pixels otherwise, is no
// other picture.
func TestScreensForgiveRenderers(t *testing.T) {
	browser(t) // without one all is skipped, or fails, and not its parts alone
	for name, options := range renderers {
		t.Run(name, func(t *testing.T) {
			ctx, url := screenBrowser(t, options...), pagesOf(t)
			all := 0
			for scene, state := range map[string]string{"board": "time-trouble", "wall": "twelve", "caption": "longest", "clocks": "novelty"} {
				for _, size := range airSizes {
					got := asKept(stateOf(t, scene, state).taken(t, ctx, url, scene, size))
					old := kept(t, keptPath(scene, state, size), got.Rect)
					otherwise := 0
					for i := range got.Pix {
						if gap(got.Pix[i], old.Pix[i]) > mixedError {
							otherwise++
						}
					}
					_, count := unlike(got, old)
					all += otherwise
					t.Logf("%s, %s, %s at %v: %d values drawn otherwise, %d pixels of one place other", name, scene, state, size, otherwise, count)
					if count > mostOthers {
						t.Errorf("%s, %s at %v: %d pixels of one place are other", scene, state, size, count)
					}
				}
			}
			if all < 10_000 {
				t.Errorf("%d values are drawn otherwise: too few for another renderer, so nothing is shown by it", all)
			}
		})
	}
}
