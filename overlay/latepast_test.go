package overlay

import (
	"testing"
	"time"

	"clocktell/overlay/wire"
)

// figuresOf are what a line shows, -1 where nothing was drawn.
func figuresOf(line []*int64) []int64 {
	out := make([]int64, 0, len(line))
	for _, ms := range line {
		if ms == nil {
			out = append(out, -1)
		} else {
			out = append(out, *ms)
		}
	}
	return out
}

func last(line []*int64, n int) []int64 { return figuresOf(line[len(line)-n:]) }

func TestLatePast(t *testing.T) {
	start := time.Date(2026, 3, 14, 19, 0, 0, 0, time.UTC)
	var past latePast
	past.add("scene/board", []int64{10, 40, 20}, start)
	past.add("scene/wall", []int64{30, 400}, start.Add(4*time.Second))
	past.add("panel", []int64{700}, start.Add(4*time.Second))
	past.add("panel", nil, start.Add(30*time.Second))
	past.add("scene/clocks", []int64{9}, start.Add(3*latePiece))
	view := past.view(start.Add(4 * latePiece))
	if got := len(view.SceneMiddle); got != latePieces || len(view.SceneWorst) != got || len(view.OtherWorst) != got {
		t.Fatalf("lines of %d, %d and %d pieces, want %d", got, len(view.SceneWorst), len(view.OtherWorst), latePieces)
	}
	for _, row := range []struct {
		name      string
		got, want []int64
	}{
		{"middle", last(view.SceneMiddle, 5), []int64{30, -1, -1, 9, -1}},
		{"worst", last(view.SceneWorst, 5), []int64{400, -1, -1, 9, -1}},
		{"others", last(view.OtherWorst, 5), []int64{700, -1, -1, -1, -1}},
	} {
		for i, want := range row.want {
			if row.got[i] != want {
				t.Errorf("%s: %v, want %v", row.name, row.got, row.want)
				break
			}
		}
	}
}

// TestLatePastForgets holds it to ten minutes, whatever the clock of the machine does.
func TestLatePastForgets(t *testing.T) {
	start := time.Date(2026, 3, 14, 19, 0, 0, 0, time.UTC)
	var past latePast
	flood := make([]int64, 3*lateOfOne)
	past.add("scene/board", flood, start)
	if kept := len(past.pieces[len(past.pieces)-1].scenes); kept != lateOfOne {
		t.Errorf("%d figures kept of a piece, want %d", kept, lateOfOne)
	}
	for _, step := range []time.Duration{latePiece, time.Hour, -2 * time.Hour, 1000 * time.Hour} {
		view := past.view(start.Add(step))
		if len(past.pieces) != latePieces || len(view.SceneWorst) != latePieces {
			t.Errorf("after %v: %d pieces are kept, want %d", step, len(past.pieces), latePieces)
		}
	}
	if view := past.view(start.Add(2000 * time.Hour)); anything(view) {
		t.Error("something is left of what was weeks ago")
	}
}

func anything(view wire.LatePast) bool {
	for _, line := range [][]*int64{view.SceneMiddle, view.SceneWorst, view.OtherWorst} {
		for _, ms := range figuresOf(line) {
			if ms >= 0 {
				return true
			}
		}
	}
	return false
}
