package main

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
)

// TestDeskToolsLieOverNothing: at the sizes of usual laptops, and at the limits of the layout, the
// tools end above the names of the players, while a name is asked for and afterwards.
func TestDeskToolsLieOverNothing(t *testing.T) {
	ctx := browser(t)
	s := startDesk(t, "e4 e5 Nf3 Nc6")
	desk := s.tab(ctx, "/desk")
	waitFor(t, desk, "the tools", "document.querySelectorAll('.tool').length >= 8")
	look := func(when string) {
		t.Helper()
		for _, size := range [][2]int64{{1100, 720}, {1280, 720}, {1366, 768}, {1920, 950}, {1920, 951}, {1920, 1080}} {
			page(t, desk, "its size", result(emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: size[0], Height: size[1], DeviceScaleFactor: 1}))
			if over := evaluate[float64](t, desk, `Math.max(...[...document.querySelectorAll('.tool')].map((tool) => tool.getBoundingClientRect().bottom)) - document.querySelector('.time').getBoundingClientRect().top`); over > 0 {
				t.Errorf("%s, at %d × %d: the tools reach %.0f px below where the names begin", when, size[0], size[1], over)
			}
			if wide := evaluate[float64](t, desk, `Math.max(...[...document.querySelectorAll('.tool')].map((tool) => tool.getBoundingClientRect().right)) - document.querySelector('.stage').getBoundingClientRect().left`); wide > 0 {
				t.Errorf("%s, at %d × %d: the tools reach %.0f px into the board", when, size[0], size[1], wide)
			}
		}
	}
	waitFor(t, desk, "the question who sits there", "!document.querySelector('#who').hidden")
	look("while a name is asked for")
	evaluate[bool](t, desk, `(document.querySelector('#who-name').value = 'Runa', document.querySelector('#who').requestSubmit(), true)`)
	waitFor(t, desk, "the bar to go", "document.querySelector('#who').hidden")
	look("with a name")
}
