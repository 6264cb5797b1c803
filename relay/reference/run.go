package reference

import "encoding/binary"

// How the games of a move are written, by their number.
const (
	summaryFrom = 17   // below: a list in the body; from here on a summary, and details beside it
	cellsFrom   = 4096 // below, the details are a list; from here on they are cells
)

// run is the games that went on with one move, as they come.
type run struct {
	move  uint16
	games []GameID // as long as there are few
	cells cells    // once there are many
}

func (r *run) start(move uint16) {
	r.move, r.games = move, r.games[:0]
	r.cells.reset()
}

func (r *run) add(all []attributes, id GameID) {
	if r.cells.any() {
		r.cells.add(id, all[id], r.black())
		return
	}
	r.games = append(r.games, id)
	if len(r.games) < cellsFrom {
		return
	}
	for _, id := range r.games {
		r.cells.add(id, all[id], r.black())
	}
}

func (r *run) black() bool { return r.move&BlackMoves != 0 }

// end appends the move and its games to a body, and writes the details that go
// beside it.
func (r *run) end(body []byte, all []attributes, details *details) []byte {
	body = binary.LittleEndian.AppendUint16(body, r.move)
	if r.cells.any() {
		t := r.cells.total()
		body = binary.AppendUvarint(body, t.games)
		body = t.append(body)
		return r.cells.append(body, details)
	}
	body = binary.AppendUvarint(body, uint64(len(r.games)))
	if len(r.games) < summaryFrom {
		return appendGames(body, r.games)
	}
	var t tally
	for _, id := range r.games {
		t.add(id, all[id], r.black())
	}
	body = t.append(body)
	details.buf = appendGames(details.buf[:0], r.games)
	return binary.AppendUvarint(body, details.write())
}

// appendGames appends the first number and the distance of each of the others
// from the one before it.
func appendGames(b []byte, games []GameID) []byte {
	previous := GameID(0)
	for _, id := range games {
		b = binary.AppendUvarint(b, uint64(id-previous))
		previous = id
	}
	return b
}

// details are written while a body is put together, piece by piece, each after
// its checksum.
type details struct {
	out      *sink
	position uint64
	at       int64 // of the first piece; 0: there is none
	buf      []byte
}

// write writes the piece in buf and returns its size.
func (d *details) write() uint64 {
	if d.at == 0 {
		d.at = d.out.at
	}
	return d.out.piece(d.position, d.buf)
}

// piece writes a checksum and what it is of, and returns the size of both. The
// position is part of the sum, so that one in another's place is found out.
func (s *sink) piece(position uint64, b []byte) uint64 {
	var sum [sumSize]byte
	binary.LittleEndian.PutUint32(sum[:], sumOf(position, b))
	s.write(sum[:])
	s.write(b)
	return uint64(sumSize + len(b))
}
