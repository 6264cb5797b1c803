package bitboard

// written is a move as a text gives it, taken apart.
type written struct {
	from      Set       // where the piece may come from, as far as the text says
	piece     PieceType // NoPieceType when both squares are given and no piece
	promotion PieceType
	to        Square
	castle    castle
}

type castle uint8

const (
	noCastle castle = iota
	castleShort
	castleLong
)

// readMove takes a move apart. Nearly all are read in one go; what that cannot take is
// looked at again in a plainer form.
func readMove(text string) (written, bool) {
	if w, ok := readShort(text); ok {
		return w, true
	}
	if w, ok := readPlain(text); ok {
		return w, true
	}
	const longest = 7 // Pe7d8=Q
	var room [longest]byte
	plainer, ok := plain(text, room[:0])
	if !ok {
		return written{}, false
	}
	return readPlain(string(plainer))
}

// readShort reads the commonest moves: e4, Nf3, exd5, Nxf3, Nbd2, and no others.
func readShort(s string) (w written, ok bool) {
	n := len(s)
	if n < 2 || n > 4 || signs[s[n-2]] != signFile || signs[s[n-1]] != signRank {
		return w, false
	}
	w = written{from: ^Set(0), piece: Pawn, to: squareOf(s[n-2], s[n-1])}
	if n == 2 {
		return w, true
	}
	if n == 4 && s[1] != 'x' {
		switch signs[s[1]] {
		case signFile:
			w.from = FileSet(int(s[1] - 'a'))
		case signRank:
			w.from = RankSet(int(s[1] - '1'))
		default:
			return w, false
		}
	}
	switch {
	case signs[s[0]] == signPiece:
		w.piece = letterType(s[0])
	case signs[s[0]] == signFile && n == 4 && s[1] == 'x':
		w.from = FileSet(int(s[0] - 'a'))
	default:
		return w, false
	}
	return w, true
}

// readPlain reads a move without spaces, figurines and signs of en passant.
func readPlain(s string) (w written, ok bool) {
	for s != "" && isMark(s[len(s)-1]) {
		s = s[:len(s)-1]
	}
	squares, n := uint64(0), 0 // files and ranks, the last one lowest
	started := false           // something stood there that is no joint
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch signs[c] {
		case signFile, signRank:
			if w.promotion != NoPieceType {
				return w, false
			}
			squares, n = squares<<8|uint64(c), n+1
		case signJoint:
			continue
		case signPiece:
			if !w.takeLetter(c, started, n) {
				return w, false
			}
		case signSmall:
			if !w.takeLetter(c&^0x20, started, n) || !isRank(byte(squares)) {
				return w, false
			}
		case signCastle:
			return readCastle(s)
		default:
			return w, false
		}
		started = true
	}
	return w.takeSquares(squares, n)
}

// takeLetter takes the letter of a piece: the one that moves in front of everything,
// the one a pawn becomes behind its square.
func (w *written) takeLetter(c byte, started bool, squares int) bool {
	t := letterType(c)
	if !started {
		w.piece = t
		return true
	}
	if squares < 2 || w.promotion != NoPieceType || w.piece > Pawn || t == King || t == Pawn {
		return false
	}
	w.promotion = t
	return true
}

func readCastle(s string) (w written, ok bool) {
	switch s {
	case "O-O", "0-0", "o-o":
		w.castle = castleShort
	case "O-O-O", "0-0-0", "o-o-o":
		w.castle = castleLong
	}
	return w, w.castle != noCastle
}

// takeSquares reads up to two of file, rank, and square; the last two signs are the
// square of arrival.
func (w written) takeSquares(squares uint64, n int) (written, bool) {
	if n >= 3 && n <= 5 && byte(squares) == 'b' && isRank(byte(squares>>8)) && w.piece <= Pawn && w.promotion == NoPieceType {
		w.promotion = Bishop
		squares, n = squares>>8, n-1
	}
	file, rank := byte(squares>>8), byte(squares)
	if n < 2 || n > 4 || !isFile(file) || !isRank(rank) {
		return w, false
	}
	w.to = squareOf(file, rank)
	w.from = ^Set(0)
	if n > 2 && !w.takeFrom(squares>>16, n-2) {
		return w, false
	}
	if n < 4 && w.piece == NoPieceType {
		w.piece = Pawn
	}
	return w, true
}

// takeFrom reads one or two signs of the square of departure, in either order.
func (w *written) takeFrom(squares uint64, n int) bool {
	last, first := byte(squares), byte(squares>>8)
	if n == 2 && isFile(first) == isFile(last) {
		return false
	}
	for ; n > 0; n-- {
		if c := byte(squares); isFile(c) {
			w.from &= FileSet(int(c - 'a'))
		} else {
			w.from &= RankSet(int(c - '1'))
		}
		squares >>= 8
	}
	return true
}
