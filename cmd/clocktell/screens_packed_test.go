package main

import (
	"image"
	"image/color"
	"testing"
)

// TestPackedKeepsColours: what fills a place comes back as it was, however little there is of it, and
// every other colour nearly so.
func TestPackedKeepsColours(t *testing.T) {
	p := image.NewRGBA(image.Rect(0, 0, 400, 100))
	for y := range 100 {
		for x := range 400 {
			c := color.RGBA{uint8(x * 7), uint8(x*y + x), uint8(y * 3), 255} // more than a palette holds
			switch {
			case y < 60:
				c = color.RGBA{18, 22, 28, 255}
			case x < 200 && y < 70:
				c = color.RGBA{20, 24, 30, 255} // near the other, and to be kept apart
			case x < 200 || y > 80:
				c = color.RGBA{}
			}
			p.SetRGBA(x, y, c)
		}
	}
	data, err := packed(p)
	if err != nil {
		t.Fatal(err)
	}
	back := unpacked(t, data)
	for y := range 100 {
		for x := range 400 {
			was, is := p.RGBAAt(x, y), back.RGBAAt(x, y)
			if by := apart(was, is); by > mixedError || by > 0 && isFlat(p, x, y) {
				t.Fatalf("%v at %d, %d comes back as %v", was, x, y, is)
			}
		}
	}
}
