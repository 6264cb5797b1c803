package opinion

import "clocktell/relay/bitboard"

// Natural is why a move is what most would play without much thought.
type Natural uint8

// The reasons, the strongest first.
const (
	NotNatural Natural = iota
	Recapture          // it takes back what has just captured, and loses nothing by exchange on that square
	TakesFree          // it takes a piece, and gains hangs by exchange on that square
	MostPlayed         // the reference has it in most games that came here
)

// hangs is what a capture gains that nobody overlooks, in centipawns: two pawns.
const hangs = 2 * bitboard.PawnValue

// NaturalMove returns the move that most would play in a position, and why; NotNatural
// where there is none. Last is the move that led there from before; usual is what the
// reference has in most games, NoMove for nothing. Of several captures it is the one that
// gains most by exchange on its square, then the one with the least man.
func NaturalMove(before, place *bitboard.Position, last, usual bitboard.Move) (bitboard.Move, Natural) {
	if last != bitboard.NoMove && before.Piece(last.To()) != bitboard.NoPiece {
		if m, gain := bestCapture(place, bitboard.SetOf(last.To())); m != bitboard.NoMove && gain >= 0 {
			return m, Recapture
		}
	}
	pieces := place.Side(place.Turn().Other()) &^ place.Types(bitboard.Pawn)
	if m, gain := bestCapture(place, pieces); m != bitboard.NoMove && gain >= hangs {
		return m, TakesFree
	}
	if usual != bitboard.NoMove {
		return usual, MostPlayed
	}
	return bitboard.NoMove, NotNatural
}

// bestCapture returns the capture on one of the squares that gains most, NoMove for none.
func bestCapture(place *bitboard.Position, on bitboard.Set) (bitboard.Move, int) {
	var room [bitboard.MaxMoves]bitboard.Move
	best, gain := bitboard.NoMove, 0
	for _, m := range place.Moves(room[:0]) {
		if !on.Has(m.To()) {
			continue
		}
		if g := place.Exchange(m); best == bitboard.NoMove || g > gain || g == gain && lesser(place, m, best) {
			best, gain = m, g
		}
	}
	return best, gain
}

func lesser(place *bitboard.Position, a, b bitboard.Move) bool {
	return bitboard.Value(place.Piece(a.From()).Type()) < bitboard.Value(place.Piece(b.From()).Type())
}

// Plain reports that nobody needs to be told of a move: it is the natural capture, or one
// of hardly any that are legal.
func Plain(before, place *bitboard.Position, last, move bitboard.Move) bool {
	var room [bitboard.MaxMoves]bitboard.Move
	if len(place.Moves(room[:0])) <= fewMoves {
		return true
	}
	if natural, why := NaturalMove(before, place, last, bitboard.NoMove); why != NotNatural && natural == move {
		return true
	}
	// Another man may take back as well.
	return last != bitboard.NoMove && before.Piece(last.To()) != bitboard.NoPiece && move.To() == last.To()
}

// fewMoves is how many legal moves are so few that the choice is plain to all.
const fewMoves = 2
