package main

import (
	"bytes"
	"context"
	"encoding/base64"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	cdppage "github.com/chromedp/cdproto/page"

	"clocktell/relay/cue"
)

// recapIn writes the demo's recap into a folder.
func recapIn(t *testing.T, dir, language string) {
	t.Helper()
	s := tellShow(t, language)
	folder, err := newRecapFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := writeAfter(s.watch, s.cues.Log(), cueOptions{rate: cue.Rates[2], zone: time.UTC}, folder.write); err != nil {
		t.Fatal(err)
	}
	if err := folder.finish(); err != nil {
		t.Fatal(err)
	}
}

// TestRecapInBrowser looks at the demo's recap, in two languages, with Chromium.
func TestRecapInBrowser(t *testing.T) {
	script := axe(t)
	ctx := browser(t)
	english, german := t.TempDir(), t.TempDir()
	recapIn(t, english, "en")
	recapIn(t, german, "de")
	t.Run("pages", func(t *testing.T) { recapPages(t, ctx, english, script) })
	t.Run("type", func(t *testing.T) { recapType(t, ctx) })
	t.Run("breaks", func(t *testing.T) { recapBreaks(t, ctx, german) })
	t.Run("pictures", func(t *testing.T) { recapPictures(t, ctx, english) })
}

// recapPages opens the pages from their folder: they break no rule that axe-core knows, fetch
// nothing, never scroll sideways, run no script and print on A4.
func recapPages(t *testing.T, ctx context.Context, dir, script string) {
	for _, name := range []string{"board1.html", "index.html"} {
		visit(t, ctx, "file://"+filepath.Join(dir, name))
		if n := evaluate[int](t, ctx, "performance.getEntriesByType('resource').filter((r) => !r.name.startsWith('data:')).length + document.scripts.length"); n != 0 {
			t.Errorf("%s: %d scripts or things fetched", name, n)
		}
		checkAccess(t, ctx, name, script)
		for _, width := range []int64{1366, 768, 390, 360} {
			page(t, ctx, "its size", result(emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 800, DeviceScaleFactor: 1}))
			if wide := evaluate[int64](t, ctx, "document.documentElement.scrollWidth"); wide > width {
				t.Errorf("%s, %d wide: scrolls to %d", name, width, wide)
			}
		}
		page(t, ctx, "its size", result(emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: 1366, Height: 1024, DeviceScaleFactor: 1}))
		pages, size := printed(t, ctx)
		if pages < 1 || pages > 2 || !size {
			t.Errorf("%s: %d pages, A4 %v; want one or two", name, pages, size)
		}
	}
}

// printed prints a page as its style says, and returns how many sheets that takes and whether
// all are A4: 210 by 297 mm (ISO 216), which is 595 by 842 points.
func printed(t *testing.T, ctx context.Context) (pages int, a4 bool) {
	t.Helper()
	yes := true
	text := page(t, ctx, "printing", result(cdppage.PrintToPDF, cdppage.PrintToPDFParams{PrintBackground: &yes, PreferCSSPageSize: &yes})).Data
	pages = bytes.Count(text, []byte("/Type /Page\n"))
	return pages, bytes.Count(text, []byte("/MediaBox [0 0 594.95996 841.91998]"))+bytes.Count(text, []byte("/MediaBox [0 0 595")) == pages
}

// recapBreaks: on paper, what belongs together stays on one sheet: it may not be
// broken, and is lower than a sheet.
func recapBreaks(t *testing.T, ctx context.Context, dir string) {
	visit(t, ctx, "file://"+filepath.Join(dir, "board1.html"))
	page(t, ctx, "paper", result(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}))
	page(t, ctx, "its size", result(emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: 688, Height: 1020, DeviceScaleFactor: 1}))
	for _, what := range []string{".key", ".said li", ".lines li", ".spentby"} {
		found := evaluate[[]float64](t, ctx, fmt.Sprintf(`[...document.querySelectorAll(%q)].map((e) => getComputedStyle(e).breakInside === 'avoid' ? e.getBoundingClientRect().height : 9999)`, what))
		if len(found) == 0 {
			t.Errorf("%s: none", what)
		}
		for _, high := range found {
			if high > 1000 {
				t.Errorf("%s: %g px high, or may be broken", what, high)
			}
		}
	}
}

// How far a picture of ours may be from Chromium's of the same SVG, of 255. Both blend edges,
// each in its own way: over the demo's 13 pictures that was measured to be up to 0.49 in the mean
// of all channels, and up to 20.9 in the mean of one part of 8 by 8 pixels, among the narrow rays
// of a queen. The smallest thing on a diagram, the figure of a rank painted over, makes 85 there. Four of them are compared each time.
const (
	meanMost = 0.6
	partMost = 30.0
)

// recapPictures holds every PNG of the recap to Chromium's rendering of its SVG.
func recapPictures(t *testing.T, ctx context.Context, dir string) {
	for i, name := range []string{"board1/A", "board1/F", "board2/B", "board1/tell-line"} {
		file := filepath.Join(dir, filepath.FromSlash(name)+".svg")
		ours := readPNG(t, strings.TrimSuffix(file, ".svg")+".png")
		theirs := drawnSVG(t, ctx, file, ours.Bounds())
		mean, part := unlikeness(ours, theirs)
		t.Logf("%s: %.2f in the mean, %.1f in one place", filepath.Base(file), mean, part)
		if mean > meanMost || part > partMost {
			t.Errorf("%s: unlike Chromium's by %.2f in the mean, %.1f in one place", file, mean, part)
		}
		if i == 0 {
			if _, part := unlikeness(smeared(ours), theirs); part <= partMost {
				t.Errorf("the figure of a rank that is painted over counts %.1f", part)
			} else {
				t.Logf("the figure of a rank that is painted over counts %.1f", part)
			}
		}
	}
}

func readPNG(t *testing.T, file string) image.Image {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return picture
}

// drawnSVG lets the browser draw a file as large as a picture.
func drawnSVG(t *testing.T, ctx context.Context, file string, size image.Rectangle) image.Image {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	html := fmt.Sprintf(`<body style="margin:0"><img style="display:block;width:%dpx;height:%dpx" src="data:image/svg+xml;base64,%s">`, size.Dx(), size.Dy(), base64.StdEncoding.EncodeToString(text))
	page(t, ctx, "its size", result(emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: int64(size.Dx()), Height: int64(size.Dy()), DeviceScaleFactor: 1}))
	visit(t, ctx, "data:text/html;base64,"+base64.StdEncoding.EncodeToString([]byte(html)))
	waitFor(t, ctx, "the picture", "document.images[0].complete")
	shot := page(t, ctx, "a picture", result(cdppage.CaptureScreenshot, cdppage.CaptureScreenshotParams{}))
	picture, err := png.Decode(bytes.NewReader(shot.Data))
	if err != nil {
		t.Fatal(err)
	}
	return picture
}

// unlikeness is by how much two pictures differ, of 255: the mean of all, and of the part of 8
// by 8 pixels where it is most.
func unlikeness(a, b image.Image) (mean, part float64) {
	const side = 8
	size := a.Bounds()
	if size.Dx() != b.Bounds().Dx() || size.Dy() != b.Bounds().Dy() {
		return 255, 255
	}
	sum := 0.0
	for y := 0; y < size.Dy(); y += side {
		for x := 0; x < size.Dx(); x += side {
			here, n := 0.0, 0
			for v := y; v < min(y+side, size.Dy()); v++ {
				for u := x; u < min(x+side, size.Dx()); u++ {
					ar, ag, ab, _ := a.At(size.Min.X+u, size.Min.Y+v).RGBA()
					br, bg, bb, _ := b.At(b.Bounds().Min.X+u, b.Bounds().Min.Y+v).RGBA()
					here += channelsApart(ar, br) + channelsApart(ag, bg) + channelsApart(ab, bb)
					n += 3
				}
			}
			sum += here
			part = max(part, here/float64(n))
		}
	}
	return sum / float64(3*size.Dx()*size.Dy()), part
}

func channelsApart(a, b uint32) float64 {
	if a < b {
		a, b = b, a
	}
	return float64(a-b) / 257
}

// smeared is a diagram whose upper left figure is painted over in the colour beside it.
func smeared(a image.Image) image.Image {
	out := image.NewRGBA(a.Bounds())
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			out.Set(x, y, a.At(x, y))
			if x > 8 && x < 30 && y > 8 && y < 34 {
				out.Set(x, y, a.At(60, 14))
			}
		}
	}
	return out
}
