package build

import (
	"encoding/binary"
	"errors"

	"clocktell/relay/clock"
	"clocktell/relay/reference"
)

// A game is spilled as its identity in 8 bytes, little-endian; White, Black and Event,
// each behind its length in a byte; the two ratings and the year in 2 bytes each; and
// result, class and venue in a byte each. A last byte is 1 if the times of both sides
// follow, see timesLeast, else 0.
const (
	rowTail  = 3*2 + 3 + 1
	rowLeast = 8 + 3 + rowTail
)

func appendRow(b []byte, g *reference.Game, identity uint64, times *gameTimes) []byte {
	b = binary.LittleEndian.AppendUint64(b, identity)
	for _, s := range [...]string{g.White, g.Black, g.Event} {
		b = append(b, uint8(len(s))) // at most nameBytes
		b = append(b, s...)
	}
	for _, n := range [...]int{g.WhiteRating, g.BlackRating, g.Year} {
		b = binary.LittleEndian.AppendUint16(b, uint16(n)) // at most ratingMost and yearMost
	}
	b = append(b, uint8(g.Result), uint8(g.Class), uint8(g.Venue))
	if times == nil {
		return append(b, 0)
	}
	return times.append(append(b, 1))
}

// errRow says that spilled games are no games.
var errRow = errors.New("a game in it is damaged")

// row is a spilled game.
type row struct {
	reference.Game
	identity uint64
	times    []byte // of both sides, as they are spilled; nil: none. Only for as long as the row is read
}

// readRow reads the row at the start of b and returns its length.
func readRow(b []byte) (r row, n int, err error) {
	if len(b) < rowLeast {
		return r, 0, errRow
	}
	r.identity, n = binary.LittleEndian.Uint64(b), 8
	for _, s := range [...]*string{&r.White, &r.Black, &r.Event} {
		end := n + 1 + int(b[n])
		if end+rowTail > len(b) {
			return r, 0, errRow
		}
		*s = string(b[n+1 : end])
		n = end
	}
	for _, p := range [...]*int{&r.WhiteRating, &r.BlackRating, &r.Year} {
		*p = int(binary.LittleEndian.Uint16(b[n:]))
		n += 2
	}
	r.Result, r.Class, r.Venue = reference.Result(b[n]), clock.Class(b[n+1]), reference.Venue(b[n+2])
	n += 4
	if b[n-1] == 0 {
		return r, n, nil
	}
	size, ok := timesSize(b[n:])
	if !ok {
		return r, 0, errRow
	}
	r.times = b[n : n+size]
	return r, n + size, nil
}
