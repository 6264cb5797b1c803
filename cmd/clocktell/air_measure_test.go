package main

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"

	"clocktell/overlay/wire"
)

// measureAir measures the plates of what the desk puts on the air besides those of all scenes.
var measureAir = strings.Replace(measureScene, "'#tag, #foot,", "'#tag, #foot, #strip, #hints, #frame, #notice-place,", 1)

// The longest that the desk takes: 160 signs of a text, 60 of a name.
const (
	longText = "White has given up the bishop pair and the centre is about to close: which plan would you choose here, and which of the two knights goes to the kingside first?"
	longName = "The plan that Quintanilha found at the board, as it is told."
)

// airStatesOf are the states of what the desk puts on a board, by name: each says one frame.
func airStatesOf(t *testing.T, b wire.Board) map[string]wire.Air {
	t.Helper()
	const line = "Nf1 Re8 Ng3 Bf8 a4 d5 dxe5 Nxe5 Nxe5 Rxe5 f4 Re8 e5 Bc5+ Kh2 Ne4 Nxe4 dxe4"
	out := make(map[string]wire.Air)
	ask := func(name string, change func(c *wire.AirChallenge)) {
		c := askedAt(t, b, 22, "Where does the white knight on d2 go?")
		change(c)
		out[name] = wire.Air{Board: b.Board, Challenge: c}
	}
	reveal := func(name, question, answer string, steps int64) {
		ask(name, func(c *wire.AirChallenge) {
			c.Question, c.State, c.Answer, c.Revealed = question, wire.ChallengeRevealed, stepsFrom(t, c.FEN, c.Number, answer), b.At-steps*c.StepMs
		})
	}
	ask("asked", func(*wire.AirChallenge) {})
	ask("hints", func(c *wire.AirChallenge) {
		c.Hints = []string{"It is not its way to f1.", "The e5 pawn.", "The queen follows."}
	})
	ask("long", func(c *wire.AirChallenge) {
		c.Question, c.Ends, c.Hints = longText, b.At+600_000, []string{longText, longText, longText, longText, longText}
	})
	ask("over", func(c *wire.AirChallenge) { c.Asked, c.Ends = b.At-30_000, b.At-1 })
	reveal("answer", "Where does the knight go?", "Nf1", 2)
	reveal("long answer", longText, line, 40)
	for _, way := range []string{wire.WayFollow, wire.WayWhole, wire.WayText} {
		e := explainedAt(t, b, way, 22, line)
		e.Name, e.At = longName, b.At-60_000
		out[way] = wire.Air{Board: b.Board, Explained: e}
	}
	out["back"] = wire.Air{Board: b.Board, Explained: explainedAt(t, b, wire.WayFollow, 9, "")}
	return out
}

// TestAirFits: what the desk puts on the air, in every state and theme, at three sizes of the
// picture: within its plates and the safe area, whole, and with contrast.
func TestAirFits(t *testing.T) {
	ctx := browserFor(t, 3*patience)
	url := pagesOf(t)
	board := airBoard(t, 1, 27, showNow())
	for state, air := range airStatesOf(t, board) {
		for scene, query := range map[string]string{"challenge": "&theme=light", "board": ""} {
			if scene == "challenge" && air.Challenge == nil {
				continue
			}
			shown := board
			if air.Challenge != nil && air.Challenge.State == wire.ChallengeAsked {
				shown = veiled(board)
			}
			openAir(t, ctx, url+"/scene/"+scene+"?motion=off"+query, air, shown)
			for _, size := range airSizes {
				resize(t, ctx, size[0], size[1])
				checkAir(t, fmt.Sprintf("%s%s, %s at %v", scene, query, state, size), evaluate[sceneMeasure](t, ctx, measureAir))
			}
		}
	}
}

// openAir opens a scene on a relay without games, and says what is on the air as the relay would.
func openAir(t *testing.T, ctx context.Context, url string, air wire.Air, boards ...wire.Board) {
	t.Helper()
	tapped(t, ctx, url)
	page(t, ctx, "the type", chromedp.Evaluate[bool]("Promise.all([...document.fonts].map((f) => f.load())).then(() => true)", chromedp.EvalAwaitPromise))
	evaluate[chromedp.Void](t, ctx, sayAir(air)+sayShow(boards...))
	waitFor(t, ctx, "the picture", "document.querySelectorAll('#board .man').length > 2 && document.fonts.status === 'loaded' && !document.getAnimations().length")
}

// checkAir is checkScene for plates that meet: these lie two pixels of the stage over each other.
func checkAir(t *testing.T, what string, m sceneMeasure) {
	t.Helper()
	if len(m.Plates) < 4 || len(m.Texts) < 8 {
		t.Errorf("%s: %d plates and %d texts", what, len(m.Plates), len(m.Texts))
	}
	for i, plate := range m.Plates {
		if !within(plate, graphicsSafe(m.View)) {
			t.Errorf("%s: plate %v leaves the safe area of %v", what, plate, m.View)
		}
		for _, other := range m.Plates[:i] {
			if x, y := 3*m.View[0]/1920, 3*m.View[1]/1080; overlap([4]float64{plate[0] + x, plate[1] + y, plate[2] - x, plate[3] - y}, other) {
				t.Errorf("%s: plates %v and %v overlap", what, plate, other)
			}
		}
	}
	for i, s := range m.Texts {
		if s.By != "strip" && s.By != "opening" { // a name may end in dots
			checkText(t, what, m, s)
		}
		for _, other := range m.Texts[:i] {
			if s.Plate == other.Plate && !s.SVG && !other.SVG && overlap(s.clipped(), other.clipped()) {
				t.Errorf("%s: %q at %v and %q at %v overlap", what, s.Text, s.Box, other.Text, other.Box)
			}
		}
	}
}

// TestCountdownCostsNothing: while viewers think, the scene lays nothing out, and takes no
// more than a running clock may.
func TestCountdownCostsNothing(t *testing.T) {
	const length = 10 * time.Second
	ctx := browserFor(t, patience+length)
	board := airBoard(t, 1, 22, showNow())
	challenge := askedAt(t, board, 22, "Where does the white knight on d2 go?")
	challenge.Asked, challenge.Ends = showNow(), showNow()+60_000
	openAir(t, ctx, pagesOf(t)+"/scene/challenge", wire.Air{Board: 1, Challenge: challenge}, veiled(board))
	page(t, ctx, "metrics on", command(performance.Enable, performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks}))
	evaluate[chromedp.Void](t, ctx, `window.lefts = new Set(); new MutationObserver(() => window.lefts.add(document.querySelector('#left').getAttribute('aria-label')))
		.observe(document.querySelector('#left'), { attributes: true })`)
	got := during(t, ctx, length)
	share, texts := got["TaskDuration"]/length.Seconds(), evaluate[int](t, ctx, "window.lefts.size")
	t.Logf("%v of a countdown, %d texts shown: %g layouts, %g style recalculations, %.2f %% of a core on the main thread", length, texts, got["LayoutCount"], got["RecalcStyleCount"], 100*share)
	if texts < 8 || texts > 12 {
		t.Errorf("the countdown showed %d texts in %v; does it run?", texts, length)
	}
	if got["LayoutCount"] != 0 || share > idleShareMost {
		t.Errorf("%g layouts and %.2f %% of a core, want none and at most %.0f %%", got["LayoutCount"], 100*share, 100*idleShareMost)
	}
}
