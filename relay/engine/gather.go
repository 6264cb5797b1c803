package engine

import (
	"time"

	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// gathering is what one search has told so far.
type gathering struct {
	place bitboard.Position
	now   []opinion.Line // the newest of each number, best first; a line without moves: none yet
	whole []opinion.Line // as of the last depth at which all were searched to the end
	steps []opinion.Step
	nodes uint64
}

// gather begins with a position for which the engine is asked so many lines.
func gather(place bitboard.Position, lines int) *gathering {
	moves := place.Moves(make([]bitboard.Move, 0, bitboard.MaxMoves))
	return &gathering{place: place, now: make([]opinion.Line, min(lines, len(moves)))}
}

// take takes in what an info line says. It returns what was wrong with it, "" nothing.
func (g *gathering) take(in info) Reason {
	g.nodes = max(g.nodes, in.nodes)
	if len(in.moves) == 0 || !in.scored {
		return ""
	}
	if in.multi > len(g.now) || in.depth < 1 {
		return FaultRubbish
	}
	moves, legal := g.playable(in.moves)
	if len(moves) == 0 {
		return FaultIllegal
	}
	white := g.place.Turn() == bitboard.White
	line := opinion.Line{Score: in.score.From(white), Chances: in.chances, Depth: in.depth, Moves: moves}
	if in.chances != nil && !white {
		line.Chances = &opinion.Chances{Win: in.chances.Loss, Draw: in.chances.Draw, Loss: in.chances.Win}
	}
	g.now[in.multi-1] = line
	g.complete()
	if !legal {
		return FaultIllegal
	}
	return ""
}

// playable returns the moves of a line up to the first that cannot be played, and
// whether that was none.
func (g *gathering) playable(texts []string) ([]bitboard.Move, bool) {
	p := g.place
	var moves []bitboard.Move
	for _, text := range texts[:min(len(texts), movesMost)] {
		m, legal := moveOf(&p, text)
		if !legal {
			return moves, false
		}
		moves = append(moves, m)
		p.Make(m)
	}
	return moves, true
}

// complete notes a depth at which all lines have been searched to the end.
func (g *gathering) complete() {
	depth := g.now[0].Depth
	for i, line := range g.now {
		if line.Depth != depth || line.Score.Bound != opinion.Exact || g.comesBefore(i) {
			return
		}
	}
	g.whole = append(g.whole[:0:0], g.now...)
	step := opinion.Step{Depth: depth, First: g.now[0].First(), Score: g.now[0].Score}
	for len(g.steps) > 0 && g.steps[len(g.steps)-1].Depth >= depth {
		g.steps = g.steps[:len(g.steps)-1]
	}
	g.steps = append(g.steps, step)
}

// comesBefore reports whether the line at index i begins as one before it does.
func (g *gathering) comesBefore(i int) bool {
	for _, other := range g.now[:i] {
		if other.First() == g.now[i].First() {
			return true
		}
	}
	return false
}

// opinion returns what has been found; false: nothing. While no depth is whole, it is
// whatever lines there are, with their bounds.
func (g *gathering) opinion(name string, given, took time.Duration, final bool) (opinion.Opinion, bool) {
	lines := g.whole
	if len(lines) == 0 {
		for i, line := range g.now {
			if len(line.Moves) == 0 || g.comesBefore(i) {
				break
			}
			lines = append(lines, line)
		}
	}
	if len(lines) == 0 {
		return opinion.Opinion{}, false
	}
	depth := lines[0].Depth
	for _, line := range lines {
		depth = min(depth, line.Depth)
	}
	return opinion.Opinion{
		Engine: name, Lines: append([]opinion.Line(nil), lines...), Steps: append([]opinion.Step(nil), g.steps...),
		Depth: depth, Nodes: g.nodes, Given: given, Took: took, Final: final,
	}, true
}
