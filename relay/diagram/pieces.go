package diagram

import "clocktell/relay/drawing"

// man is a piece as static/pieces/pieces.js has it, in a square of 100: TestPieces holds
// this table to that.
type man struct {
	slab   [2]float64 // left and right end of the foot
	solids []string
	cuts   []string   // lines left open
	eye    [3]float64 // middle and radius of a hole; no radius: none
	ball   [3]float64 // of a solid disc
}

var men = map[byte]man{
	'P': {slab: [2]float64{25, 75}, solids: []string{"M32 77.5C40 70 43 64 43.5 57H56.5C57 64 60 70 68 77.5Z"}, ball: [3]float64{50, 40.5, 14.5}},
	'R': {slab: [2]float64{21, 79}, solids: []string{
		"M29 77.5L34.5 46.5H65.5L71 77.5Z",
		"M26 43V19Q26 16.5 28.5 16.5H37.5V25.5H44.5V16.5H55.5V25.5H62.5V16.5H71.5Q74 16.5 74 19V43Z",
	}},
	'N': {slab: [2]float64{22, 79}, solids: []string{
		"M31 77.5C31 64 46 61 48.5 49C43.5 54 37.5 54.5 33.5 58C31 61.5 29 64 25.5 64C19.5 63.5 15.5 58 16.5 52.5" +
			"C21 46.5 24.5 40.5 27 33.5C29 27.5 32.5 23 37.5 20L39 11L48.5 17.5C65 20 77 36 77 58C77 65 76 72 74.5 77.5Z",
	}, cuts: []string{"M63.5 23.5L56.5 32.5", "M72.5 35.5L62.5 41", "M77 50.5L65.5 51.5"}, eye: [3]float64{38, 33.5, 3.1}},
	'B': {slab: [2]float64{23, 77}, solids: []string{
		"M31 77.5C39.5 71 42 66 42.5 60.5H57.5C58 66 60.5 71 69 77.5Z",
		"M50 17C61 25.5 69 35.5 69 44.5C69 50.5 65.5 57 61 57H39C34.5 57 31 50.5 31 44.5C31 35.5 39 25.5 50 17Z",
	}, cuts: []string{"M51 44L62.5 27"}},
	'Q': {slab: [2]float64{22, 78}, solids: []string{
		"M31 77.5C37.5 72 39.5 67.5 39 62.5Q50 57 61 62.5C60.5 67.5 62.5 72 69 77.5Z",
		"M29.4 62.3L13.1 37.1L13.9 25L24.3 31.1L36.1 58.7Z",
		"M37.4 58.2L26.9 27.5L30.8 15.9L39.6 24.3L44.8 56.4Z",
		"M46.2 56.2L43.2 21.3L50 11L56.8 21.3L53.8 56.2Z",
		"M62.6 58.2L73.1 27.5L69.2 15.9L60.4 24.3L55.2 56.4Z",
		"M70.6 62.3L86.9 37.1L86.1 25L75.7 31.1L63.9 58.7Z",
	}},
	'K': {slab: [2]float64{22, 78}, solids: []string{
		"M31 77.5C37.5 72 39.5 67.5 39 60.5H61C60.5 67.5 62.5 72 69 77.5Z",
		"M36 57L26 36Q36 27.5 50 27.5Q64 27.5 74 36L64 57Z",
		"M45.6 24.2V20.4H38.5V12.6H45.6V7H54.4V12.6H61.5V20.4H54.4V24.2Z",
	}},
}

// Figurine is the place of each figurine in text: its left and right end.
var Figurine = map[byte][2]float64{'P': {24, 76}, 'R': {20, 80}, 'N': {15, 80}, 'B': {22, 78}, 'Q': {12, 88}, 'K': {21, 79}}

// colours of a piece.
type colours struct {
	fill, edge string
	stroke     float64
	cut        float64
}

var (
	whiteMan = colours{"#fbfaf6", "#12161c", 6.4, 3.6}
	blackMan = colours{"#1b222b", "#f3f1ec", 4.6, 3.2}
)

// piece draws a piece into a square of 100: all edges lie under all fills.
func piece(letter byte) []drawing.Shape {
	c := whiteMan
	if letter >= 'a' {
		c = blackMan
		letter -= 'a' - 'A'
	}
	m := men[letter]
	var out []drawing.Shape
	for _, s := range m.outlines() {
		s.Fill, s.Stroke, s.Thick, s.Round = c.edge, c.edge, c.stroke, true
		out = append(out, s)
	}
	for _, s := range m.outlines() {
		s.Fill = c.fill
		out = append(out, s)
	}
	out = append(out, m.holes(c.edge, c.cut)...)
	return drawing.Placed(out, drawing.Move{X: 3, Y: 1.8, By: 0.94})
}

// Outlines returns a figurine for text, with what is left open in another colour.
func Outlines(letter byte, fill, ground string) []drawing.Shape {
	m := men[letter]
	var out []drawing.Shape
	for _, s := range m.outlines() {
		s.Fill = fill
		out = append(out, s)
	}
	return append(out, m.holes(ground, 4)...)
}

func (m *man) outlines() []drawing.Shape {
	var out []drawing.Shape
	for _, d := range m.solids {
		out = append(out, drawing.Shape{Kind: drawing.Path, D: d})
	}
	out = append(out, drawing.Shape{Kind: drawing.Rect, X: m.slab[0], Y: 81, W: m.slab[1] - m.slab[0], H: 9, R: 3.5})
	if m.ball[2] > 0 {
		out = append(out, drawing.Shape{Kind: drawing.Circle, X: m.ball[0], Y: m.ball[1], R: m.ball[2]})
	}
	return out
}

func (m *man) holes(colour string, width float64) []drawing.Shape {
	var out []drawing.Shape
	for _, d := range m.cuts {
		out = append(out, drawing.Shape{Kind: drawing.Path, D: d, Stroke: colour, Thick: width, Round: true})
	}
	if m.eye[2] > 0 {
		out = append(out, drawing.Shape{Kind: drawing.Circle, X: m.eye[0], Y: m.eye[1], R: m.eye[2], Fill: colour})
	}
	return out
}
