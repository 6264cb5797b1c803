package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

var balances = map[facts.Kind]Rule{
	facts.PawnsUp: PawnUp, facts.PieceUp: PieceUp, facts.PieceForPawns: PieceForPawns, facts.ExchangeUp: ExchangeUp,
	facts.PiecesForRook: PiecesForRook, facts.RookUp: RookUp, facts.QueenUp: QueenUp, facts.QueenForRook: QueenForRook,
	facts.QueenForRooks: QueenForRooks, facts.QueenForRookAndPiece: QueenForRookAndPiece, facts.QueenForPieces: QueenForPieces,
}

// lateForQueens is the move from which it is no news that the queens are off.
const lateForQueens = 20

// pawnFrom is the move from which a pawn is worth a word: before it many are lent.
const pawnFrom = 7

func findBalance() {
	for kind, rule := range balances {
		finders[kind] = func(sc *scene, f *facts.Fact) { sc.add(rule, f.Side).Amount = int16(f.Amount) }
	}
	finders[facts.BishopPair] = func(sc *scene, f *facts.Fact) {
		if sc.minors(f.Side).Count() == sc.minors(f.Side.Other()).Count() && sc.pieces[f.Side] > sc.minors(f.Side).Count() {
			sc.add(TwoBishops, f.Side)
		}
	}
	finders[facts.OppositeBishops] = func(sc *scene, f *facts.Fact) {
		if sc.p.Types(bitboard.Knight) == 0 {
			sc.add(OppositeBishops, f.Side).Amount = int16(f.Amount)
		}
	}
	ownFinders = append(ownFinders, func(sc *scene, c Colour) {
		if c == bitboard.White && sc.memory.queens && sc.p.Types(bitboard.Queen) == 0 {
			sc.add(QueensOff, c)
		}
	})
	ownFinders = append(ownFinders, levelAgain, endingBegun, queensGone)
	moments[QueensGone] = func(sc *scene, _ *Remark) bool { return sc.number() >= lateForQueens }
	for _, rule := range balances {
		moments[rule] = balanceMoment
	}
	moments[QueenUp], moments[RookUp] = heavyMoment, heavyMoment
	moments[LevelAgain] = levelMoment
	moments[PawnUp] = func(sc *scene, r *Remark) bool {
		given := int16(sc.memory.odds) * (1 - 2*int16(r.Side))
		return sc.number() >= pawnFrom && r.Amount != given && balanceMoment(sc, r) && !sc.told(EndingBegun)
	}
	moments[QueensOff] = func(sc *scene, _ *Remark) bool { return sc.number() < lateForQueens }
}

func levelAgain(sc *scene, c Colour) {
	if c == bitboard.White && sc.level() {
		sc.add(LevelAgain, c)
	}
}

// level reports that both sides have the same men, a knight counting as a bishop.
func (sc *scene) level() bool {
	for t := bitboard.Pawn; t <= bitboard.Queen; t++ {
		if sc.p.Pieces(0, t).Count() != sc.p.Pieces(1, t).Count() && t != bitboard.Knight && t != bitboard.Bishop {
			return false
		}
	}
	return sc.minors(0).Count() == sc.minors(1).Count()
}

// levelMoment: something else was said of the balance and was true until just now, and no ending
// was named, which counts the pawns.
func levelMoment(sc *scene, r *Remark) bool {
	fresh := int(sc.earlier.ply+1-sc.memory.uneven) <= newsOfLevel
	return fresh && sc.wasUnbalanced() && !sc.told(EndingBegun) && balanceMoment(sc, r)
}

// wasUnbalanced reports whether the last word on the balance was that it is none.
func (sc *scene) wasUnbalanced() bool {
	for i := len(sc.earlier.said) - 1; i >= 0; i-- {
		if one := sc.earlier.said[i]; rules[one.rule].topic == aBalance {
			return one.rule != LevelAgain
		}
	}
	return false
}

// endingBegun names endings with the same pieces on both sides.
func endingBegun(sc *scene, c Colour) {
	white, black := sc.manned(c), sc.manned(c.Other())
	pawns := [2]int{sc.p.Pieces(c, bitboard.Pawn).Count(), sc.p.Pieces(c.Other(), bitboard.Pawn).Count()}
	if c == bitboard.Black || pawns[0]+pawns[1] == 0 || white != black || white.count > 2 {
		return
	}
	if white.count == 2 && white.kind != bitboard.Rook || sc.has(facts.OppositeBishops, c) {
		return
	}
	r := sc.add(EndingBegun, c)
	r.Amount = int16(10*pawns[0] + pawns[1])
	r.Kind, r.Pairs = white.kind, uint8(white.count)
}

// manning is what a side has besides king and pawns, of one kind.
type manning struct {
	kind  bitboard.PieceType
	count int
}

// manned returns the side's pieces if they are of one kind, else a count that is too high.
func (sc *scene) manned(c Colour) manning {
	m := manning{count: sc.pieces[c]}
	for t := bitboard.Knight; t <= bitboard.Queen; t++ {
		n := sc.p.Pieces(c, t).Count()
		if n > 0 && n < m.count {
			return manning{count: 99}
		}
		if n > 0 {
			m.kind = t
		}
	}
	return m
}

// told reports whether the rule was spoken of within its rest.
func (sc *scene) told(rule Rule) bool {
	for _, one := range sc.earlier.said {
		if one.rule == rule && int(sc.earlier.ply+1-one.ply) < rules[rule].rest {
			return true
		}
	}
	return false
}
