package build

import (
	"encoding/binary"
	"fmt"
	"hash/fnv"

	"clocktell/relay/bitboard"
	"clocktell/relay/pgn"
	"clocktell/relay/reference"
)

// player plays games through and notes their positions.
type player struct {
	depth   int
	hashes  []uint64 // of the game's positions so far
	moves   []bitboard.Move
	records []record
}

// play notes the positions that a game reaches, each the first time, with the move that
// follows; the last one, where the game or the depth ends, with none. An error says
// why the move at ply, from 0, cannot be played; then nothing is noted.
func (p *player) play(moves []pgn.Move, from bitboard.Position, game uint32) (ply int, err error) {
	noted := len(p.records)
	p.hashes, p.moves = p.hashes[:0], p.moves[:0]
	at := from
	n := min(len(moves), p.depth)
	for i := range n {
		move, err := at.ParseSAN(moves[i].SAN)
		if err != nil {
			p.records = p.records[:noted]
			return i, err
		}
		p.note(&at, uint16(move), game)
		at.Make(move)
		p.moves = append(p.moves, move)
	}
	p.note(&at, 0, game)
	return n, nil
}

// note notes a position unless the game has been there. Behind a capture or a pawn's
// move nothing comes back, and what does has the same side to move.
func (p *player) note(at *bitboard.Position, move uint16, game uint32) {
	hash := at.Hash()
	n := len(p.hashes)
	least := max(0, n-at.HalfmoveClock())
	again := false
	for i := n - 4; i >= least; i -= 2 {
		again = again || p.hashes[i] == hash
	}
	p.hashes = append(p.hashes, hash)
	if again {
		return
	}
	if at.Turn() == bitboard.Black {
		move |= reference.BlackMoves
	}
	p.records = append(p.records, newRecord(hash, move, game))
}

// moveName says which move of the game a ply is, counted from its first.
func moveName(ply int, first bitboard.Colour) string {
	if first == bitboard.Black {
		ply++
	}
	dots := "."
	if ply%2 == 1 {
		dots = "…"
	}
	return fmt.Sprintf("move %d%s", ply/2+1, dots)
}

// identity is the same for two games with the same players, year, positions up to the
// depth and number of moves.
func (p *player) identity(h *header, plies int) uint64 {
	sum := fnv.New64a()
	sum.Write([]byte(h.White))
	sum.Write([]byte{0})
	sum.Write([]byte(h.Black))
	var word [8]byte
	for _, n := range []uint64{uint64(h.Year), uint64(plies)} {
		sum.Write(binary.LittleEndian.AppendUint64(word[:0], n))
	}
	mixed := sum.Sum64()
	for _, hash := range p.hashes {
		mixed = (mixed ^ hash) * 0x9E3779B97F4A7C15
		mixed ^= mixed >> 32
	}
	return mixed
}
