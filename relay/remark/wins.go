package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// leastWon returns the least that a legal move wins, whatever the reply: what it captures, less
// what the reply captures, with the best exchange that then follows on these squares or where the
// reply went. 0 if there is no reply, or one that
// mates. Other threats are not looked at.
func leastWon(p *Position, m Move, squares Set) int {
	gain := taken(p, m)
	after := *p
	after.Make(m)
	var room [bitboard.MaxMoves]Move
	replies := after.Moves(room[:0])
	if len(replies) == 0 {
		return 0
	}
	least := gain
	for i, reply := range replies {
		next := after
		next.Make(reply)
		if next.IsMate() {
			return 0
		}
		won := gain - taken(&after, reply) + bestCapture(&next, squares|bitOf(reply.To()))
		if i == 0 || won < least {
			least = won
		}
	}
	return least
}

// taken is what a move captures, and what a pawn that is promoted becomes more.
func taken(p *Position, m Move) int {
	gain := bitboard.Value(p.Piece(m.To()).Type())
	if t := m.Promotion(); t != bitboard.NoPieceType {
		gain += bitboard.Value(t) - bitboard.PawnValue
	}
	passed, ok := p.EnPassant()
	if ok && m.To() == passed && p.Piece(m.From()).Type() == bitboard.Pawn && m.From().File() != m.To().File() {
		gain += bitboard.PawnValue
	}
	return gain
}

// bestCapture is the most that the side to move wins by an exchange on one of the squares.
func bestCapture(p *Position, squares Set) int {
	most := 0
	them := p.Turn().Other()
	for s := squares & p.Side(them) &^ p.Types(bitboard.King); s != 0; s = s.Rest() {
		for a := p.Attackers(s.First()) & p.Side(p.Turn()); a != 0; a = a.Rest() {
			m := capture(p, a.First(), s.First())
			if won := p.Exchange(m); won > most && p.IsLegal(m) {
				most = won
			}
		}
	}
	return most
}

// capture is the move of a man to a square, a pawn becoming a queen on the last rank.
func capture(p *Position, from, to Square) Move {
	promotion := bitboard.NoPieceType
	if p.Piece(from).Type() == bitboard.Pawn && (to.Rank() == 0 || to.Rank() == 7) {
		promotion = bitboard.Queen
	}
	return bitboard.NewMove(from, to, promotion)
}

// winsBy returns the capture on a square that wins the most whatever the reply, and what that is.
func (sc *scene) winsBy(on Square, squares Set) (Move, int) {
	best, most := bitboard.NoMove, 0
	for a := flipped(sc.turn, sc.p.Attackers(on)&sc.p.Side(sc.turn)); a != 0; a = a.Rest() {
		m := capture(sc.p, homeward(sc.turn, a.First()), on)
		if !sc.p.IsLegal(m) {
			continue
		}
		if won := leastWon(sc.p, m, squares); won > most {
			best, most = m, won
		}
	}
	return best, most
}

// chanceFor reports whether the side to move may look for more than what hangs.
func (sc *scene) chanceFor(f *facts.Fact, won int) bool {
	return f.Side != sc.turn && !sc.inCheck && won >= worthSaying && won-sc.worst[f.Side] >= worthSaying && !sc.has(facts.MateOffer, sc.turn)
}

func doubleDuty(sc *scene, f *facts.Fact) {
	if !sc.chanceFor(f, f.Amount) {
		return
	}
	on := f.Squares()
	m, won := sc.winsBy(on[1], bitOf(on[1])|bitOf(on[2]))
	if sc.chanceFor(f, won) {
		r := sc.add(DoubleDuty, f.Side, on...)
		r.Amount, r.Move = int16(won), m
	}
}

func guardRemovable(sc *scene, f *facts.Fact) {
	on, men := f.Squares(), f.Pieces()
	if !sc.chanceFor(f, f.Amount) || men[0].Type() == bitboard.King || men[1].Type() == bitboard.Pawn {
		return
	}
	m, won := sc.winsBy(on[0], bitOf(on[0])|bitOf(on[1]))
	if sc.chanceFor(f, won) && !sc.foundOf(GuardRemovable, on[0]) {
		r := sc.add(GuardRemovable, f.Side, on[0], on[1], m.From())
		r.Amount, r.Move = int16(won), m
	}
}

func pieceHangs(sc *scene, f *facts.Fact) {
	on := f.Subject()
	stood := on
	if sc.move.To() == on {
		stood = sc.move.From()
	}
	switch {
	case f.Side == sc.turn || sc.inCheck || sc.captured || sc.move == bitboard.NoMove || sc.before.InCheck():
		return
	case f.Pieces()[0].Type() == bitboard.Pawn || sc.earlier.hung&bitOf(stood) != 0 || sc.has(facts.MateOffer, sc.turn):
		return
	}
	guarded := sc.p.Attackers(on)&sc.p.Side(f.Side) != 0
	if m, won := sc.winsBy(on, 0); won >= worthSaying && (!guarded || won >= bitboard.Value(sc.p.Piece(on).Type())) {
		r := sc.add(PieceHangs, f.Side, on, m.From())
		r.Amount, r.Move = int16(won), m
	}
}

// mated reports whether a move can be answered with mate.
func mated(p *Position, m Move) bool {
	after := *p
	after.Make(m)
	var room [bitboard.MaxMoves]Move
	for _, reply := range after.Moves(room[:0]) {
		next := after
		next.Make(reply)
		if next.IsMate() {
			return true
		}
	}
	return false
}
