package main

import (
	"flag"
	"fmt"
	"image"
	"image/png"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the pictures of the scenes")

// TestScreens takes a picture of every scene in every state at three sizes, and compares it with the
// one that is kept. Nothing is drawn outside the graphics-safe area.
func TestScreens(t *testing.T) {
	browser(t) // without one all is skipped, or fails, and not its parts alone
	var want []string
	for _, scene := range screenScenes {
		for name := range scene.states {
			for _, size := range airSizes {
				want = append(want, keptPath(scene.name, name, size))
			}
		}
		t.Run(scene.name, func(t *testing.T) {
			t.Parallel()
			ctx, url := screenBrowser(t), pagesOf(t)
			for _, name := range slices.Sorted(maps.Keys(scene.states)) {
				s := scene.states[name](t)
				for _, size := range airSizes {
					p := s.taken(t, ctx, url, scene.name, size)
					checkDrawn(t, fmt.Sprintf("%s, %s at %v", scene.name, name, size), p, s.empty)
					checkKept(t, keptPath(scene.name, name, size), asKept(p))
				}
			}
		})
	}
	kept, err := filepath.Glob(filepath.Join(root, "testdata/screens/*/*.png"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range kept {
		if !slices.Contains(want, file) {
			t.Errorf("%s is the picture of no state", file)
		}
	}
}

// keptPath is where the picture of a state is kept.
func keptPath(scene, state string, size [2]int64) string {
	return filepath.Join(root, "testdata/screens", scene, fmt.Sprintf("%s-%d.png", state, size[0]))
}

// asKept is a picture at the size at which it is kept: the largest are kept at a quarter, for all
// sizes are one drawing, whose details the others have.
func asKept(p *image.RGBA) *image.RGBA {
	if p.Rect.Dx() == 3840 {
		return reduced(p, 4)
	}
	return p
}

// checkDrawn holds a picture to the graphics-safe area, to the pixel.
func checkDrawn(t *testing.T, what string, p *image.RGBA, empty bool) {
	t.Helper()
	drawn, safe := drawnIn(p)
	if !drawn.In(safe) {
		t.Errorf("%s: something is drawn in %v, which leaves the safe area %v", what, drawn, safe)
	}
	if drawn.Empty() != empty {
		t.Errorf("%s: drawn in %v", what, drawn)
	}
}

// drawnIn is the box of all pixels that are not wholly clear, and the graphics-safe area.
func drawnIn(p *image.RGBA) (drawn, safe image.Rectangle) {
	for y := range p.Rect.Dy() {
		for x := range p.Rect.Dx() {
			if p.Pix[y*p.Stride+4*x+3] != 0 {
				drawn = drawn.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	box := graphicsSafe([2]float64{float64(p.Rect.Dx()), float64(p.Rect.Dy())})
	return drawn, image.Rect(int(box[0]), int(box[1]), int(box[2]), int(box[3]))
}

// checkKept compares a picture with the one that is kept, or keeps it.
func checkKept(t *testing.T, path string, got *image.RGBA) {
	t.Helper()
	if *update {
		keep(t, path, got)
		return
	}
	others, count := unlike(got, kept(t, path, got.Rect))
	if count <= mostOthers {
		return
	}
	t.Errorf("%s: %d pixels of one place are other, at most %d may be; look at it, and if it is meant to be so, run with -update", path, count, mostOthers)
	if folder := os.Getenv("CLOCKTELL_PICTURES"); folder != "" {
		name := filepath.Join(folder, "screen-"+filepath.Base(filepath.Dir(path))+"-"+filepath.Base(path[:len(path)-len(".png")]))
		leave(t, name+".png", got)
		leave(t, name+"-other.png", others)
	}
}

// kept is a picture that is kept; of another size than it should be, it is none.
func kept(t *testing.T, path string, size image.Rectangle) *image.RGBA {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v: no picture of it is kept; -update makes one", err)
	}
	p := unpacked(t, data)
	if p.Rect != size {
		t.Fatalf("%s is of the size %v, want %v", path, p.Rect.Max, size.Max)
	}
	return p
}

func keep(t *testing.T, path string, p *image.RGBA) {
	t.Helper()
	data, err := packed(p)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

func leave(t *testing.T, path string, p image.Image) {
	t.Helper()
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if err := png.Encode(file, p); err != nil {
		t.Error(err)
	}
}
