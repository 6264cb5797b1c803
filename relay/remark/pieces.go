package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

func findPieces() {
	finders[facts.Outpost] = outpost
	finders[facts.RooksOnOpenFile] = fileTaken
	finders[facts.BadBishop] = badBishop
	finders[facts.Squeezed] = func(sc *scene, f *facts.Fact) { sc.add(ShortOfMoves, f.Side).Amount = int16(f.Amount) }
	finders[facts.WeakSquare] = hole
	ownFinders = append(ownFinders, seventhRank, atHome, loose)
	moments[FileTaken] = fileMoment
	moments[TwoBishops] = func(sc *scene, r *Remark) bool { return evenMoment(sc, r) && balanceMoment(sc, r) }
	moments[SeventhRank] = seventhMoment
	for _, rule := range []Rule{Hole, LoosePieces, IsolatedQueensPawn, DoubledIsolated, BackwardAttacked, IsolatedAttacked, WingMajority, CentreClosed, CoverGone, ShortOfMoves} {
		moments[rule] = evenMoment
	}
}

func outpost(sc *scene, f *facts.Fact) {
	on := f.Subject()
	attackers := sc.p.Attackers(on) & sc.minors(f.Side.Other())
	enemy := f.Side.Other()
	if f.Pieces()[0].Type() != bitboard.Knight || attackers != 0 || sc.hangs(f.Side, on) || sc.pawnless(enemy) {
		return
	}
	king := bitboard.Attacks(sc.p.KingSquare(enemy), bitboard.NewPiece(enemy, bitboard.King), 0)
	if king.Has(on) || min(sc.pieces[0], sc.pieces[1]) < outpostPieces || sc.comesAt(enemy, on) {
		return // it will be chased or exchanged
	}
	sc.add(KnightOutpost, f.Side, f.Squares()...)
}

func fileTaken(sc *scene, f *facts.Fact) {
	enemy := f.Side.Other()
	file := bitboard.FileSet(f.Subject().File())
	if (sc.rooks(enemy)|sc.queens[enemy])&file != 0 || sc.rooks(enemy) == 0 || sc.opposable(enemy, file) {
		return
	}
	for _, on := range f.Squares() {
		if sc.hangs(f.Side, on) || sc.barred(f.Side, on) {
			return
		}
	}
	if len(f.Squares()) > 1 {
		sc.add(FileDoubled, f.Side, f.Squares()...)
	} else if sc.openFiles() == 1 {
		sc.add(FileTaken, f.Side, f.Squares()...)
	} else if min(sc.pieces[0], sc.pieces[1]) >= heldPieces {
		sc.add(FileHeld, f.Side, f.Squares()...)
	}
}

// heldPieces are the fewest pieces of each side while one of several open files matters.
const heldPieces = 3

// barredTo is the index of the last rank on which a man takes the use from a rook's open file.
const barredTo = 6

// barred reports that a man other than a rook or queen of its own stands before a rook on its file,
// up to the side's seventh rank.
func (sc *scene) barred(c Colour, rook Square) bool {
	on := homeward(c, rook)
	way := bitboard.FileSet(on.File())
	for rank := range 8 {
		if rank <= on.Rank() || rank > barredTo {
			way &^= bitboard.RankSet(rank)
		}
	}
	return way&flipped(c, sc.p.Side(0)|sc.p.Side(1))&^flipped(c, sc.rooks(c)|sc.queens[c]) != 0
}

func (sc *scene) openFiles() int {
	n := 0
	for i := range sc.facts {
		if sc.facts[i].Kind == facts.OpenFile {
			n++
		}
	}
	return n
}

// opposable reports whether a rook of the side can go to a file and stand there safely.
func (sc *scene) opposable(c Colour, file Set) bool {
	occupied := sc.p.Occupied()
	for s := sc.rooks(c); s != 0; s = s.Rest() {
		ways := bitboard.Attacks(s.First(), sc.p.Piece(s.First()), occupied) & file &^ occupied
		for ; ways != 0; ways = ways.Rest() {
			on := ways.First()
			guarded := sc.p.Attackers(on)&sc.p.Side(c)&^bitOf(s.First()) != 0
			if guarded || sc.p.Attackers(on)&sc.p.Side(c.Other()) == 0 {
				return true
			}
		}
	}
	return false
}

// comesAt reports whether a knight or bishop of the side can attack a square with its next move, from a
// square that no pawn of the other side attacks.
func (sc *scene) comesAt(c Colour, on Square) bool {
	occupied := sc.p.Occupied()
	for s := sc.minors(c); s != 0; s = s.Rest() {
		man := sc.p.Piece(s.First())
		ways := bitboard.Attacks(s.First(), man, occupied) &^ sc.p.Side(c)
		for ; ways != 0; ways = ways.Rest() {
			to := ways.First()
			pawns := sc.p.Attackers(to) & sc.p.Pieces(c.Other(), bitboard.Pawn)
			if pawns == 0 && bitboard.Attacks(to, man, occupied&^bitOf(s.First())).Has(on) {
				return true
			}
		}
	}
	return false
}

func seventhRank(sc *scene, c Colour) {
	enemy := c.Other()
	seventh, eighth := 6-5*int(c), 7-7*int(c)
	rooks := sc.rooks(c) & bitboard.RankSet(seventh) &^ sc.hanging[c]
	pawns := sc.p.Pieces(enemy, bitboard.Pawn) & bitboard.RankSet(seventh)
	if rooks == 0 || sc.p.KingSquare(enemy).Rank() != eighth && pawns.Count() < 2 {
		return
	}
	if rooks.Rest() != 0 {
		sc.add(SeventhRankDoubled, c, rooks.First(), rooks.Rest().First())
		return
	}
	sc.add(SeventhRank, c, rooks.First())
}

// outpostPieces are the fewest pieces of each side while an outpost matters, badMoves the most safe
// moves of a bad bishop.
const (
	outpostPieces = 3
	badMoves      = 3
)

func badBishop(sc *scene, f *facts.Fact) {
	if !sc.ending() || sc.minors(f.Side.Other()) == 0 {
		return
	}
	enemy := f.Side.Other()
	same := sc.p.Pieces(enemy, bitboard.Bishop) & coloured(f.Subject())
	if same != 0 || sc.safeMoves(f.Subject()) > badMoves {
		return // it can be exchanged, or has somewhere to go
	}
	sc.add(BadBishop, f.Side, f.Squares()...).Amount = int16(f.Amount)
}

// holeFrom is the move from which a hole is worth a word: openings leave many.
const holeFrom = 9

func hole(sc *scene, f *facts.Fact) {
	on := f.Subject()
	knights := sc.p.Attackers(on) & sc.p.Pieces(f.Side.Other(), bitboard.Knight)
	guards := sc.p.Attackers(on) & sc.minors(f.Side)
	if on.File() < 2 || on.File() > 5 || sc.p.Piece(on) != bitboard.NoPiece || knights == 0 || guards != 0 || sc.number() < holeFrom || sc.pieces[0] < 4 || sc.pieces[1] < 4 {
		return
	}
	sc.add(Hole, f.Side, on, f.Squares()[1], first(f.Side, knights))
	made := sc.move != bitboard.NoMove && sc.mover == f.Side && sc.before.Piece(sc.move.From()).Type() == bitboard.Pawn &&
		absolute(sc.move.From().File()-on.File()) == 1
	if !made && !sc.stood() {
		sc.drop()
	}
}

// Where knights and bishops stand at the start of a usual game, of White and of Black.
var homes = [2][2]Set{
	{bitboard.SetOf(bitboard.B1, bitboard.G1), bitboard.SetOf(bitboard.C1, bitboard.F1)},
	{bitboard.SetOf(bitboard.B8, bitboard.G8), bitboard.SetOf(bitboard.C8, bitboard.F8)},
}

// undeveloped are the side's knights and bishops that stand at home.
func (sc *scene) undeveloped(c Colour) Set {
	return sc.p.Pieces(c, bitboard.Knight)&homes[c][0] | sc.p.Pieces(c, bitboard.Bishop)&homes[c][1]
}

// Moves between which pieces at home are worth a word.
const (
	homeFrom = 11
	homeTo   = 14
)

func atHome(sc *scene, c Colour) {
	own := sc.stayed(sc.undeveloped(c))
	if sc.number() < homeFrom || sc.number() > homeTo || own.Rest() == 0 || sc.undeveloped(c.Other()) != 0 || sc.minors(c.Other()).Count() < 2 {
		return
	}
	sc.add(AtHome, c, own.First(), own.Rest().First())
}

// looseFrom is the move from which loose pieces are worth a word.
const looseFrom = 9

func loose(sc *scene, c Colour) {
	enemy := c.Other()
	if sc.number() < looseFrom || sc.queens[enemy] == 0 || sc.pieces[enemy] < 3 {
		return
	}
	var found Set
	for i := range sc.facts {
		f := &sc.facts[i]
		if f.Kind == facts.Loose && f.Side == c && f.Pieces()[0].Type() != bitboard.Queen && homeward(c, f.Subject()).Rank() > 1 {
			found |= bitOf(f.Subject())
		}
	}
	if found.Count() == 2 && found&sc.hanging[c] == 0 && sc.canReach(enemy, found) {
		one := first(c, found)
		sc.add(LoosePieces, c, one, first(c, found&^bitOf(one)))
	}
}

// canReach reports whether a piece of the side could move to a square the enemy does not attack and
// attack both men from there.
func (sc *scene) canReach(c Colour, men Set) bool {
	occupied := sc.p.Occupied()
	for s := sc.p.Side(c) &^ sc.p.Types(bitboard.Pawn) &^ sc.p.Types(bitboard.King); s != 0; s = s.Rest() {
		from := s.First()
		for to := bitboard.Attacks(from, sc.p.Piece(from), occupied) &^ sc.p.Side(c); to != 0; to = to.Rest() {
			on := to.First()
			left := occupied&^bitOf(from) | bitOf(on)
			if sc.p.Attackers(on)&sc.p.Side(c.Other()) == 0 && men&^bitboard.Attacks(on, sc.p.Piece(from), left) == 0 {
				return true
			}
		}
	}
	return false
}
