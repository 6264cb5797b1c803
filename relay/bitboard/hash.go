package bitboard

// The keys of the hash. Files that store hashes depend on them: seed, generator and
// order never change, and TestHashGolden holds them.
var (
	pieceKeys   [16][64]uint64 // by Piece and Square
	castleKeys  [64]uint64     // by the square of the rook; only the back ranks have any
	passantKeys [8]uint64      // by file
	blackKey    uint64         // Black is to move
)

// keySeed begins the keys: the ASCII letters of "clocktel", the first one highest.
const keySeed = 0x636c6f636b74656c

// fillKeys draws the keys, in this order: White's pawn to king and Black's, each from
// a1 to h8; rooks that may castle, a1 to h1 and a8 to h8; en passant from the a-file
// to the h-file; Black to move.
func fillKeys() {
	g := generator(keySeed)
	for _, c := range []Colour{White, Black} {
		for t := Pawn; t <= King; t++ {
			for square := range pieceKeys[0] {
				pieceKeys[NewPiece(c, t)][square] = g.next()
			}
		}
	}
	for file := range 8 {
		castleKeys[file] = g.next()
	}
	for file := range 8 {
		castleKeys[56+file] = g.next()
	}
	for file := range passantKeys {
		passantKeys[file] = g.next()
	}
	blackKey = g.next()
}

// generator is splitmix64 (Steele, Lea and Flood, OOPSLA 2014): a counter whose steps
// are mixed.
type generator uint64

func (g *generator) next() uint64 {
	*g += 0x9e3779b97f4a7c15
	z := uint64(*g)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// fullHash returns the hash of the position from nothing but the position.
func (p *Position) fullHash() uint64 {
	var h uint64
	for s := p.Occupied(); s != 0; s = s.Rest() {
		h ^= pieceKeys[p.Piece(s.First())][s.First()]
	}
	h ^= castlesKey(p.castles)
	if p.canPass() {
		h ^= passantKeys[p.passed.File()]
	}
	if p.turn == Black {
		h ^= blackKey
	}
	return h
}

func castlesKey(rooks Set) uint64 {
	var h uint64
	for ; rooks != 0; rooks = rooks.Rest() {
		h ^= castleKeys[rooks.First()&63]
	}
	return h
}

// canPass reports whether the side to move has a legal capture en passant.
func (p *Position) canPass() bool {
	if p.passed == NoSquare {
		return false
	}
	takers := pawnSteps[p.turn.Other()&1][p.passed&63] & p.Pieces(p.turn, Pawn)
	for ; takers != 0; takers = takers.Rest() {
		if p.legal(takers.First(), p.passed, Pawn) {
			return true
		}
	}
	return false
}
