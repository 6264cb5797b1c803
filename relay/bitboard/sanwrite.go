package bitboard

// SAN returns a legal move in Standard Algebraic Notation (PGN 8.2.3): with no more of
// the square of departure than the legal moves ask for, and with + or #.
func (p *Position) SAN(m Move) string {
	const longest = 8 // Qa1xb2+ and a byte more
	return string(p.AppendSAN(make([]byte, 0, longest), m))
}

// AppendSAN appends what SAN returns.
func (p *Position) AppendSAN(b []byte, m Move) []byte {
	from, to := m.From(), m.To()
	kind := p.typeOn(from)
	captures := p.Occupied().Has(to) || kind == Pawn && to == p.passed
	switch {
	case kind == King && m == p.castling(true) && to == from+2:
		b = append(b, "O-O"...)
	case kind == King && m == p.castling(false) && to+2 == from:
		b = append(b, "O-O-O"...)
	case kind == Pawn && captures:
		b = append(b, 'a'+byte(from.File()), 'x')
		b = appendSquare(b, to)
	case kind == Pawn:
		b = appendSquare(b, to)
	default:
		b = p.appendOrigin(append(b, kind.Letter()), from, to, kind)
		if captures {
			b = append(b, 'x')
		}
		b = appendSquare(b, to)
	}
	if t := m.Promotion(); t != NoPieceType {
		b = append(b, '=', t.Letter())
	}
	return p.appendCheck(b, m)
}

func appendSquare(b []byte, s Square) []byte {
	return append(b, 'a'+byte(s.File()), '1'+byte(s.Rank()))
}

// appendOrigin appends what tells the piece from others of its kind that may legally
// go to the same square: the file, or else the rank, or else both (PGN 8.2.3.4).
func (p *Position) appendOrigin(b []byte, from, to Square, kind PieceType) []byte {
	var others Set
	for s := p.sources(kind, to) &^ from.bit(); s != 0; s = s.Rest() {
		if p.legal(s.First(), to, kind) {
			others |= s & -s
		}
	}
	switch {
	case others == 0:
	case others&FileSet(from.File()) == 0:
		b = append(b, 'a'+byte(from.File()))
	case others&RankSet(from.Rank()) == 0:
		b = append(b, '1'+byte(from.Rank()))
	default:
		b = appendSquare(b, from)
	}
	return b
}

func (p *Position) appendCheck(b []byte, m Move) []byte {
	next := *p
	next.Make(m)
	switch {
	case !next.InCheck():
		return b
	case next.HasMove():
		return append(b, '+')
	}
	return append(b, '#')
}
