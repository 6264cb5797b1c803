package main

import (
	"image"
	"image/color"
)

// By how much a picture may be another than the one that is kept.
const (
	edgeOther  = 64 // of 255: along an edge, less may be another renderer
	flatOther  = 8  // of 255: where a colour fills its place, less is its rounding
	mostOthers = 8  // pixels that may be other in one place
	place      = 16 // pixels, the side of a place: a letter of a sentence, a man of a wall
)

// unlike compares two pictures of one size: which pixels are other, and how many of them lie in the
// place that has most of them.
//
// Another renderer of shapes or type draws edges otherwise: the same shape, a part of a pixel
// aside. So along an edge a pixel is other only where its colour lies outside all that
// the other picture has around it, one pixel in each direction. That is asked of both
// pictures: of what has come and of what has gone. Where both are flat no edge excuses anything.
// What is left of another renderer is strewn over the picture, and what has changed is not.
func unlike(got, kept *image.RGBA) (*image.Gray, int) {
	out := image.NewGray(got.Rect)
	const half = place / 2 // places overlap by a half
	wide, high := got.Rect.Dx()/half+2, got.Rect.Dy()/half+2
	counts := make([]int, wide*high)
	for y := range got.Rect.Dy() {
		for x := range got.Rect.Dx() {
			if otherAt(got, kept, x, y) {
				out.Pix[y*out.Stride+x] = 255
				counts[y/half*wide+x/half]++
			}
		}
	}
	most := 0
	for i := range len(counts) - wide - 1 {
		most = max(most, counts[i]+counts[i+1]+counts[i+wide]+counts[i+wide+1])
	}
	return out, most
}

func otherAt(got, kept *image.RGBA, x, y int) bool {
	a, b := got.RGBAAt(x, y), kept.RGBAAt(x, y)
	by := apart(a, b)
	if by > edgeOther && (outside(a, kept, x, y) > edgeOther || outside(b, got, x, y) > edgeOther) {
		return true
	}
	return by > flatOther && isFlat(got, x, y) && isFlat(kept, x, y)
}

// isFlat reports that nothing but one colour is around a place.
func isFlat(p *image.RGBA, x, y int) bool {
	low, high := around(p, x, y)
	return low == high
}

// outside is by how much a colour lies outside what is around a place of a picture.
func outside(c color.RGBA, p *image.RGBA, x, y int) int {
	low, high := around(p, x, y)
	worst := 0
	for i, v := range [4]uint8{c.R, c.G, c.B, c.A} {
		worst = max(worst, int(low[i])-int(v), int(v)-int(high[i]))
	}
	return worst
}

// around is the least and the most of each channel at a place and one pixel around it.
func around(p *image.RGBA, x, y int) (low, high [4]uint8) {
	low = [4]uint8{255, 255, 255, 255}
	for ny := max(0, y-1); ny <= min(p.Rect.Dy()-1, y+1); ny++ {
		for nx := max(0, x-1); nx <= min(p.Rect.Dx()-1, x+1); nx++ {
			for i, v := range p.Pix[ny*p.Stride+4*nx:][:4] {
				low[i], high[i] = min(low[i], v), max(high[i], v)
			}
		}
	}
	return low, high
}
