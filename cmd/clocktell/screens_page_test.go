package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"clocktell/overlay/wire"
)

// screenNow is the show time of every picture.
const screenNow int64 = 1_792_000_000_000

// standstill gives a page a clock that goes only when the test lets time pass, and a line that
// says only what the test says. So the same frames give the same picture, whenever, however
// slow the machine. Date is left alone: no scene reads it.
const standstill = `{
	let wall = 1000;
	performance.now = () => wall;
	window.pass = (ms) => { wall += ms; document.dispatchEvent(new Event('visibilitychange')); };
	window.WebSocket = class {
		static OPEN = 1;
		readyState = 1;
		constructor() { window.line = this; }
		send() {}
		close() {}
	};
	window.say = (frame) => window.line.onmessage({ data: JSON.stringify(frame) });
	window.lose = () => window.line.onclose({ code: 1006 });
}`

// typeIsThere loads all of the type before anything is set in it.
const typeIsThere = "Promise.all([...document.fonts].map((f) => f.load())).then(() => true)"

// isDrawn waits for what a frame starts and for the picture it comes to.
const isDrawn = "document.fonts.ready.then(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(true)))))"

// screen is a scene in a state: what its address takes, what the relay says, and what happens
// then, as a script.
type screen struct {
	query  string
	frames []any
	then   string
	empty  bool // nothing is to be drawn
}

// screenBrowser is a tab whose pages stand still, and are clear where they draw nothing.
func screenBrowser(t *testing.T, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	ctx := browserFor(t, 4*patience, more...)
	page(t, ctx, "the standstill", command(cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: standstill}))
	const clear = 1e-9 // the protocol's writer leaves a 0 out, which means opaque
	page(t, ctx, "a clear ground", command(emulation.SetDefaultBackgroundColorOverride, emulation.SetDefaultBackgroundColorOverrideParams{Color: &cdp.RGBA{A: clear}}))
	return ctx
}

// taken opens a scene at a size, brings it into a state and is its picture, as a camera picture would
// be seen through it. What is opened at one size and seen at another may keep what was drawn for
// the first, and no program that captures pages does that.
func (s screen) taken(t *testing.T, ctx context.Context, url, scene string, size [2]int64) *image.RGBA {
	t.Helper()
	page(t, ctx, "a size", chromedp.EmulateViewport(size[0], size[1]))
	visit(t, ctx, url+"/scene/"+scene+"?motion=off"+s.query)
	waitFor(t, ctx, "the page to listen", "window.line?.onmessage")
	awaited(t, ctx, typeIsThere)
	welcome := wire.Welcome{Type: wire.TypeWelcome, Version: wire.Version, Run: "pictures", Now: screenNow, Rate: 1, PingEveryMs: 1e9}
	var said strings.Builder
	for _, frame := range append([]any{welcome}, s.frames...) {
		data, err := json.Marshal(frame)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&said, "say(%s);", data)
	}
	evaluate[chromedp.Void](t, ctx, said.String()+s.then)
	awaited(t, ctx, isDrawn)
	fast := true
	shot := page(t, ctx, "a picture", result(cdppage.CaptureScreenshot, cdppage.CaptureScreenshotParams{OptimizeForSpeed: &fast}))
	return unpacked(t, shot.Data)
}

func awaited(t *testing.T, ctx context.Context, script string) {
	t.Helper()
	page(t, ctx, script, chromedp.Evaluate[bool](script, chromedp.EvalAwaitPromise))
}

// unpacked is a PNG with its colours multiplied by their opacity, which is how they mix.
func unpacked(t *testing.T, data []byte) *image.RGBA {
	t.Helper()
	p, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	out := image.NewRGBA(p.Bounds())
	draw.Draw(out, out.Bounds(), p, image.Point{}, draw.Src)
	return out
}
