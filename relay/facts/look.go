package facts

import (
	"math/bits"

	"clocktell/relay/bitboard"
)

// usual is how many facts a position has at most as a rule; lists begin with that room.
const usual = 96

// Of returns the facts of a position, but for those that only a game knows, see Game.
// The hashes of the earlier positions of the game, if any are given, tell whether the
// position is repeated; the position's own is not among them.
func Of(p *Position, earlier ...uint64) Facts {
	return AppendOf(make(Facts, 0, usual), p, earlier...)
}

// AppendOf appends to list what Of returns. It allocates nothing while there is room.
func AppendOf(list Facts, p *Position, earlier ...uint64) Facts {
	var l look
	l.begin(p)
	l.list = list
	l.material()
	l.pieces()
	l.tactics()
	l.kings()
	l.structure()
	l.draws(earlier)
	return l.list
}

// look is one position being looked at. Every pair is by Colour.
type look struct {
	p        *Position
	turn     Colour
	checkers Set
	occupied Set
	side     [2]Set
	pawns    [2]Set
	pieceSet [2]Set // knights, bishops, rooks and queens
	king     [2]Square
	attacked [2]Set      // squares that the side's men attack
	views    [2]Position // with that side to move
	hanging  [2]Set
	moves    [2][bitboard.MaxMoves]Move
	count    [2]int
	outcomes [2][bitboard.MaxMoves]int // of each move
	list     Facts
}

func (l *look) begin(p *Position) {
	l.p, l.turn, l.checkers, l.occupied = p, p.Turn(), p.Checkers(), p.Occupied()
	for c := range both {
		l.side[c] = p.Side(c)
		l.pawns[c] = p.Pieces(c, bitboard.Pawn)
		l.king[c] = p.KingSquare(c)
		l.pieceSet[c] = l.side[c] &^ l.pawns[c] &^ bitboard.SetOf(l.king[c])
		for s := l.side[c]; s != 0; s = s.Rest() {
			l.attacked[c] |= bitboard.Attacks(s.First(), p.Piece(s.First()), l.occupied)
		}
	}
	l.views[l.turn] = *p
	l.views[l.turn.Other()] = passed(p)
	for c := range both {
		if c == l.turn || l.checkers == 0 {
			l.reckon(c)
		}
	}
}

// both is for ranging over the two colours.
const both = bitboard.Black + 1

// passed returns the position with the other side to move. A move from an empty square to
// itself does nothing but that, see TestPassed.
func passed(p *Position) Position {
	next := *p
	empty := (^p.Occupied()).First()
	next.Make(bitboard.NewMove(empty, empty, bitboard.NoPieceType))
	return next
}

// reckon finds a side's moves and their outcomes.
func (l *look) reckon(c Colour) {
	view := &l.views[c]
	moves := view.Moves(l.moves[c][:0])
	// More than MaxMoves only in a position set up so; the rest is not looked at.
	l.count[c] = copy(l.moves[c][:], moves)
	e := newExchange(view)
	for i, m := range l.moves[c][:l.count[c]] {
		l.outcomes[c][i] = e.outcome(m)
	}
}

// add begins a fact. The pointer is good until the next add.
func (l *look) add(kind Kind, side Colour) *Fact {
	l.list = append(l.list, Fact{Kind: kind, Side: side})
	return &l.list[len(l.list)-1]
}

// point adds squares to the last fact.
func (l *look) point(squares ...Square) {
	f := &l.list[len(l.list)-1]
	for _, s := range squares {
		if f.count == MostSquares {
			return
		}
		f.on[f.count], f.men[f.count] = s, l.p.Piece(s)
		f.count++
	}
}

// pointAll adds a set to the last fact, as that side sees it: from its a1 (a8) to its h8
// (h1), so that a mirrored position has the same order.
func (l *look) pointAll(c Colour, s Set) {
	for s = flipped(c, s); s != 0; s = s.Rest() {
		l.point(flippedSquare(c, s.First()))
	}
}

// flipped turns the board upside down for Black, so that rules can be written for White.
func flipped(c Colour, s Set) Set {
	if c == bitboard.Black {
		return Set(bits.ReverseBytes64(uint64(s)))
	}
	return s
}

func flippedSquare(c Colour, s Square) Square { return s ^ 56*Square(c) }
