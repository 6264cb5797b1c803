package build

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"syscall"
	"testing"

	"github.com/klauspost/compress/zstd"
	"go.uber.org/goleak"
)

// Every goroutine that a build starts has ended when it returns.
func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// A pile is full by its records or by its games, and takes one block however large.
func TestPileHolds(t *testing.T) {
	p := &pile{records: make([]record, 0, 100)}
	large := &block{records: make([]record, 200), rows: make([]byte, rowsMost+1)}
	if !p.holds(large) {
		t.Error("an empty pile does not take a large block: the build would stand still")
	}
	p.games = 1
	for _, tt := range []struct {
		records, rows int
		want          bool
	}{{100, 10, true}, {101, 10, false}, {10, rowsMost, true}, {10, rowsMost + 1, false}} {
		if got := p.holds(&block{records: make([]record, tt.records), rows: make([]byte, tt.rows)}); got != tt.want {
			t.Errorf("%d records and %d bytes of games: %v, want %v", tt.records, tt.rows, got, tt.want)
		}
	}
}

// What was packed with a window larger than zstdMemory is refused; what needs all of it
// is read.
func TestZstdMemory(t *testing.T) {
	for window, refused := range map[int]bool{zstdMemory: false, 2 * zstdMemory: true} {
		var out bytes.Buffer
		w, err := zstd.NewWriter(&out, zstd.WithWindowSize(window), zstd.WithEncoderConcurrency(1))
		// A flush keeps the length of the text out of the frame's head, which then tells of
		// the window.
		must(t, err, write(w, []byte(bzip2Text)), w.Flush(), write(w, []byte("\n"+bzip2Text)), w.Close())
		_, err = Run(t.Context(), options(t, mustWrite(t, "games.pgn.zst", out.String())))
		if refused != errors.Is(err, zstd.ErrWindowSizeExceeded) || refused != (err != nil) {
			t.Errorf("window of %d bytes: %v", window, err)
		}
	}
}

// A full disk is told of with what to do, and the build goes on when there is room.
func TestDiskFull(t *testing.T) {
	o, want, report := interrupted(t)
	calls := 0
	o.pass = func(string) error {
		if calls++; calls == 4 {
			return fmt.Errorf("write run-00002.records: %w", syscall.ENOSPC)
		}
		return nil
	}
	if _, err := Run(t.Context(), o); !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "make room") {
		t.Fatal(err)
	}
	o.pass = nil
	same(t, mustBuild(t, o), report)
	if mustRead(t, o.Out) != want {
		t.Error("another file")
	}
}

// Without a single game there is nothing to build, and nothing is left behind.
func TestNoGame(t *testing.T) {
	for _, text := range []string{"", "\n", "no game in here", "[Event \"Club\"]\n\n*\n"} {
		o := options(t, mustWrite(t, "games.pgn", text))
		if _, err := Run(t.Context(), o); !errors.Is(err, ErrNoGame) {
			t.Errorf("%q: %v", text, err)
		}
		mustNotExist(t, o.Out)
		mustNotExist(t, o.Out+".work")
	}
}

// Merging a few at a time needs buffers that together stay within mergeMemory.
func TestMergeMemory(t *testing.T) {
	for _, n := range []int{1, 10, 64, 65, defaultSizes.fanIn} {
		if got := bufferFor(n); got > mergeBuffer || n*got > mergeMemory || got < recordBytes {
			t.Errorf("%d runs: %d bytes each", n, got)
		}
	}
}

// A rating or a year out of the bounds is taken for unknown.
func TestTagBounds(t *testing.T) {
	for text, want := range map[string]int{"0": 0, "-1": 0, "4000": ratingMost, "4001": 0, "x": 0, "2500 ": 0} {
		if got := ratingOf(text); got != want {
			t.Errorf("rating %q is %d, want %d", text, got, want)
		}
	}
	for text, want := range map[string]int{"1399.01.01": 0, "1400.01.01": yearLeast, "2200.01.01": yearMost, "2201.01.01": 0, "199?.??.??": 0, "1999/1/1": 1999, "": 0} {
		if got := yearOf(text); got != want {
			t.Errorf("year of %q is %d, want %d", text, got, want)
		}
	}
}
