package bitboard

import "strconv"

// FEN returns the position in Forsyth-Edwards Notation. As the standard has it, the en
// passant square is written after every double step (PGN 16.1.3.4).
func (p *Position) FEN() string {
	const enough = 90
	b := make([]byte, 0, enough)
	for rank := 7; rank >= 0; rank-- {
		b = p.appendRank(b, rank)
		if rank > 0 {
			b = append(b, '/')
		}
	}
	b = append(b, ' ', "wb"[p.turn&1], ' ')
	b = p.appendCastles(b)
	b = append(b, ' ')
	b = append(b, p.passed.String()...)
	b = strconv.AppendUint(append(b, ' '), uint64(p.quiet), 10)
	b = strconv.AppendUint(append(b, ' '), uint64(p.number), 10)
	return string(b)
}

// String returns the FEN.
func (p *Position) String() string { return p.FEN() }

func (p *Position) appendRank(b []byte, rank int) []byte {
	empty := byte(0)
	for file := range 8 {
		piece := p.Piece(NewSquare(file, rank))
		if piece == NoPiece {
			empty++
			continue
		}
		if empty > 0 {
			b = append(b, '0'+empty)
		}
		b, empty = append(b, piece.Letter()), 0
	}
	if empty > 0 {
		b = append(b, '0'+empty)
	}
	return b
}

func (p *Position) appendCastles(b []byte) []byte {
	if p.castles == 0 {
		return append(b, '-')
	}
	for i, rook := range [...]Square{H1, A1, H8, A8} {
		if p.castles.Has(rook) {
			b = append(b, "KQkq"[i])
		}
	}
	return b
}
