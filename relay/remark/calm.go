package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// From which moves these are worth a word, and how much of it there must be.
const (
	untakenFrom   = 12
	allOnFrom     = 14
	uncastledFrom = 11
	emptyFrom     = 8
	touchFrom     = 10
	alikeFrom     = 10
	alikeLeast    = 5 // pawns of each side
	alikeApart    = 6 // ranks, all pawns together
	kingsApart    = 3 // files
	lockedLeast   = 5 // pairs of pawns
	freeFrom      = 12
	foughtLeast   = 3 // men of each side
	wingFrom      = 25
	wingPawns     = 3
)

func findCalm() {
	for _, find := range []func(*scene){untaken, emptyCentre, alike, touching, locked, freeFile, fought, queensFace, piecesGone, wing, passersBoth, pawnsLeft, opposition} {
		ownFinders = append(ownFinders, func(sc *scene, c Colour) {
			if c == bitboard.White {
				find(sc)
			}
		})
	}
	for _, rule := range []Rule{PawnsAlike, PawnsTouch, PawnsLocked, FileFree, SquareFought, CentreEmpty, BishopsAlike, OneWing} {
		moments[rule] = evenMoment
	}
	moments[MinorsGone], moments[RooksGone], moments[BishopsAlike] = balanceMoment, balanceMoment, balanceMoment
	moments[QueensFace] = func(sc *scene, _ *Remark) bool { return sc.hanging[0]|sc.hanging[1] == 0 }
}

// middlegame is as Rule has it.
func (sc *scene) middlegame() bool {
	return sc.queens[0] != 0 && sc.queens[1] != 0 && min(sc.pieces[0], sc.pieces[1]) >= 3
}

func untaken(sc *scene) {
	const all, pieces = 32, 7
	men := sc.p.Occupied().Count()
	if men == all && sc.number() >= untakenFrom {
		sc.add(NothingTaken, bitboard.White)
	}
	if men < all && sc.pieces[0] == pieces && sc.pieces[1] == pieces && sc.number() >= allOnFrom {
		sc.add(PiecesAllOn, bitboard.White)
	}
	if sc.p.Castles(0) != 0 && sc.p.Castles(1) != 0 && sc.queens[0] != 0 && sc.queens[1] != 0 && sc.number() >= uncastledFrom {
		sc.add(NobodyCastled, bitboard.White)
	}
}

func emptyCentre(sc *scene) {
	if sc.middlegame() && sc.number() >= emptyFrom && sc.p.Types(bitboard.Pawn)&(bitboard.FileSet(3)|bitboard.FileSet(4)) == 0 {
		sc.add(CentreEmpty, bitboard.White)
	}
}

func alike(sc *scene) {
	white, black := sc.p.Pieces(bitboard.White, bitboard.Pawn), sc.p.Pieces(bitboard.Black, bitboard.Pawn)
	apart := 0
	for file := range 8 {
		own, other := white&bitboard.FileSet(file), flipped(bitboard.Black, black&bitboard.FileSet(file))
		if own.Count() != other.Count() {
			return
		}
		for ; own != 0; own, other = own.Rest(), other.Rest() {
			apart += absolute(own.First().Rank() - other.First().Rank())
		}
	}
	if absolute(sc.p.KingSquare(bitboard.White).File()-sc.p.KingSquare(bitboard.Black).File()) > kingsApart || apart > alikeApart {
		return
	}
	if n := white.Count(); n >= alikeLeast && n < 8 && sc.number() >= alikeFrom {
		sc.add(PawnsAlike, bitboard.White)
	}
}

// touching finds the only two pawns that can take each other.
func touching(sc *scene) {
	black := sc.p.Pieces(bitboard.Black, bitboard.Pawn)
	var on [2]Square
	n := 0
	for s := sc.p.Pieces(bitboard.White, bitboard.Pawn); s != 0; s = s.Rest() {
		for met := bitboard.Attacks(s.First(), bitboard.NewPiece(bitboard.White, bitboard.Pawn), 0) & black; met != 0; met = met.Rest() {
			on = [2]Square{s.First(), met.First()}
			n++
		}
	}
	if n == 1 && sc.number() >= touchFrom && min(on[0].File(), on[1].File()) >= 2 && max(on[0].File(), on[1].File()) <= 5 {
		sc.add(PawnsTouch, bitboard.White, on[:]...)
	}
}

func locked(sc *scene) {
	rams := sc.p.Pieces(bitboard.White, bitboard.Pawn) & (sc.p.Pieces(bitboard.Black, bitboard.Pawn) >> 8)
	if n := rams.Count(); n >= lockedLeast {
		sc.add(PawnsLocked, bitboard.White).Amount = int16(n)
	}
}

func freeFile(sc *scene) {
	if sc.number() < freeFrom || sc.rooks(0).Count() < 2 || sc.rooks(1).Count() < 2 || sc.openFiles() != 1 {
		return
	}
	for file := range 8 {
		set := bitboard.FileSet(file)
		if set&sc.p.Types(bitboard.Pawn) == 0 && set&(sc.p.Types(bitboard.Rook)|sc.p.Types(bitboard.Queen)) == 0 {
			sc.add(FileFree, bitboard.White).Amount = int16(file)
		}
	}
}

// fought finds the square in the middle at which most men of both sides look.
func fought(sc *scene) {
	if !sc.middlegame() {
		return
	}
	best, most, twice, amount := bitboard.NoSquare, 0, false, 0
	for _, on := range []Square{bitboard.D4, bitboard.E4, bitboard.D5, bitboard.E5} {
		if sc.p.Piece(on).Type() != bitboard.Pawn {
			continue
		}
		men := sc.p.Attackers(on) &^ (sc.p.Pinned(bitboard.White) | sc.p.Pinned(bitboard.Black))
		white, black := (men & sc.p.Side(0)).Count(), (men & sc.p.Side(1)).Count()
		switch {
		case min(white, black) < foughtLeast:
		case white+black > most:
			best, most, twice, amount = on, white+black, false, 10*white+black
		case white+black == most:
			twice = true
		}
	}
	if most > 0 && !twice {
		sc.add(SquareFought, bitboard.White, best).Amount = int16(amount)
	}
}

func queensFace(sc *scene) {
	white, black := sc.queens[0], sc.queens[1]
	if white.Count() == 1 && black.Count() == 1 && bitboard.Attacks(white.First(), sc.p.Piece(white.First()), sc.p.Occupied()).Has(black.First()) {
		sc.add(QueensFace, bitboard.White, white.First(), black.First())
	}
}

func piecesGone(sc *scene) {
	minors, least := sc.minors(0)|sc.minors(1), min(sc.pieces[0], sc.pieces[1])
	rooks := sc.rooks(0) | sc.rooks(1)
	switch {
	case minors == 0 && least >= 2:
		sc.add(MinorsGone, bitboard.White)
	case rooks == 0 && sc.queens[0] != 0 && sc.queens[1] != 0 && least >= 2:
		sc.add(RooksGone, bitboard.White)
	}
	bishops := sc.p.Types(bitboard.Bishop)
	if minors == bishops && sc.minors(0).Count() == 1 && sc.minors(1).Count() == 1 && bishops&^coloured(bishops.First()) == 0 {
		sc.add(BishopsAlike, bitboard.White)
	}
}

func wing(sc *scene) {
	pawns := sc.p.Types(bitboard.Pawn)
	var left Set
	for file := range 4 {
		left |= bitboard.FileSet(file)
	}
	n := pawns.Count()
	if n == 1 && min(sc.pieces[0], sc.pieces[1]) > 0 {
		sc.add(LastPawn, bitboard.White, pawns.First())
	}
	side := pawns&left == 0 || pawns&^left == 0
	if side && n >= wingPawns && !sc.pawnless(0) && !sc.pawnless(1) && sc.queens[0]|sc.queens[1] == 0 && sc.number() >= wingFrom {
		sc.add(OneWing, bitboard.White)
	}
}

func passersBoth(sc *scene) {
	on := [2]Square{bitboard.NoSquare, bitboard.NoSquare}
	for i := range sc.facts {
		f := &sc.facts[i]
		if f.Kind != facts.Passed {
			continue
		}
		if on[f.Side] != bitboard.NoSquare || f.Amount > farEnough || sc.hangs(f.Side, f.Subject()) {
			return
		}
		on[f.Side] = f.Subject()
	}
	if on[0] != bitboard.NoSquare && on[1] != bitboard.NoSquare {
		sc.add(PassersBoth, bitboard.White, on[:]...)
	}
}
