package bitboard

import "strings"

// What a byte of a move can be.
const (
	signOther  = iota // needs a second look, see plain
	signFile          // a to h
	signRank          // 1 to 8
	signJoint         // says nothing: x : - = / ( )
	signPiece         // K Q R B N P
	signSmall         // q r n, behind a square; the bishop's b is a file as well
	signCastle        // O 0 o
)

var signs = func() (table [256]uint8) {
	for letters, sign := range map[string]uint8{
		"abcdefgh": signFile, "12345678": signRank, "x:-=/()": signJoint,
		"KQRBNP": signPiece, "qrn": signSmall, "O0o": signCastle,
	} {
		for _, c := range []byte(letters) {
			table[c] = sign
		}
	}
	return table
}()

// isMark reports what may stand behind a move and says nothing of which it is.
func isMark(c byte) bool { return c == '+' || c == '#' || c == '!' || c == '?' }

func letterType(c byte) PieceType {
	switch c {
	case 'N':
		return Knight
	case 'B':
		return Bishop
	case 'R':
		return Rook
	case 'Q':
		return Queen
	case 'K':
		return King
	}
	return Pawn
}

// plain appends a move without what readPlain does not take: a draw offer, spaces
// around it, e.p., figurines, the sign of multiplication. It fails when more is left
// than any move has.
func plain(text string, room []byte) (plainer []byte, ok bool) {
	s := strings.TrimSuffix(text, "(=)")
	s = strings.TrimSuffix(strings.TrimSpace(s), "e.p.")
	s = strings.TrimRight(strings.TrimSpace(s), "+#!?")
	if s != "" && signs[s[0]] == signCastle {
		if len(s) > len("O-O-O") {
			return nil, false
		}
		return append(room, s...), true
	}
	for s != "" {
		c, size := s[0], 1
		switch {
		case strings.HasPrefix(s, "×"):
			c, size = 'x', len("×")
		case len(s) >= 3 && s[:2] == "\xE2\x99" && s[2] >= 0x94 && s[2] <= 0x9F: // U+2654 to U+265F
			c, size = "KQRBNP"[(s[2]-0x94)%6], 3
		}
		s = s[size:]
		if signs[c] == signJoint {
			continue
		}
		if signs[c] == signOther || len(room) == cap(room) {
			return nil, false
		}
		room = append(room, c)
	}
	return room, true
}
