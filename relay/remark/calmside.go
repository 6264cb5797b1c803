package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// From which moves these are worth a word, and how much of it there must be.
const (
	spaceFrom    = 10
	spaceLeast   = 3 // pawns beyond the middle
	spaceMore    = 2 // than the enemy's
	unmovedFrom  = 16
	immobileFrom = 12
	islandsFrom  = 18
	islandsMore  = 2
	activeFrom   = 30
	asideFiles   = 2 // without another pawn, on both sides
	asideOthers  = 3 // pawns elsewhere
)

func findOwnCalm() {
	ownFinders = append(ownFinders, moreSpace, unmoved, longDiagonal, immobile, storm, islands, doubledPawns, guardsAlone, walked, aside, pawnsOut)
	finders[facts.BishopAgainstKnight] = func(sc *scene, f *facts.Fact) { sc.add(BishopForKnight, f.Side) }
	for _, rule := range []Rule{MoreSpace, Unmoved, LongDiagonal, Immobile, IslandsMore, DoubledPawns, PawnStorm} {
		moments[rule] = evenMoment
	}
	moments[BishopForKnight] = func(sc *scene, r *Remark) bool {
		return evenMoment(sc, r) && balanceMoment(sc, r) && !sc.heard(bitboard.White, game, QueensGone, EndingBegun)
	}
	moments[KingWalked], moments[KingActive] = unchecked, unchecked
	moments[KingGuardsAlone] = unchecked
}

func moreSpace(sc *scene, c Colour) {
	if !sc.middlegame() || sc.number() < spaceFrom {
		return
	}
	beyond := func(c Colour) int {
		far := bitboard.RankSet(4) | bitboard.RankSet(5) | bitboard.RankSet(6)
		return (flipped(c, sc.p.Pieces(c, bitboard.Pawn)) & far).Count()
	}
	if own, other := beyond(c), beyond(c.Other()); own >= spaceLeast && own >= other+spaceMore {
		sc.add(MoreSpace, c).Amount = int16(10*own + other)
	}
}

func unmoved(sc *scene, c Colour) {
	own := sc.stayed(sc.undeveloped(c))
	if sc.memory.usual && sc.number() >= unmovedFrom && own.Count() == 1 && sc.stayed(sc.undeveloped(c.Other())) == 0 {
		sc.add(Unmoved, c, own.First())
	}
}

// longDiagonal finds a bishop on b2 or g2, as its side sees the board, that attacks g7 or b7.
func longDiagonal(sc *scene, c Colour) {
	if !sc.middlegame() {
		return
	}
	for _, way := range [2][2]Square{{bitboard.B2, bitboard.G7}, {bitboard.G2, bitboard.B7}} {
		from, to := homeward(c, way[0]), homeward(c, way[1])
		bishop := sc.p.Pieces(c, bitboard.Bishop).Has(from)
		if bishop && sc.p.Attackers(to).Has(from) && sc.p.Pieces(c.Other(), bitboard.Bishop)&coloured(from) == 0 {
			sc.add(LongDiagonal, c, from)
			return
		}
	}
}

func immobile(sc *scene, c Colour) {
	if sc.number() < immobileFrom {
		return
	}
	for s := flipped(c, (sc.minors(c)|sc.queens[c])&sc.memory.left); s != 0; s = s.Rest() {
		on := homeward(c, s.First())
		if bitboard.Attacks(on, sc.p.Piece(on), sc.p.Occupied())&^sc.p.Pieces(c, bitboard.Pawn) == 0 {
			sc.add(Immobile, c, on)
			return
		}
	}
}

func storm(sc *scene, c Colour) {
	if !sc.middlegame() {
		return
	}
	enemy := c.Other()
	own, other := sc.p.KingSquare(c).File(), homeward(enemy, sc.p.KingSquare(enemy))
	for _, from := range []int{0, 5} {
		inside := func(file int) bool { return file >= from && file <= from+2 }
		if !inside(other.File()) || inside(own) || other.Rank() > 1 {
			continue
		}
		ahead := bitboard.RankSet(3) | bitboard.RankSet(4) | bitboard.RankSet(5)
		pawns := flipped(c, sc.p.Pieces(c, bitboard.Pawn)) & ahead
		pawns &= bitboard.FileSet(from) | bitboard.FileSet(from+1) | bitboard.FileSet(from+2)
		if pawns.Count() == 2 {
			a, b := homeward(c, pawns.First()), homeward(c, pawns.Rest().First())
			if b.File() < a.File() {
				a, b = b, a
			}
			if a.File() == b.File() {
				continue
			}
			sc.add(PawnStorm, c, a, b)
		}
	}
}

// groups is in how many groups of neighbouring files the side's pawns are.
func (sc *scene) groups(c Colour) int {
	n, before := 0, false
	for file := range 8 {
		on := sc.p.Pieces(c, bitboard.Pawn)&bitboard.FileSet(file) != 0
		if on && !before {
			n++
		}
		before = on
	}
	return n
}

func islands(sc *scene, c Colour) {
	own, other := sc.groups(c), sc.groups(c.Other())
	if sc.number() >= islandsFrom && other > 0 && own >= other+islandsMore && min(sc.pieces[0], sc.pieces[1]) >= 2 {
		sc.add(IslandsMore, c).Amount = int16(10*own + other)
	}
}

func doubledPawns(sc *scene, c Colour) {
	if !sc.middlegame() || sc.has(facts.Doubled, c.Other()) {
		return
	}
	for i := range sc.facts {
		f := &sc.facts[i]
		if file := f.Subject().File(); f.Kind == facts.Doubled && f.Side == c && len(f.Squares()) == 2 && file >= 2 && file <= 5 {
			sc.add(DoubledPawns, c, f.Squares()...)
			return
		}
	}
}

func guardsAlone(sc *scene, c Colour) {
	king := sc.p.KingSquare(c)
	if !sc.middlegame() || homeward(c, king).Rank() != 0 {
		return
	}
	enemy := c.Other()
	near := bitboard.Attacks(king, bitboard.NewPiece(c, bitboard.King), 0) & sc.p.Pieces(c, bitboard.Pawn)
	for s := flipped(c, near) & bitboard.RankSet(1); s != 0; s = s.Rest() {
		on := homeward(c, s.First())
		around := sc.p.Attackers(on)
		behind := sc.p.AttackersThrough(on, sc.p.Occupied()&^(around&sc.p.Side(enemy)&^sc.p.Types(bitboard.Knight)))
		attackers := behind & sc.p.Side(enemy) &^ sc.p.Types(bitboard.King)
		if around&sc.p.Side(c) == bitOf(king) && attackers.Count() >= 2 && attackers&sc.queens[enemy] != 0 {
			sc.add(KingGuardsAlone, c, on)
			return
		}
	}
}

func walked(sc *scene, c Colour) {
	king, other := sc.p.KingSquare(c), sc.p.KingSquare(c.Other())
	rank := homeward(c, king).Rank()
	if sc.middlegame() && rank >= 3 {
		sc.add(KingWalked, c, king)
	}
	few := sc.queens[0]|sc.queens[1] == 0 && max(sc.pieces[0], sc.pieces[1]) <= 2
	if few && rank >= 4 && homeward(c.Other(), other).Rank() <= 1 && sc.number() >= activeFrom {
		sc.add(KingActive, c, king, other)
	}
}

// aside finds the only passed pawn, far from all others.
func aside(sc *scene, c Colour) {
	few := sc.queens[0]|sc.queens[1] == 0 && max(sc.pieces[0], sc.pieces[1]) <= 2
	if !few || sc.has(facts.Passed, c.Other()) {
		return
	}
	pawn, n := bitboard.NoSquare, 0
	for i := range sc.facts {
		if f := &sc.facts[i]; f.Kind == facts.Passed {
			pawn = f.Subject()
			n++
		}
	}
	if n != 1 || sc.hangs(c, pawn) {
		return
	}
	others := sc.p.Types(bitboard.Pawn) &^ bitOf(pawn)
	for file := max(0, pawn.File()-asideFiles); file <= min(7, pawn.File()+asideFiles); file++ {
		if others&bitboard.FileSet(file) != 0 {
			return
		}
	}
	if others.Count() >= asideOthers {
		sc.add(PasserAside, c, pawn)
	}
}

func pawnsOut(sc *scene, c Colour) {
	if sc.pawnless(c) && !sc.pawnless(c.Other()) && sc.pieces[c] > 0 {
		sc.add(NoPawnsLeft, c)
	}
}
