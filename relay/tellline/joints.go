package tellline

import (
	"cmp"
	"math"
	"slices"

	"clocktell/relay/drawing"
)

// label is a move written at its press; x is the middle of the text.
type label struct {
	i, lane int
	text    string
	x       float64
}

// labels returns the moves that can be written at their joints, each beside its own lane.
// Not all have room: the new move and the last one go first, then the longest.
func (p *painter) labels() []label {
	var rows [2][][2]float64
	if p.Size.Flag != nil && !math.IsNaN(p.pole) {
		from, to := p.flagSpan()
		rows[0] = append(rows[0], [2]float64{from, to})
	}
	size := p.Size.Joints
	var placed []label
	for _, i := range p.byWorth() {
		if p.chart.isGone(i) {
			continue
		}
		ply := &p.g.Plies[i]
		l := label{i: i, lane: p.g.lane(ply.side()), text: ply.joint()}
		half := wide(l.text, size) / 2
		l.x = math.Min(math.Max(p.chart.joints[i+1], half), p.Width-half)
		if slices.ContainsFunc(rows[l.lane], func(t [2]float64) bool {
			return l.x-half-size*jointsApart < t[1] && l.x+half+size*jointsApart > t[0]
		}) {
			continue
		}
		rows[l.lane] = append(rows[l.lane], [2]float64{l.x - half, l.x + half})
		placed = append(placed, l)
	}
	slices.SortFunc(placed, func(a, b label) int { return a.i - b.i })
	return placed
}

// byWorth returns indices of the plies, those first that most want to be written.
func (p *painter) byWorth() []int {
	first := func(i int) int {
		worth := 0
		if slices.Contains(p.First, i) {
			worth += 4
		}
		if p.g.Plies[i].Number == p.g.Novelty {
			worth += 2
		}
		if i == len(p.g.Plies)-1 {
			worth++
		}
		return worth
	}
	order := make([]int, len(p.g.Plies))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(first(b)-first(a), cmp.Compare(p.g.Plies[b].Spent.Milliseconds(), p.g.Plies[a].Spent.Milliseconds()), b-a)
	})
	return order
}

// jointText is a move at its joint, with a thin line to it.
func (p *painter) jointText(l label) []drawing.Shape {
	size, joint := p.Size.Joints, p.chart.joints[l.i+1]
	edge := p.tops[0]
	y, from := edge-6, edge-4
	if l.lane == 1 {
		edge = p.tops[1] + p.Size.Lane
		y, from = edge+5+size*0.75, edge
	}
	return []drawing.Shape{rect(joint-1.5, from, 1.5, 4, p.Palette.Quiet), text(l.x, y, size, 500, p.Palette.Quiet, l.text)}
}
