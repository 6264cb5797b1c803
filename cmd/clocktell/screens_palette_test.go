package main

import (
	"bytes"
	"cmp"
	"errors"
	"image"
	"image/color"
	"image/png"
	"maps"
	"slices"
)

// mixedError is by how much colours of mixtures along edges may be kept other than they are, of
// 255, so that a palette of 256 does. Whatever fills a place is kept as it is.
const mixedError = 24

var errManyColours = errors.New("a picture has more than 256 colours apart")

// packed is a picture as a PNG with a palette.
func packed(p *image.RGBA) ([]byte, error) {
	colours, err := paletteOf(p)
	if err != nil {
		return nil, err
	}
	out := image.NewPaletted(p.Rect, nil)
	for _, c := range colours {
		out.Palette = append(out.Palette, c)
	}
	nearest := make(map[color.RGBA]uint8)
	for i := range out.Pix {
		c := color.RGBA{p.Pix[4*i], p.Pix[4*i+1], p.Pix[4*i+2], p.Pix[4*i+3]}
		n, known := nearest[c]
		if !known {
			n = uint8(slices.Index(colours, slices.MinFunc(colours, func(a, b color.RGBA) int { return cmp.Compare(apart(a, c), apart(b, c)) })))
			nearest[c] = n
		}
		out.Pix[i] = n
	}
	var data bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	err = encoder.Encode(&data, out)
	return data.Bytes(), err
}

// paletteOf takes the colours of a picture, the frequent ones first, and leaves out mixtures that
// are near enough to another one.
func paletteOf(p *image.RGBA) ([]color.RGBA, error) {
	count, fills := make(map[color.RGBA]int), make(map[color.RGBA]bool)
	for y := range p.Rect.Dy() {
		for x := range p.Rect.Dx() {
			c := p.RGBAAt(x, y)
			count[c]++
			if !fills[c] && isFlat(p, x, y) {
				fills[c] = true
			}
		}
	}
	order := slices.SortedFunc(maps.Keys(count), func(a, b color.RGBA) int {
		return cmp.Or(cmp.Compare(count[b], count[a]), slices.Compare([]byte{a.R, a.G, a.B, a.A}, []byte{b.R, b.G, b.B, b.A}))
	})
	var out []color.RGBA
	for _, c := range order {
		near := func(k color.RGBA) bool { return apart(k, c) <= mixedError }
		if !fills[c] && slices.ContainsFunc(out, near) {
			continue
		}
		if out = append(out, c); len(out) > 256 {
			return nil, errManyColours
		}
	}
	return out, nil
}

// apart is by how much two colours differ, in the channel in which they differ most. Channels are
// taken as they are coded, which is about as the eye sees steps of light: a wrong dark
// shade counts as much as a wrong light one.
func apart(a, b color.RGBA) int {
	return max(gap(a.R, b.R), gap(a.G, b.G), gap(a.B, b.B), gap(a.A, b.A))
}

func gap(a, b uint8) int { return int(max(a, b) - min(a, b)) }

// reduced is a picture made smaller by averaging squares of n by n pixels.
func reduced(p *image.RGBA, n int) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, p.Rect.Dx()/n, p.Rect.Dy()/n))
	row := make([]int, 4*out.Rect.Dx())
	for y := range out.Rect.Dy() {
		clear(row)
		for line := range n {
			pix := p.Pix[(y*n+line)*p.Stride:]
			for i := range row {
				for k := range n {
					row[i] += int(pix[(i/4*n+k)*4+i%4])
				}
			}
		}
		for i, sum := range row {
			out.Pix[y*out.Stride+i] = uint8((sum + n*n/2) / (n * n))
		}
	}
	return out
}
