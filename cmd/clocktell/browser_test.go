package main

import (
	"context"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// patience is how long a test waits for a page, wall time. Nothing is timed by
// it: it only keeps a broken page from hanging the run.
const patience = 90 * time.Second

// browser returns a tab of headless Chromium. Without one the test is skipped,
// but where CLOCKTELL_TESTS=all (as in .ci/run) it fails. CLOCKTELL_TESTS=relay leaves
// the pages out.
func browser(t *testing.T) context.Context {
	t.Helper()
	return browserFor(t, patience)
}

// browserFor is the same for a test that takes longer, with more options.
func browserFor(t *testing.T, longest time.Duration, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	if os.Getenv("CLOCKTELL_TESTS") == "relay" {
		t.Skip("CLOCKTELL_TESTS=relay leaves the pages out")
	}
	path, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatal("chromium is missing; install Debian's package chromium")
		}
		t.Skip("chromium is missing; install it to run the page tests")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.WindowSize(1920, 1080),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.UserDataDir(t.TempDir()))
	options = append(options, more...)
	ctx, cancel := context.WithTimeout(context.Background(), longest)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewExecAllocator(ctx, options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(func() {
		// Wait for the process, so that its folder can be removed.
		if err := chromedp.Cancel(ctx); err != nil {
			t.Logf("closing the browser: %v", err)
		}
		cancel()
	})
	watchConsole(t, ctx)
	return ctx
}

// watchConsole fails the test for every error that a page reports.
func watchConsole(t *testing.T, ctx context.Context) {
	t.Helper()
	err := chromedp.Listen(ctx, func(event any) {
		switch e := event.(type) {
		case *runtime.EventExceptionThrown:
			t.Errorf("page: %s", e.ExceptionDetails.Text)
		case *runtime.EventConsoleAPICalled:
			if e.Type == runtime.ConsoleAPICalledTypeError {
				t.Errorf("page console: %s", e.Args[0].Description)
			}
		}
	})
	if err != nil {
		t.Fatal(err)
	}
}

// page runs an action in the tab.
func page[T any](t *testing.T, ctx context.Context, what string, action chromedp.Action[T]) T {
	t.Helper()
	value, err := chromedp.Run(ctx, action)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	return value
}

func visit(t *testing.T, ctx context.Context, url string) {
	t.Helper()
	page(t, ctx, url, chromedp.Navigate(url))
}

// evaluate runs a script in the page and returns its value.
func evaluate[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	return page(t, ctx, script, chromedp.Evaluate[T](script))
}

// waitFor asks the page until a script's value is true. A page that has just come may be asked in
// a context that the browser then replaces; it is asked again in the new one.
func waitFor(t *testing.T, ctx context.Context, what, script string) {
	t.Helper()
	ask := chromedp.Poll[chromedp.Void](script, chromedp.WithPollingInterval(20*time.Millisecond), chromedp.WithPollingTimeout(patience))
	const replaced, most = "Cannot find context with specified id", 3
	for try := 1; ; try++ {
		_, err := chromedp.Run(ctx, ask)
		switch {
		case err == nil:
			return
		case try == most || !strings.Contains(err.Error(), replaced):
			t.Fatalf("waiting for %s: %v", what, err)
		}
	}
}

// drawn reads the position from the pieces that the scene has drawn, square by
// square, as the placement field of FEN; "" while a piece is still sliding.
const drawn = `(() => {
	const squares = Array(64).fill('');
	for (const man of document.querySelectorAll('#board .man')) {
		if (man.getAnimations().length) return '';
		const [x, y] = man.style.transform.match(/-?\d+/g).map((n) => n / 100);
		const [, colour, letter] = man.querySelector('use').getAttribute('href').match(/piece-(white|black)-(.)/);
		if (squares[y * 8 + x]) return '';
		squares[y * 8 + x] = colour === 'white' ? letter : letter.toLowerCase();
	}
	const ranks = [];
	for (let y = 0; y < 8; y++) {
		ranks.push(squares.slice(y * 8, y * 8 + 8).map((s) => s || '1').join('').replace(/1+/g, (ones) => ones.length));
	}
	return ranks.join('/');
})()`

func placementOf(fen string) string {
	placement, _, _ := strings.Cut(fen, " ")
	return placement
}
