package facts

import "clocktell/relay/bitboard"

// safety finds how many safe moves the side's pieces have, and which have none.
func (l *look) safety(c Colour) {
	safe := l.safeMoves(c)
	home := flipped(c, rank1)
	for s := flipped(c, l.pieceSet[c]); s != 0; s = s.Rest() {
		square := flippedSquare(c, s.First())
		l.add(Mobility, c).Amount = safe[square]
		l.point(square)
		if safe[square] > 0 {
			continue
		}
		if !home.Has(square) {
			l.add(NoSafeSquare, c)
			l.point(square)
		}
		l.trapped(c, square)
	}
}

// safeMoves counts the safe moves of each of the side's men, by its square.
func (l *look) safeMoves(c Colour) (safe [64]int) {
	for i, m := range l.moves[c][:l.count[c]] {
		if l.outcomes[c][i] >= 0 {
			safe[m.From()]++
		}
	}
	return safe
}

// trapped tells whether a piece without a safe move is trapped or can be.
func (l *look) trapped(c Colour, square Square) {
	if l.hanging[c].Has(square) {
		if lost := lostAnyway(&l.views[c], square); lost > 0 {
			e := newExchange(&l.views[c.Other()])
			_, with := e.capture(c.Other(), square)
			l.add(Trapped, c).Amount = lost
			l.point(square, with)
		}
		return
	}
	them := c.Other()
	for i, m := range l.moves[them][:l.count[them]] {
		if l.outcomes[them][i] < 0 || m.To() == square {
			continue
		}
		after := l.views[them]
		after.Make(m)
		if after.Attackers(square)&after.Side(them) == 0 {
			continue
		}
		if lost := lostAnyway(&after, square); lost > 0 {
			f := l.add(Trappable, c)
			f.Amount, f.Move = lost, m
			l.point(square, m.From(), m.To())
		}
	}
}

// lostAnyway returns the least that the side to move loses, with the piece on that square
// hanging, whatever it plays; 0 if some move saves it, or if it has none.
func lostAnyway(p *Position, square Square) int {
	them := p.Turn().Other()
	other := passed(p)
	e := newExchange(&other)
	if won, _ := e.capture(them, square); won <= 0 {
		return 0
	}
	var room [bitboard.MaxMoves]Move
	least := kingValue
	for _, m := range p.Moves(room[:0]) {
		least = min(least, lossAfter(p, m, square))
		if least <= 0 {
			return 0
		}
	}
	if least == kingValue {
		return 0
	}
	return least
}

// lossAfter returns what the other side wins on the square, or where the move has gone,
// less what the move captured.
func lossAfter(p *Position, m Move, square Square) int {
	e := newExchange(p)
	gain := e.enter(m, p.Piece(m.From()).Type(), p.Turn())
	after := *p
	after.Make(m)
	e = newExchange(&after)
	lost, _ := e.capture(after.Turn(), m.To())
	if m.From() != square {
		onSquare, _ := e.capture(after.Turn(), square)
		lost = max(lost, onSquare)
	}
	return lost - gain
}

// squeeze compares what both sides can play.
func (l *look) squeeze() {
	var total [2]int
	for c := range both {
		safe := l.safeMoves(c)
		for s := l.pieceSet[c]; s != 0; s = s.Rest() {
			total[c] += safe[s.First()]
		}
	}
	n := l.pieceSet[0].Count()
	if n < squeezedPieces || n != l.pieceSet[1].Count() {
		return
	}
	for c := range both {
		if total[c.Other()] >= squeezedMoves && 2*total[c] <= total[c.Other()] {
			l.add(Squeezed, c).Amount = total[c]
		}
	}
}
