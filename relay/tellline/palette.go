package tellline

import "clocktell/relay/drawing"

// Palette is the colours of a drawing, each for one meaning.
type Palette struct {
	Preparation, Thinking, Hollow, Trouble, Hatch, Novelty string
	Lane, Ahead                                            string // time that has passed, and that is to come
	Text, Quiet                                            string
	Ground                                                 string // what cuts into the lanes
	OnThinking, OnNovelty                                  string // text on these
}

// Paper is for white paper. Against white, or what they stand on, its colours keep 3:1 for
// shapes and 4.5:1 for text.
var Paper = Palette{
	Preparation: "#1f86c6", Thinking: "#f0b23a", Hollow: "#8a5a00", Trouble: "#d55e00", Hatch: "#ffffff", Novelty: "#9a3f72",
	Lane: "#e9ecef", Ahead: "#f5f6f8", Text: "#12161c", Quiet: "#46505b", Ground: "#ffffff", OnThinking: "#12161c", OnNovelty: "#ffffff",
}

// Names of the patterns; the figure is that of the lane.
var (
	linesIn = [2]string{"lines0", "lines1"}
	dotsIn  = [2]string{"dots0", "dots1"}
)

const hatched = "hatch"

func patterns(s *Size, p *Palette) []drawing.Pattern {
	tops := s.tops()
	return []drawing.Pattern{
		{Name: linesIn[0], Kind: drawing.Lines, Pitch: s.Lines[0], Thick: s.Lines[1], Y: tops[0] + s.Lane - s.low(), One: p.Preparation},
		{Name: linesIn[1], Kind: drawing.Lines, Pitch: s.Lines[0], Thick: s.Lines[1], Y: tops[1], One: p.Preparation},
		{Name: hatched, Kind: drawing.Bands, Pitch: s.Hatch[0], Thick: s.Hatch[1], One: p.Trouble, Two: p.Hatch},
		{Name: dotsIn[0], Kind: drawing.Dots, Pitch: s.Dots[0], Thick: s.Dots[1], Y: tops[0], One: p.Quiet},
		{Name: dotsIn[1], Kind: drawing.Dots, Pitch: s.Dots[0], Thick: s.Dots[1], Y: tops[1], One: p.Quiet},
	}
}
