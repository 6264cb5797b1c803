package build

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"clocktell/relay/reference"
)

var errPulled = errors.New("the plug was pulled")

// smallSizes make many blocks, runs and merges of few games.
var smallSizes = sizes{block: 10_000, game: 1 << 20, run: 2_000, fanIn: 3, doubles: 4}

// interrupted are options for a build in many runs, and what it makes when nothing
// happens.
func interrupted(t *testing.T) (o Options, want string, report Report) {
	t.Helper()
	text := mustRead(t, someGames(t, 60))
	o = options(t, mustWrite(t, "a.pgn", text[:len(text)/2]), mustWrite(t, "b.pgn", text[len(text)/2:]), mustWrite(t, "c.pgn", text[:20_000]))
	o.sizes = smallSizes
	report = mustBuild(t, o)
	want = mustRead(t, o.Out)
	must(t, os.Remove(o.Out))
	return o, want, report
}

// whole holds the file to be whole or not there.
func whole(t *testing.T, o Options, want string) {
	t.Helper()
	text, err := os.ReadFile(o.Out)
	if err == nil && string(text) != want || err != nil && !os.IsNotExist(err) {
		t.Fatalf("a file of %d bytes, want %d or none; %v", len(text), len(want), err)
	}
	if _, err := reference.Open(filepath.Join(o.Out+".work", indexName)); err == nil {
		if text := mustRead(t, filepath.Join(o.Out+".work", indexName)); text != want {
			t.Fatal("a file in the work directory opens and is not whole")
		}
	}
}

// TestStopped stops a build at every point where it could be stopped, and goes on: the
// same file and the same report come of it.
func TestStopped(t *testing.T) {
	o, want, report := interrupted(t)
	points := make(map[string]int)
	for n := 1; ; n++ {
		stopped, at := stopAt(n)
		o.pass = stopped
		_, err := Run(t.Context(), o)
		if err == nil {
			must(t, os.Remove(o.Out))
			break
		}
		if !errors.Is(err, errPulled) {
			t.Fatal(err)
		}
		points[*at]++
		whole(t, o, want)
		o.pass = nil
		again := mustBuild(t, o)
		if got := mustRead(t, o.Out); got != want {
			t.Fatalf("stopped at %q, %d: another file", *at, n)
		}
		same(t, again, report)
		must(t, os.Remove(o.Out))
	}
	t.Logf("stopped at %v", points)
	for _, at := range []string{"run written", "manifest written", "games added", "batch added", "records added", "index whole", "committed", "manifest gone"} {
		if points[at] == 0 {
			t.Errorf("never stopped at %q", at)
		}
	}
}

// stopAt returns a hook that stops the nth time, and where that was.
func stopAt(n int) (pass func(string) error, at *string) {
	at = new(string)
	return func(where string) error {
		if n--; n == 0 {
			*at = where
			return errPulled
		}
		return nil
	}, at
}

func same(t *testing.T, got, want Report) {
	t.Helper()
	got.Resumed = want.Resumed
	if g, w := got.copy(), want.copy(); !equalReports(g, w) {
		t.Fatalf("report\n%+v, want\n%+v", g, w)
	}
}

func equalReports(a, b Report) bool {
	if len(a.Skipped) != len(b.Skipped) {
		return false
	}
	for i := range a.Skipped {
		x, y := a.Skipped[i], b.Skipped[i]
		if x.Reason != y.Reason || x.Games != y.Games || len(x.Examples) != len(y.Examples) {
			return false
		}
		for j := range x.Examples {
			if x.Examples[j] != y.Examples[j] {
				return false
			}
		}
	}
	a.Skipped, b.Skipped = nil, nil
	return a.Games == b.Games && a.Kept == b.Kept && a.Records == b.Records && a.Text == b.Text && a.Positions == b.Positions && a.Size == b.Size
}

// TestStoppedAgainAndAgain stops a build a little further each time.
func TestStoppedAgainAndAgain(t *testing.T) {
	o, want, report := interrupted(t)
	resumed := 0
	o.Resumed = func(Report) { resumed++ }
	for stops := 0; ; stops++ {
		o.pass, _ = stopAt(2) // a run is written, its manifest is not; then it is
		got, err := Run(t.Context(), o)
		if err == nil {
			t.Fatal("never stopped")
		}
		if !errors.Is(err, errPulled) {
			t.Fatal(err)
		}
		whole(t, o, want)
		if got.Games == report.Games {
			break
		}
		if stops > 100 {
			t.Fatal("it does not get on")
		}
	}
	o.pass = nil
	same(t, mustBuild(t, o), report)
	if mustRead(t, o.Out) != want || resumed < 3 {
		t.Errorf("another file, or resumed only %d times", resumed)
	}
}

// TestCancelled ends the context while a build reads and while it writes; it ends, says
// so, and goes on later. No goroutine may stay, which the errgroups see to.
func TestCancelled(t *testing.T) {
	o, want, _ := interrupted(t)
	for _, at := range []string{"manifest written", "batch added"} {
		ctx, cancel := context.WithCancel(t.Context())
		o.pass = func(where string) error {
			if where == at {
				cancel()
			}
			return nil
		}
		_, err := Run(ctx, o)
		cancel()
		if at == "manifest written" && !errors.Is(err, context.Canceled) {
			t.Errorf("at %q: %v", at, err)
		}
		whole(t, o, want)
	}
	o.pass = nil
	if _, err := os.Stat(o.Out); err != nil {
		mustBuild(t, o)
	}
	if mustRead(t, o.Out) != want {
		t.Error("another file")
	}
}

// TestOther goes on with other options, other inputs, and a damaged work directory: it is
// refused with what to do, and --restart does it.
func TestOther(t *testing.T) {
	o, want, _ := interrupted(t)
	stop := func() {
		o.pass, _ = stopAt(6)
		if _, err := Run(t.Context(), o); !errors.Is(err, errPulled) {
			t.Fatal(err)
		}
		o.pass = nil
	}
	a, work := o.Inputs[0], o.Out+".work"
	tests := map[string]struct {
		spoil func(o *Options)
		err   error
	}{
		"depth":           {func(o *Options) { o.Depth = 12 }, ErrOther},
		"filter":          {func(o *Options) { o.Keep.FromYear = 2020 }, ErrOther},
		"doubles":         {func(o *Options) { o.KeepDoubles = true }, ErrOther},
		"fewer inputs":    {func(o *Options) { o.Inputs = o.Inputs[:1] }, ErrOther},
		"input is newer":  {func(*Options) { must(t, os.Chtimes(a, time.Unix(1, 0), time.Unix(1, 0))) }, ErrOther},
		"manifest":        {func(*Options) { must(t, os.WriteFile(filepath.Join(work, manifestName), []byte("{"), 0o644)) }, errDamaged},
		"games of a run":  {func(*Options) { flip(t, filepath.Join(work, "run-00000.games")) }, errDamaged},
		"run gone":        {func(*Options) { must(t, os.Remove(filepath.Join(work, "run-00000.games"))) }, errDamaged},
		"records of run":  {func(*Options) { flip(t, filepath.Join(work, "run-00001.records")) }, errDamaged},
		"records too few": {func(*Options) { must(t, os.Truncate(filepath.Join(work, "run-00001.records"), 10)) }, errDamaged},
	}
	for name, tt := range tests {
		stop()
		other := o
		tt.spoil(&other)
		if _, err := Run(t.Context(), other); !errors.Is(err, tt.err) || !strings.Contains(err.Error(), "--restart") {
			t.Errorf("%s: %v", name, err)
		}
		whole(t, o, want)
		o.Restart = true
		mustBuild(t, o)
		if mustRead(t, o.Out) != want {
			t.Errorf("%s: built anew it is another file", name)
		}
		must(t, os.Remove(o.Out))
		o.Restart = false
	}
}

// flip changes one byte of a file.
func flip(t *testing.T, path string) {
	t.Helper()
	text := []byte(mustRead(t, path))
	text[len(text)/2] ^= 4
	must(t, os.WriteFile(path, text, 0o644))
}

// TestTwoBuilds: while one builds another is refused; what stands there before stays until
// the new file is whole.
func TestTwoBuilds(t *testing.T) {
	o, want, _ := interrupted(t)
	must(t, os.WriteFile(o.Out, []byte("\x89ctref\r\nwhat was there before"), 0o644))
	tried := false
	first := o
	first.pass = func(at string) error {
		if at == "records added" {
			_, err := Run(t.Context(), o)
			tried = true
			if err == nil || !strings.Contains(err.Error(), "another build") {
				t.Errorf("the second build: %v", err)
			}
			if text := mustRead(t, o.Out); text != "\x89ctref\r\nwhat was there before" {
				t.Errorf("what was there has become %d bytes", len(text))
			}
		}
		return nil
	}
	mustBuild(t, first)
	if mustRead(t, o.Out) != want || !tried {
		t.Error("the first build makes another file")
	}
}

// TestSameFileAnyhow builds with one worker and with many, in blocks, runs and merges of
// many sizes: the same file each time.
func TestSameFileAnyhow(t *testing.T) {
	o, want, report := interrupted(t)
	for _, workers := range []int{1, 2, 5} {
		for _, s := range []sizes{defaultSizes, smallSizes, {block: 3_000, game: 1 << 20, run: 50_000, fanIn: 2, doubles: 1 << 10}} {
			o.Workers, o.sizes = workers, s
			same(t, mustBuild(t, o), report)
			if mustRead(t, o.Out) != want {
				t.Errorf("%d workers, %+v: another file", workers, s)
			}
		}
	}
}
