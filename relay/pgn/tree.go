package pgn

// line is one line of play while it is read: the main line or a variation.
type line struct {
	comments []Comment // before the first move
	moves    []Move    // behind them lies room for the next ones, all zero
	full     bool      // further moves and what belongs to them are left out
}

// take returns the line's content and leaves the room behind it to the next line.
func (l *line) take() ([]Comment, []Move) {
	comments := l.comments
	var moves []Move
	if n := len(l.moves); n > 0 {
		moves = l.moves[:n:n]
		l.moves = l.moves[n:]
	}
	l.comments, l.full = nil, false
	return comments, moves
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
	size      int // of the next block of moves
}

// forget makes the tree ready for another game.
func (t *tree) forget() { t.depth, t.skip, t.varMoves, t.noteFault = 0, 0, 0, false }

func (t *tree) line() *line { return &t.lines[t.depth] }

// add appends a move to the current line.
func (t *tree) add(san string, number int) {
	l := t.line()
	n := len(l.moves)
	if n == cap(l.moves) {
		l.moves = grown(l.moves, &t.size)
	}
	l.moves = l.moves[:n+1]
	l.moves[n].SAN, l.moves[n].Line = san, number
}

// push opens a variation on the last move of the current line.
func (t *tree) push() {
	t.depth++
	if t.depth == len(t.lines) {
		t.lines = append(t.lines, line{})
	}
}

// pop closes the current variation and hangs it on its move.
func (r *reader) pop() {
	comments, moves := r.tree.line().take()
	r.tree.depth--
	if len(moves) > 0 || len(comments) > 0 {
		n := r.notesOf(r.tree.line().last())
		n.Variations = r.branches.longer(n.Variations)
		n.Variations[len(n.Variations)-1] = Variation{Comments: comments, Moves: moves}
	}
}

// notesOf returns where to write what hangs on a move.
func (r *reader) notesOf(m *Move) *Notes {
	if m.Notes == nil {
		m.Notes = r.notes.one()
	}
	return m.Notes
}

// addMove appends a move that stands at text[at:end].
func (r *reader) addMove(san string, at, end int) {
	r.pos = end
	if r.tree.skip > 0 {
		return
	}
	if r.state != inMoves {
		if r.begin(at); r.over {
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
	r.tree.add(san, r.lineOf(at))
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
	case r.noteRoom(len(m.notes().Variations), at):
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
		r.pop()
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
		r.pop()
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
