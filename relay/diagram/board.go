// Package diagram draws positions: squares, pieces, the last move and what was pointed at.
// Pieces and marks are those of the pages (static/pieces, static/lib/pointing.js), for
// pictures and papers that are made without a browser.
package diagram

import (
	"fmt"
	"strings"

	"clocktell/relay/drawing"
)

// Square is the side of a square in a diagram's pixels.
const Square = 100

// Edge is the room around the board, in which nothing but its frame is drawn.
const Edge = 6

// Position is what a diagram shows.
type Position struct {
	FEN      string
	From, To string // of the last move; "" none
	Marks    []Mark
	Turned   bool // Black below
	Title    string
}

// Mark points at a square, or from one to another; see desk.Mark.
type Mark struct{ Kind, From, To string }

const (
	light = "#eef0f2" // as papers have the squares
	dark  = "#a9b3bc"
	ink   = "#12161c"
	last  = "#f0e442"
)

// Draw draws a position.
func Draw(p Position) *drawing.Drawing {
	d := &drawing.Drawing{Width: 8*Square + 2*Edge, Height: 8*Square + 2*Edge, Title: p.Title}
	var board []drawing.Shape
	for i := range 64 {
		x, y, fill := i%8, i/8, light
		if (x+y)%2 == 1 {
			fill = dark
		}
		board = append(board, drawing.Shape{Kind: drawing.Rect, X: float64(x * Square), Y: float64(y * Square), W: Square, H: Square, Fill: fill})
	}
	board = append(board, coordinates(p.Turned)...)
	if p.From != "" && p.To != "" {
		board = append(board, cased(corners(place(p.From, p.Turned)))...)
		board = append(board, cased(frame(place(p.To, p.Turned)))...)
	}
	standing := make(map[string]bool)
	for square, letter := range pieces(p.FEN) {
		standing[square] = letter != 0
	}
	for _, square := range squares {
		if letter := pieces(p.FEN)[square]; letter != 0 {
			x, y := place(square, p.Turned)
			board = append(board, drawing.Moved(piece(letter), x, y)...)
		}
	}
	for _, m := range p.Marks {
		board = append(board, pointed(m, p.Turned, standing[m.To])...)
	}
	board = append(board, drawing.Shape{Kind: drawing.Rect, X: -Edge / 2, Y: -Edge / 2, W: 8*Square + Edge, H: 8*Square + Edge, Stroke: ink, Thick: Edge / 2})
	d.Add(drawing.Moved(board, Edge, Edge)...)
	return d
}

// squares lists all of them, from a8 to h1.
var squares = func() []string {
	var out []string
	for rank := '8'; rank >= '1'; rank-- {
		for file := 'a'; file <= 'h'; file++ {
			out = append(out, string(file)+string(rank))
		}
	}
	return out
}()

// pieces returns what stands on the squares of a FEN.
func pieces(fen string) map[string]byte {
	placement, _, _ := strings.Cut(fen, " ")
	out := make(map[string]byte)
	for i, row := range strings.Split(placement, "/") {
		file := 0
		for _, c := range row {
			if c >= '1' && c <= '8' {
				file += int(c - '0')
				continue
			}
			if i < 8 && file < 8 && strings.ContainsRune("KQRBNPkqrbnp", c) {
				out[fmt.Sprintf("%c%d", 'a'+file, 8-i)] = byte(c)
			}
			file++
		}
	}
	return out
}

// place returns the upper left corner of a square.
func place(square string, turned bool) (x, y float64) {
	file, rank := int(square[0]-'a'), int('8'-square[1])
	if turned {
		file, rank = 7-file, 7-rank
	}
	return float64(file * Square), float64(rank * Square)
}

func frame(x, y float64) string { return fmt.Sprintf("M%g %gh89.8v89.8h-89.8z", x+5.1, y+5.1) }

func corners(x, y float64) string {
	const a, b, arm = 5.1, 94.9, 22.0
	return fmt.Sprintf("M%g %gv%gh%gM%g %gh%gv%g", x+a, y+a+arm, -arm, arm, x+b-arm, y+a, arm, arm) +
		fmt.Sprintf("M%g %gv%gh%gM%g %gh%gv%g", x+b, y+b-arm, arm, -arm, x+a+arm, y+b, -arm, -arm)
}

// cased draws a line in the colour of the last move, edged with ink.
func cased(d string) []drawing.Shape {
	line := drawing.Shape{Kind: drawing.Path, D: d, Stroke: ink, Thick: 10.2}
	inner := line
	inner.Stroke, inner.Thick = last, 6.1
	return []drawing.Shape{line, inner}
}

// coordinates are small, inside of the outer squares.
func coordinates(turned bool) []drawing.Shape {
	var out []drawing.Shape
	write := func(x, y float64, say string, anchor drawing.Anchor) {
		out = append(out, drawing.Shape{Kind: drawing.Text, X: x, Y: y, Say: say, Size: 23, Weight: 600, Fill: ink, Anchor: anchor})
	}
	for i := range 8 {
		file, rank := string(rune('a'+i)), string(rune('8'-i))
		if turned {
			file, rank = string(rune('h'-i)), string(rune('1'+i))
		}
		write(float64(i*Square+Square)-5, 8*Square-7, file, drawing.End)
		write(5, float64(i*Square)+24, rank, "")
	}
	return out
}
