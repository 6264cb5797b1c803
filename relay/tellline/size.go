package tellline

import (
	"math"
	"strings"
)

// Size is a row of static/lib/tellsizes.js, which says what each measure is.
type Size struct {
	Lane, Gap, Over, Under  float64
	Least, Floor            float64
	Tick, Rest              float64
	Lines, Hatch, Dots      [2]float64
	Head                    [2]float64
	Pole                    float64
	Flag                    *[3]float64
	Sign                    float64
	Tear                    [2]float64
	Time, Axis, Now, Joints float64
}

// The sizes that papers use.
var (
	Recap = Size{
		Lane: 48, Gap: 24, Over: 30, Under: 28, Least: 6, Floor: 4, Tick: 5, Rest: 2,
		Lines: [2]float64{8, 3}, Hatch: [2]float64{12, 5}, Dots: [2]float64{10, 1.6}, Head: [2]float64{4, 4},
		Pole: 4, Flag: &[3]float64{60, 24, 19}, Sign: 16, Tear: [2]float64{64, 19}, Time: 24, Axis: 18, Joints: 18,
	}
	Panel = Size{
		Lane: 20, Gap: 4, Over: 18, Under: 3, Least: 4, Floor: 3, Tick: 3, Rest: 1,
		Lines: [2]float64{5, 2}, Hatch: [2]float64{7, 3}, Dots: [2]float64{6, 1.1}, Head: [2]float64{3, 3},
		Pole: 3, Flag: &[3]float64{38, 15, 13}, Sign: 10, Tear: [2]float64{44, 14}, Time: 14,
	}
)

// Height returns the height of the whole drawing.
func (s *Size) Height() float64 { return s.tops()[1] + s.Lane + s.Under }

func (s *Size) tops() [2]float64 { return [2]float64{s.Over, s.Over + s.Lane + s.Gap} }

// Shares of type, as in tellsizes.js.
const (
	lowShare     = 0.68
	figureWide   = 0.56
	betweenWide  = 0.28
	baseline     = 0.35
	casing       = 2.0
	edgeShare    = 0.17
	axisEnd      = 30.0
	clearFigure  = 20.0
	clearMark    = 14.0
	apartFigures = 5.0
	apartMarks   = 24.0
	beside       = 0.4
	jointsApart  = 0.5
	shortestRow  = 9.0
)

// wide returns about how wide a text is, never less than it is.
func wide(text string, size float64) float64 {
	sum := 0.0
	for _, c := range text {
		if strings.ContainsRune(":. \t\n\u00a0", c) {
			sum += size * betweenWide
		} else {
			sum += size * figureWide
		}
	}
	return sum
}

// low returns the height of what was played from preparation: whole speed lines.
func (s *Size) low() float64 {
	pitch, line := s.Lines[0], s.Lines[1]
	between := pitch - line
	return math.Floor((lowShare*s.Lane+between)/pitch+0.5)*pitch - between
}
