package remark

import (
	"math/bits"

	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// scene is a position being looked at. Pairs are by Colour.
type scene struct {
	before, p *Position
	move      Move // NoMove in the first position of a game
	mover     Colour
	turn      Colour
	captured  bool
	inCheck   bool
	facts     facts.Facts
	hanging   [2]Set
	worst     [2]int // the most that is won of the side by capturing what hangs
	pieces    [2]int // knights, bishops, rooks and queens
	queens    [2]Set
	earlier   *State // after the ply before
	memory    memory
	found     []Remark
	looked    bool // settled was asked for
	calm      bool // and this was its answer
}

// usual is the room for the facts of a position.
const usual = 96

func newScene(before *Position, m Move, after *Position, hashes []uint64, earlier *State) scene {
	sc := scene{before: before, p: after, move: m, turn: after.Turn(), mover: after.Turn().Other(), earlier: earlier}
	sc.captured = m != bitboard.NoMove && before.Occupied().Count() != after.Occupied().Count()
	sc.inCheck = after.InCheck()
	for c := range both {
		sc.queens[c] = after.Pieces(c, bitboard.Queen)
		pawns, king := after.Types(bitboard.Pawn), after.Types(bitboard.King)
		sc.pieces[c] = (after.Side(c) &^ pawns &^ king).Count()
	}
	sc.facts = facts.AppendOf(make(facts.Facts, 0, usual), after, hashes...)
	for i := range sc.facts {
		if f := &sc.facts[i]; f.Kind == facts.Hanging {
			sc.hanging[f.Side] |= bitOf(f.Subject())
			sc.worst[f.Side] = max(sc.worst[f.Side], f.Amount)
		}
	}
	sc.memory = sc.remembered(earlier.ply + 1)
	for i := range sc.facts {
		if find := finders[sc.facts[i].Kind]; find != nil {
			find(&sc, &sc.facts[i])
		}
	}
	for _, find := range ownFinders {
		for c := range both {
			find(&sc, c)
		}
	}
	return sc
}

// both is for ranging over the two colours.
const both = bitboard.Black + 1

func bitOf(s Square) Set { return bitboard.SetOf(s) }

// homeward turns a square so that the side's own first rank is the first.
func homeward(c Colour, s Square) Square { return s ^ 56*Square(c) }

// flipped is homeward for a set.
func flipped(c Colour, s Set) Set {
	if c == bitboard.Black {
		return Set(bits.ReverseBytes64(uint64(s)))
	}
	return s
}

// first returns the lowest square of a set as the side sees the board.
func first(c Colour, s Set) Square { return homeward(c, flipped(c, s).First()) }

// finders make findings of one fact, ownFinders of the position alone.
var (
	finders    [256]func(*scene, *facts.Fact)
	ownFinders []func(*scene, Colour)
)

func init() {
	findChances()
	findKings()
	findPieces()
	findPawns()
	findBalance()
	findDraws()
	findSeries()
	findCalm()
	findOwnCalm()
	findMoreCalm()
	findEarlyCalm()
}

// add makes a finding. The pointer is good until the next add.
func (sc *scene) add(rule Rule, side Colour, squares ...Square) *Remark {
	sc.found = append(sc.found, Remark{Rule: rule, Side: side})
	r := &sc.found[len(sc.found)-1]
	for _, s := range squares {
		if int(r.count) < MostSquares {
			r.on[r.count], r.men[r.count] = s, sc.p.Piece(s)
			r.count++
		}
	}
	return r
}

// drop takes the last finding back.
func (sc *scene) drop() { sc.found = sc.found[:len(sc.found)-1] }

// stood reports whether the last finding was found in the position before.
func (sc *scene) stood() bool {
	return was(sc.earlier.found, &sc.found[len(sc.found)-1]) != nil
}

// spoken reports whether the last finding was found and said before.
func (sc *scene) spoken() bool {
	one := was(sc.earlier.found, &sc.found[len(sc.found)-1])
	return one != nil && one.Said > 0
}

// has reports whether there is a fact of that kind about that side.
func (sc *scene) has(kind facts.Kind, side Colour) bool { return sc.facts.Has(kind, side) }

// quiet is as Rule has it.
func (sc *scene) quiet() bool {
	pieces := sc.hanging[sc.turn] &^ sc.p.Types(bitboard.Pawn)
	return !sc.captured && !sc.inCheck && sc.hanging[sc.mover]|pieces == 0 && !sc.promotable()
}

// ending reports that there are no queens and at most two pieces on each side.
func (sc *scene) ending() bool {
	return sc.queens[0]|sc.queens[1] == 0 && sc.pieces[0] <= 2 && sc.pieces[1] <= 2
}

func (sc *scene) minors(c Colour) Set {
	return sc.p.Pieces(c, bitboard.Knight) | sc.p.Pieces(c, bitboard.Bishop)
}

// bare reports that the side has its king alone.
func (sc *scene) bare(c Colour) bool { return sc.p.Side(c).Rest() == 0 }

func (sc *scene) rooks(c Colour) Set { return sc.p.Pieces(c, bitboard.Rook) }

// number is that of the move to come.
func (sc *scene) number() int { return sc.p.MoveNumber() }

// ripe reports whether the moment is right for a finding that is timely.
func (sc *scene) ripe(r *Remark) bool {
	return sc.apt(r) && (!rules[r.Rule].counted || sc.settled())
}

// apt is ripe but for the search of what is counted.
func (sc *scene) apt(r *Remark) bool {
	if rules[r.Rule].quiet && !sc.quiet() {
		return false
	}
	if t := rules[r.Rule].topic; (t == aBalance || t == aPasser || t == aMate) && (sc.bare(0) || sc.bare(1)) {
		return false // everybody sees who wins
	}
	moment := moments[r.Rule]
	return moment == nil || moment(sc, r)
}

// moments are the conditions that only count when a finding becomes a remark.
var moments [256]func(*scene, *Remark) bool
