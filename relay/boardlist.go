package relay

// boardsChunk is how many boards lie together in a boardList.
const boardsChunk = 16

// boardList is the boards of a kept show. Lists that follow on each other share the chunks in
// which no board is another: of 200 boards a move changes one.
type boardList struct {
	chunks []*[boardsChunk]*keptBoard // never changed
	n      int
}

// at returns the board at an index, from 0, nil where there is none.
func (l boardList) at(i int) *keptBoard {
	if i >= l.n {
		return nil
	}
	return l.chunks[i/boardsChunk][i%boardsChunk]
}

// with returns the list of these boards, which came after those of l.
func (l boardList) with(boards []*keptBoard) boardList {
	next := boardList{chunks: l.chunks, n: len(boards)}
	if len(boards) != l.n {
		next.chunks = make([]*[boardsChunk]*keptBoard, (len(boards)+boardsChunk-1)/boardsChunk)
		copy(next.chunks, l.chunks)
	}
	own := len(boards) != l.n // the chunks are this list's
	for from := 0; from < len(boards); from += boardsChunk {
		these := boards[from:min(len(boards), from+boardsChunk)]
		if l.has(from, these) {
			continue
		}
		if !own {
			next.chunks, own = append([]*[boardsChunk]*keptBoard(nil), l.chunks...), true
		}
		chunk := new([boardsChunk]*keptBoard)
		copy(chunk[:], these)
		next.chunks[from/boardsChunk] = chunk
	}
	return next
}

// has reports whether the chunk from an index on holds these boards and no others.
func (l boardList) has(from int, these []*keptBoard) bool {
	if min(l.n, from+boardsChunk) != from+len(these) {
		return false
	}
	for i, b := range these {
		if l.at(from+i) != b {
			return false
		}
	}
	return true
}

// others counts the boards that are not those of the list before.
func (l boardList) others(before boardList) (n int) {
	for c, chunk := range l.chunks {
		if c < len(before.chunks) && before.chunks[c] == chunk {
			continue
		}
		for i := c * boardsChunk; i < min(l.n, (c+1)*boardsChunk); i++ {
			if l.at(i) != before.at(i) {
				n++
			}
		}
	}
	return n
}

// boards returns them as a show has them. Those that are near, and which near was made of, are
// the same ones.
func (l boardList) boards(near boardList, made []*Board) []*Board {
	boards := make([]*Board, l.n)
	for i := range boards {
		if k := l.at(i); near.at(i) == k {
			boards[i] = made[i]
		} else {
			boards[i] = k.board()
		}
	}
	return boards
}

// shares counts the chunks that two lists have in common.
func (l boardList) shares(other boardList) (n int) {
	for i := range min(len(l.chunks), len(other.chunks)) {
		if l.chunks[i] == other.chunks[i] {
			n++
		}
	}
	return n
}

// same reports whether two lists are the very same.
func (l boardList) same(other boardList) bool {
	return l.n == other.n && (l.n == 0 || &l.chunks[0] == &other.chunks[0])
}
