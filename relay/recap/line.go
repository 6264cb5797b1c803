package recap

import (
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/drawing"
	"clocktell/relay/tell"
	"clocktell/relay/tellline"
)

// Measures of the tell line on paper, in pixels of a page 1240 wide.
const (
	lineWide   = 1096.0 // all of it, names included
	namesWide  = 150.0
	phoneWide  = 372.0
	badgeRow   = 36.0
	badge      = 14.0 // radius
	badgeApart = 31.0
)

// lineGame returns a game as the tell line draws it, Black above.
func lineGame(g *Game, in *Words) *tellline.Game {
	b := g.Board
	out := &tellline.Game{Step: b.Control.Reads.Step, New: in.New, Top: tellline.Black, Head: headOf(g)}
	for i := range b.Plies {
		p := &b.Plies[i]
		ply := tellline.Ply{
			Number: b.HalfMove(i), SAN: in.san(p.SAN), Spent: p.Timed.Spent, Quality: p.Timed.SpentQuality.String(), Look: string(p.Look), Mark: markOf(p),
		}
		out.Plies = append(out.Plies, ply)
	}
	if i := g.novelty(); i >= 0 {
		out.Novelty = b.HalfMove(i)
	}
	return out
}

// markOf says what is the matter with the reading of a ply; "" nothing.
func markOf(p *relay.Ply) string {
	switch {
	case p.Misread != "":
		return tellline.MarkUnread
	case p.Timed.Doubt != "":
		return tellline.MarkDoubtful
	case p.Mended != "":
		return tellline.MarkMended
	}
	return ""
}

// headOf returns the present of a game that is under way.
func headOf(g *Game) tellline.Head {
	b := g.Board
	side, runs := b.Running()
	switch {
	case !runs:
		return tellline.Head{}
	case b.Held():
		return tellline.Head{Held: true, Dots: b.Elapsed(b.HeldAt).Truncate(time.Millisecond)}
	case b.Last(side).LeftQuality == clock.QualityNone:
		return tellline.Head{Held: true}
	}
	return tellline.Head{Runs: true, Side: tellline.Side(side), Look: runningLook(b, side), Run: b.Elapsed(g.At).Truncate(time.Millisecond)}
}

// Probabilities from which a running think is drawn as a full block, and as a hollow one.
const (
	sureThinking   = 0.9
	likelyThinking = 0.5
)

func runningLook(b *relay.Board, side clock.Side) string {
	call := b.Calls[side]
	switch {
	case b.Levels[side].Level >= relay.TroubleShows:
		return tellline.LookTrouble
	case call.Verdict == tell.InPreparation && call.Thinking < likelyThinking:
		return tellline.LookPreparation
	case call.Verdict == tell.Thinking && call.Thinking >= sureThinking:
		return tellline.LookThinking
	case call.Verdict == tell.NoClock:
		return tellline.LookNone
	}
	return tellline.LookUnsure
}

// badgeAt is a key moment on the tell line.
type badgeAt struct {
	letter string
	ply    int // index
}

// drawLine draws the tell line with the names at its lanes and the letters of the key moments.
func drawLine(g *Game, in *Words, badges []badgeAt, narrow bool) *drawing.Drawing {
	style := tellline.Style{Size: tellline.Recap, Width: lineWide - namesWide, Palette: tellline.Paper, Moves: true, Fills: true}
	for _, b := range badges {
		style.First = append(style.First, b.ply)
	}
	left, width := namesWide, lineWide
	if narrow {
		style.Size, style.Width, left, width = onPhone(), phoneWide, 0, phoneWide
	}
	line := tellline.Draw(lineGame(g, in), style)
	top := badgeRow
	if narrow {
		top += nameRow
	}
	d := &drawing.Drawing{
		Width: width, Height: top + line.Height + badgeRow, Title: in.LineTitle, Patterns: line.Patterns, Ground: "",
	}
	if narrow {
		d.Height += nameRow
	}
	d.Add(laneNames(g, in, style, top, narrow, d.Height)...)
	leaders, letters := badgesOf(g, line, badges, left, top, style)
	d.Add(leaders...)
	d.Add(drawing.Moved(line.Shapes, left, top)...)
	d.Add(letters...)
	return d
}

// onPhone is the size for narrow pages: smaller measures, so that a game of usual length is
// shown whole.
func onPhone() tellline.Size {
	s := tellline.Recap
	s.Least, s.Floor, s.Tick, s.Rest = 4, 2, 3, 1
	s.Joints, s.Axis, s.Time = 15, 15, 17
	return s
}

const nameRow = 26.0 // for a name above its lane

// laneNames writes who plays a lane, and what was left at the end.
func laneNames(g *Game, in *Words, style tellline.Style, top float64, narrow bool, height float64) []drawing.Shape {
	var out []drawing.Shape
	for _, side := range []clock.Side{clock.White, clock.Black} {
		lane := 1 - int(side) // Black above
		y := top + style.Lanes()[lane]
		name, left := legibleName(g, in, side), leftAtEnd(g, in, side)
		x, line := 0.0, y+21
		if narrow {
			line = 18
			if lane == 1 {
				line = height - 8
			}
		}
		out = append(out, sideSwatch(x, line-13, side), write(x+20, line, 19, 600, ink, shorten(name, 19, namesWide-24, narrow)))
		switch {
		case left == "":
		case narrow:
			shape := write(style.Width, line, 16, 500, quiet, left)
			shape.Anchor = drawing.End
			out = append(out, shape)
		default:
			out = append(out, write(x+20, line+21, 16, 500, quiet, left))
		}
	}
	return out
}

const (
	ink   = "#12161c"
	quiet = "#46505b"
)

func write(x, y, size float64, weight int, fill, say string) drawing.Shape {
	return drawing.Shape{Kind: drawing.Text, X: x, Y: y, Size: size, Weight: weight, Fill: fill, Say: say}
}

// legibleName is how a side is called, or its colour where the type has no letters for that.
func legibleName(g *Game, in *Words, side clock.Side) string {
	if name := g.Board.Called(side); drawing.Legible(name) {
		return name
	}
	return in.colour(side)
}

// shorten cuts a name that is wider than its room.
func shorten(name string, size, room float64, narrow bool) string {
	if narrow {
		room = phoneWide / 2
	}
	runes := []rune(name)
	for len(runes) > 1 && drawing.Width(string(runes), size, 600) > room {
		runes = runes[:len(runes)-1]
	}
	if len(runes) < len([]rune(name)) {
		return string(runes[:len(runes)-1]) + "…"
	}
	return name
}

// sideSwatch is the sample of a side's colour before its name.
func sideSwatch(x, y float64, side clock.Side) drawing.Shape {
	s := drawing.Shape{Kind: drawing.Rect, X: x + 1, Y: y, W: 12, H: 12, Stroke: ink, Thick: 2}
	if side == clock.Black {
		s.Fill = ink
	}
	return s
}

// badgesOf are the letters of the key moments: above the lanes for moves of the upper one,
// below for the others, each near its move.
func badgesOf(g *Game, line *tellline.Line, badges []badgeAt, left, top float64, style tellline.Style) (leaders, letters []drawing.Shape) {
	for lane := range 2 {
		y, from := top-badgeRow/2, top+style.Size.Over
		if lane == 1 {
			y, from = top+style.Size.Height()+badgeRow/2, top+style.Size.Height()-style.Size.Under
		}
		var own []badgeAt
		for _, b := range badges {
			if _, side := g.Board.MoveNumber(b.ply); 1-int(side) == lane {
				own = append(own, b)
			}
		}
		for i, x := range spread(own, line, style.Width) {
			if !line.Written(own[i].ply) {
				leaders = append(leaders, leader(left+x, y, left+line.Joint(own[i].ply), from))
			}
			letter := write(left+x, y+6.5, 18, 700, "#ffffff", own[i].letter)
			letter.Anchor = drawing.Middle
			letters = append(letters, drawing.Shape{Kind: drawing.Circle, X: left + x, Y: y, R: badge, Fill: ink}, letter)
		}
	}
	return leaders, letters
}

// spread returns where badges stand, each as near to its joint as the others and the ends of
// the lane let it.
func spread(badges []badgeAt, line *tellline.Line, width float64) []float64 {
	out := make([]float64, len(badges))
	least := badge
	for i, b := range badges {
		out[i] = max(line.Joint(b.ply), least)
		least = out[i] + badgeApart
	}
	most := width - badge
	for i := len(out) - 1; i >= 0; i-- {
		out[i] = min(out[i], most)
		most = out[i] - badgeApart
	}
	return out
}

// leader joins a letter to the edge of its lane.
func leader(x, y, joint, edge float64) drawing.Shape {
	return drawing.Shape{Kind: drawing.Path, D: pathOf("M%s %sL%s %s", x, y, joint, edge), Stroke: ink, Thick: 1.5}
}
