package reference

import "encoding/binary"

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
	if len(r.games) == cellsFrom-1 {
		for _, id := range r.games {
			r.cells.add(id, all[id], r.black())
		}
		r.games = r.games[:0]
	}
	if r.cells.any() {
		r.cells.add(id, all[id], r.black())
		return
	}
	r.games = append(r.games, id)
}

func (r *run) black() bool { return r.move&BlackMoves != 0 }

// end appends the move and its games to a body.
func (r *run) end(body []byte, all []attributes) []byte {
	body = binary.LittleEndian.AppendUint16(body, r.move)
	if r.cells.any() {
		return r.endCells(body)
	}
	body = binary.AppendUvarint(body, uint64(len(r.games)))
	if len(r.games) < summaryFrom {
		return appendGames(body, r.games)
	}
	var t tally
	for _, id := range r.games {
		t.add(id, all[id], r.black())
	}
	body = t.append(body, anyYear)
	return appendSized(body, func(b []byte) []byte { return appendGames(b, r.games) })
}

func (r *run) endCells(body []byte) []byte {
	t := r.cells.total()
	body = binary.AppendUvarint(body, t.games)
	body = t.append(body, anyYear)
	return appendSized(body, r.cells.append)
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

// appendSized appends what a function appends, after its size.
func appendSized(b []byte, by func([]byte) []byte) []byte {
	const most = binary.MaxVarintLen32
	start := len(b)
	b = by(append(b, make([]byte, most)...))
	size := len(b) - start - most
	n := binary.PutUvarint(b[start:], uint64(size))
	copy(b[start+n:], b[start+most:])
	return b[:start+n+size]
}
