package pgn

import "slices"

// line is one line of play while it is read: the main line or a variation.
type line struct {
	comments []Comment // before the first move
	moves    []Move    // reused from line to line; take copies it
	full     bool      // further moves and what belongs to them are left out
}

// take returns the line's content and empties it.
func (l *line) take() ([]Comment, []Move) {
	comments := l.comments
	var moves []Move
	if len(l.moves) > 0 {
		moves = make([]Move, len(l.moves))
		copy(moves, l.moves)
		clear(l.moves)
	}
	l.comments, l.moves, l.full = nil, l.moves[:0], false
	return comments, moves
}

// add appends a move. Behind the line's length lie zero moves, so that two
// fields are enough to write.
func (l *line) add(san string, number int) {
	n := len(l.moves)
	if n == cap(l.moves) {
		l.moves = slices.Grow(l.moves, max(n, 64))
	}
	l.moves = l.moves[:n+1]
	m := &l.moves[n]
	m.SAN, m.Line = san, number
}

// last returns the line's last move, or nil.
func (l *line) last() *Move {
	if len(l.moves) == 0 {
		return nil
	}
	return &l.moves[len(l.moves)-1]
}

// tree holds the lines being read, each a variation of the one below it.
type tree struct {
	lines     []line
	depth     int // index of the line being read
	skip      int // brackets open around text that is left out
	varMoves  int // moves in variations of this game
	noteFault bool
}

// forget makes the tree ready for another game.
func (t *tree) forget() { t.depth, t.skip, t.varMoves, t.noteFault = 0, 0, 0, false }

func (t *tree) line() *line { return &t.lines[t.depth] }

// push opens a variation on the last move of the current line.
func (t *tree) push() {
	t.depth++
	if t.depth == len(t.lines) {
		t.lines = append(t.lines, line{})
	}
}

// pop closes the current variation and hangs it on its move.
func (t *tree) pop() {
	comments, moves := t.line().take()
	t.depth--
	if len(moves) > 0 || len(comments) > 0 {
		m := t.line().last()
		m.Variations = append(m.Variations, Variation{Comments: comments, Moves: moves})
	}
}

// addMove appends a move that stands at text[at:end].
func (r *reader) addMove(san string, at, end int) {
	r.pos = end
	if r.tree.skip > 0 {
		return
	}
	if r.state != inMoves {
		r.begin(at)
		if r.full {
			return
		}
		r.state = inMoves
	}
	l := r.tree.line()
	if l.full || !r.room(l, at) {
		return
	}
	if r.tree.depth == 0 {
		r.moveEnd = end
	}
	l.add(san, r.lineOf(at))
}

// room reports whether the line may have another move, and closes it if not.
func (r *reader) room(l *line, at int) bool {
	if r.tree.depth == 0 {
		l.full = len(l.moves) >= r.lim.Plies
	} else {
		l.full = r.tree.varMoves >= r.lim.VariationMoves
		r.tree.varMoves++
	}
	if l.full {
		r.fault(FaultLimitPlies, at, "")
	}
	return !l.full
}

// openVariation takes a "(" that is no draw offer.
func (r *reader) openVariation() {
	at := r.pos
	r.pos++
	l := r.tree.line()
	switch m := l.last(); {
	case r.tree.skip > 0 || l.full:
		r.tree.skip++
	case m == nil || r.state != inMoves:
		r.fault(FaultBadToken, at, "(")
		r.tree.skip++
	case r.tree.depth >= r.lim.Nesting:
		r.fault(FaultLimitNesting, at, "")
		r.tree.skip++
	case r.noteRoom(len(m.Variations), at):
		r.tree.push()
	default:
		r.tree.skip++
	}
}

// closeVariation takes a ")".
func (r *reader) closeVariation() {
	at := r.pos
	r.pos++
	switch {
	case r.tree.skip > 0:
		r.tree.skip--
	case r.tree.depth > 0:
		r.tree.pop()
	default:
		r.fault(FaultBadToken, at, ")")
	}
}

// closeVariations closes all variations because the game ends at offset at.
func (r *reader) closeVariations(at int) {
	if r.tree.depth == 0 && r.tree.skip == 0 {
		return
	}
	r.fault(FaultUnclosedVariation, at, "")
	r.tree.skip = 0
	for r.tree.depth > 0 {
		r.tree.pop()
	}
}

// noteRoom reports whether a move that has n notes of a kind may have one more.
func (r *reader) noteRoom(n, at int) bool {
	if n < r.lim.MoveNotes {
		return true
	}
	if !r.tree.noteFault {
		r.tree.noteFault = true
		r.fault(FaultLimitMoveNotes, at, "")
	}
	return false
}
