package relay

import "clocktell/relay/pgn"

// Told returns the game as the board's feed told it last, with the moves that were entered
// by hand; nil before any. Nothing of it may be changed.
func (b *Board) Told() *pgn.Game { return b.taken }

// FENAfter returns the position after so many plies, at most those that were played.
func (b *Board) FENAfter(plies int) string {
	return deskGame{b}.Position(min(max(0, plies), len(b.Plies))).String()
}

// StartTag returns the position that the game was set up with, as its FEN tag has it; ""
// for the usual one.
func (b *Board) StartTag() string { return b.start.text }
