package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// worthSaying is what a chance must win, in centipawns, and by how much it must be better than
// to capture what hangs.
const worthSaying = 200

// From which moves these are worth a word.
const (
	pinFrom     = 9
	stuckFrom   = 9
	lastingFrom = 13
)

func findChances() {
	finders[facts.MateOffer] = mateHere
	finders[facts.MateThreat] = mateThreatened
	finders[facts.Fork] = offered(ForkOffered)
	finders[facts.Skewer] = offered(SkewerOffered)
	finders[facts.DiscoveredAttack] = offered(DiscoveryOffered)
	finders[facts.Overloaded] = doubleDuty
	finders[facts.SoleDefender] = guardRemovable
	finders[facts.Hanging] = pieceHangs
	finders[facts.Trapped] = trapped
	finders[facts.Trappable] = trappable
	finders[facts.NoSafeSquare] = stuck
	finders[facts.AbsolutePin] = pinned
	finders[facts.RelativePin] = pinned
	for _, rule := range []Rule{ForkOffered, SkewerOffered, DiscoveryOffered, DoubleDuty, GuardRemovable, PieceHangs, TrapOffered} {
		moments[rule] = chanceMoment
	}
	moments[PieceTrapped] = trappedMoment
	moments[PinAttacked] = func(sc *scene, r *Remark) bool {
		return r.Side == sc.turn && sc.number() >= pinFrom && lostBy(sc.p, bitboard.KnightValue)
	}
	moments[PinLasting] = pinMoment
}

// replaces reports whether a finding with that move and amount comes before the one the rule has, and
// takes that one out: the greater amount, then the lower squares as the side sees the board. It
// returns true if the rule has none. With a man it is asked of that subject only.
func (sc *scene) replaces(rule Rule, m Move, amount int, man Square) bool {
	for i := range sc.found {
		r := &sc.found[i]
		if r.Rule != rule || man != bitboard.NoSquare && r.subject() != man {
			continue
		}
		side := sc.p.Piece(m.From()).Colour()
		if int(r.Amount) > amount || int(r.Amount) == amount && order(side, r.Move) <= order(side, m) {
			return false
		}
		sc.found = append(sc.found[:i], sc.found[i+1:]...)
		return true
	}
	return true
}

// order numbers moves as the side sees the board, promotions to a queen first.
func order(c Colour, m Move) int {
	return int(homeward(c, m.From()))<<9 | int(homeward(c, m.To()))<<3 | 7 - int(m.Promotion())
}

func mateHere(sc *scene, f *facts.Fact) {
	if sc.replaces(MateHere, f.Move, 0, bitboard.NoSquare) {
		sc.add(MateHere, f.Side, f.Squares()...).Move = f.Move
	}
}

func mateThreatened(sc *scene, f *facts.Fact) {
	if sc.has(facts.MateOffer, sc.turn) || sc.hangs(f.Side, f.Move.From()) || sc.hangs(f.Side, sc.move.To()) {
		return
	}
	if sc.replaces(MateThreatened, f.Move, 0, bitboard.NoSquare) {
		sc.add(MateThreatened, f.Side, f.Squares()...).Move = f.Move
	}
}

func (sc *scene) hangs(c Colour, s Square) bool { return sc.hanging[c]&bitOf(s) != 0 }

// offered is for forks, skewers and discovered attacks: the best of each.
func offered(rule Rule) func(*scene, *facts.Fact) {
	return func(sc *scene, f *facts.Fact) {
		switch {
		case sc.inCheck || sc.has(facts.MateOffer, f.Side) || f.Move.Promotion() != bitboard.NoPieceType:
			return
		case f.Amount < worthSaying || f.Amount-sc.worst[f.Side.Other()] < worthSaying || mated(sc.p, f.Move):
			return
		}
		if !sc.replaces(rule, f.Move, f.Amount, bitboard.NoSquare) {
			return
		}
		r := sc.add(rule, f.Side, f.Squares()...)
		r.Move, r.Amount = f.Move, int16(f.Amount)
	}
}

func trapped(sc *scene, f *facts.Fact) {
	if f.Amount >= worthSaying && !sc.p.Pinned(f.Side).Has(f.Subject()) {
		sc.add(PieceTrapped, f.Side, f.Squares()...).Amount = int16(f.Amount)
	}
}

func trappable(sc *scene, f *facts.Fact) {
	rule := TrapOffered
	if f.Side == sc.turn {
		rule = NoSquareLeft
	}
	switch {
	case f.Amount < worthSaying || sc.inCheck || sc.p.Pinned(f.Side).Has(f.Subject()):
		return
	case rule == TrapOffered && (f.Amount-sc.worst[f.Side] < worthSaying || sc.has(facts.MateOffer, sc.turn) || mated(sc.p, f.Move)):
		return
	case rule == NoSquareLeft && (sc.hanging[f.Side] != 0 || !noSafeSquare(sc, f.Side, f.Subject())):
		return
	}
	if sc.replaces(rule, f.Move, f.Amount, f.Subject()) {
		r := sc.add(rule, f.Side, f.Squares()...)
		r.Move, r.Amount = f.Move, int16(f.Amount)
	}
}

// noSafeSquare reports whether facts.NoSafeSquare holds of a piece.
func noSafeSquare(sc *scene, c Colour, on Square) bool {
	for i := range sc.facts {
		if f := &sc.facts[i]; f.Kind == facts.NoSafeSquare && f.Side == c && f.Subject() == on {
			return true
		}
	}
	return false
}

// foundOf reports whether the rule has found something of that man.
func (sc *scene) foundOf(rule Rule, man Square) bool {
	for i := range sc.found {
		if r := &sc.found[i]; r.Rule == rule && r.subject() == man {
			return true
		}
	}
	return false
}

func pinned(sc *scene, f *facts.Fact) {
	on := f.Squares()
	man, behind := f.Pieces()[0].Type(), f.Pieces()[2].Type()
	if man == bitboard.Pawn {
		return
	}
	others := sc.p.Attackers(on[0]) & sc.p.Side(f.Side.Other()) &^ bitOf(on[1])
	if sc.hangs(f.Side, on[0]) && others != 0 && sc.safeMoves(on[0]) == 0 {
		sc.add(PinAttacked, f.Side, on[0], on[1], on[2], first(f.Side, others)).Amount = 0
	}
	if man != bitboard.Queen && (behind == bitboard.King || behind == bitboard.Queen) {
		sc.add(PinLasting, f.Side, on[:3]...)
	}
}

// safeMoves is the piece's facts.Mobility.
func (sc *scene) safeMoves(on Square) int {
	for i := range sc.facts {
		if f := &sc.facts[i]; f.Kind == facts.Mobility && f.Subject() == on {
			return f.Amount
		}
	}
	return 0
}

func stuck(sc *scene, f *facts.Fact) {
	on := f.Subject()
	t := f.Pieces()[0].Type()
	if t != bitboard.Knight || homeward(f.Side, on).Rank() < 2 || sc.hangs(f.Side, on) || sc.number() < stuckFrom || sc.p.Pinned(f.Side).Has(on) {
		return
	}
	around := sc.p.Attackers(on)
	attackers, guards := (around & sc.p.Side(f.Side.Other())).Count(), (around & sc.p.Side(f.Side)).Count()
	if guards > 0 && (attackers == 0 || attackers < guards) {
		return
	}
	sc.add(NoSafeSquare, f.Side, on)
}
