package main

import (
	"context"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// axe returns the script of axe-core, which finds by the rules of WCAG what keeps people
// from using a page. Without it the test is skipped, but where CLOCKTELL_TESTS=all it fails.
func axe(t *testing.T) string {
	t.Helper()
	_, err := exec.LookPath("node")
	var script []byte
	if err == nil {
		script, err = os.ReadFile("../../static/lint/node_modules/axe-core/axe.min.js")
	}
	if err != nil {
		const need = "axe-core is missing; run npm ci --prefix static/lint"
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatalf("%s: %v", need, err)
		}
		t.Skip(need)
	}
	return string(script)
}

// violations runs all rules of WCAG 2.2, levels A and AA, and those of good practice.
const violations = `axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }).then((found) => ({
	passes: found.passes.length,
	violations: found.violations.flatMap((v) => v.nodes.map((n) => v.id + ': ' + n.target.join(' ') + ': ' + (n.failureSummary ?? '').replace(/\s+/g, ' '))),
}))`

type axeFound struct {
	Passes     int      `json:"passes"`
	Violations []string `json:"violations"`
}

// checkAccess wants a page without violations, at the size of a desk and of a phone.
func checkAccess(t *testing.T, ctx context.Context, name, script string) {
	t.Helper()
	evaluate[bool](t, ctx, script+"\n;true")
	for _, size := range [][2]int64{{1366, 1024}, {390, 844}} {
		page(t, ctx, "its size", result(emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: size[0], Height: size[1], DeviceScaleFactor: 1}))
		found := page(t, ctx, "axe", chromedp.Evaluate[axeFound](violations, chromedp.EvalAwaitPromise))
		if found.Passes < 15 {
			t.Errorf("%s, %d wide: only %d rules found anything to look at", name, size[0], found.Passes)
		}
		for _, v := range found.Violations {
			t.Errorf("%s, %d wide: %s", name, size[0], v)
		}
	}
}

// TestPagesAreAccessible runs axe-core on the desk in its states, the panel and the
// health page.
func TestPagesAreAccessible(t *testing.T) {
	script := axe(t)
	ctx := browser(t)
	s := startDesk(t, "e4 e5 Nf3 Nc6")
	visit(t, ctx, "about:blank")
	desk := s.desk(ctx, "Runa")
	checkAccess(t, desk, "desk, live", script)
	s.judge(18, thought{134, "Bb5 a6 Ba4 Nf6"}, thought{31, "Bc4 Bc5"}, thought{-62, "d4 exd4"})
	waitFor(t, desk, "the lines", "document.querySelectorAll('.opinion-line:not([data-empty])').length === 3")
	checkAccess(t, desk, "desk, with a second opinion", script)
	s.keys(desk, "ArrowLeft", "ArrowLeft", "m")
	s.types(desk, "f4")
	s.keys(desk, "Enter", "a")
	s.shows(desk, "the side line", after("e4 e5 f4"))
	checkAccess(t, desk, "desk, explaining on the air", script)
	evaluate[bool](t, desk, "(document.activeElement.blur(), true)")
	s.keys(desk, "o", "c")
	checkAccess(t, desk, "desk, preparing a challenge", script)
	s.tabTo(desk, "#challenge button[type=submit]")
	s.keys(desk, "Enter")
	evaluate[bool](t, desk, "(document.activeElement.blur(), true)")
	s.keys(desk, "C")
	checkAccess(t, desk, "desk, asking", script)
	s.keys(desk, "?")
	waitFor(t, desk, "the help", "document.querySelector('dialog[open]') !== null")
	checkAccess(t, desk, "desk, its keys", script)
	for _, path := range []string{"/panel", "/health"} {
		other := s.tab(ctx, path)
		waitFor(t, other, "the page alive", "document.body.dataset.line !== 'lost' && document.querySelector('main') !== null")
		checkAccess(t, other, path, script)
		findsPlanted(t, other)
	}
}

// findsPlanted puts a button without a name and a text that cannot be read onto a page:
// both are found.
func findsPlanted(t *testing.T, ctx context.Context) {
	t.Helper()
	evaluate[bool](t, ctx, `(document.querySelector('main').insertAdjacentHTML('afterbegin', '<p id=faint>faint</p><button id=bare></button>'),
		Object.assign(document.querySelector('#faint').style, { color: '#222', background: '#111' }), scrollTo(0, 0), true)`)
	found := page(t, ctx, "axe", chromedp.Evaluate[axeFound](violations, chromedp.EvalAwaitPromise))
	all := strings.Join(found.Violations, "\n")
	if !strings.Contains(all, "color-contrast: #faint") || !strings.Contains(all, "button-name: #bare") {
		t.Errorf("two planted faults, found: %s", all)
	}
}
