package reference

// query counts the games of a position.
type query struct {
	x        *Index
	position uint64
	sieve    sieve
	out      *Answer
	latest   uint64 // age of out.Last
	at       int64  // of the next detail
	bad      bool   // something cannot be read
	err      error  // reading a detail
}

// single answers from the body of a position that one game reached.
func (q *query) single(tag byte, body []byte) {
	move := uint16(body[0]) | uint16(body[1])<<8
	id := uint64(0)
	for i := int(tag) + 2; i >= 2; i-- {
		id = id<<8 | uint64(body[i])
	}
	var t tally
	q.out.Unfiltered = 1
	q.game(id, move, &t)
	q.add(move, &t)
}

// moves answers from a body of moves.
func (q *query) moves(body []byte) {
	c := cursor{b: body}
	q.at = int64(c.uvarint())
	for len(c.b) > 0 && !q.bad {
		move := c.uint16()
		games := c.uvarint()
		q.out.Unfiltered += int(games)
		var t tally
		switch {
		case games < summaryFrom:
			q.list(&c, games, move, &t)
		case games < cellsFrom:
			q.listed(&c, games, move, &t)
		default:
			q.cells(&c, &t)
		}
		q.bad = q.bad || c.bad
		q.add(move, &t)
	}
	q.bad = q.bad || c.bad
}

// listed counts games that have a summary, and a list beside the body.
func (q *query) listed(c *cursor, games uint64, move uint16, t *tally) {
	t.read(c)
	size := c.uvarint()
	if q.sieve.all {
		q.at += int64(size)
		return
	}
	*t = tally{}
	list := cursor{b: q.detail(size)}
	q.list(&list, games, move, t)
	q.bad = q.bad || list.bad
}

// list counts the games of a list that pass.
func (q *query) list(c *cursor, games uint64, move uint16, t *tally) {
	all, sieve, black := q.x.attributes, q.sieve, move&BlackMoves != 0
	id := uint64(0)
	for range games {
		id += c.uvarint()
		if id >= uint64(len(all)) || c.bad {
			q.bad = true
			return
		}
		if a := all[id]; sieve.passes(a) {
			t.add(GameID(id), a, black)
		}
	}
}

// game counts a game if it passes.
func (q *query) game(id uint64, move uint16, t *tally) {
	all := q.x.attributes
	if id >= uint64(len(all)) {
		q.bad = true
		return
	}
	if a := all[id]; q.sieve.passes(a) {
		t.add(GameID(id), a, move&BlackMoves != 0)
	}
}

// cells counts games that have a summary, and beside the body a piece for each of
// many spans of years. A span is followed by its parts.
func (q *query) cells(c *cursor, t *tally) {
	t.read(c)
	end := q.at + int64(c.uvarint())
	spans := cursor{b: c.take(c.uvarint())}
	if !q.sieve.all {
		*t = tally{}
		q.spans(&spans, t)
	}
	q.at = end
}

// spans adds up the largest spans that lie within the filter's years.
func (q *query) spans(c *cursor, t *tally) {
	taken := int64(-1) // up to this year
	for len(c.b) > 0 {
		first := c.uvarint()
		last := first + c.uvarint()
		size := c.uvarint()
		if c.bad || int64(first) <= taken || !q.sieve.years(first, last) {
			q.at += int64(size)
			continue
		}
		taken = int64(last)
		piece := cursor{b: q.detail(size)}
		for len(piece.b) > 0 {
			q.group(&piece, t)
		}
		q.bad = q.bad || piece.bad
	}
	q.bad = q.bad || c.bad
}

// group adds the first row of the minimum rating or more: it counts all that are
// higher, too.
func (q *query) group(c *cursor, t *tally) {
	group := c.byte()
	rows := cursor{b: c.take(uint64(c.uint32()))}
	if q.sieve.groups>>group&1 == 0 {
		return
	}
	for len(rows.b) > 0 {
		hundred, size := rows.byte(), rows.byte()
		row := cursor{b: rows.take(uint64(size))}
		if uint64(hundred)*100 < q.sieve.rating {
			continue
		}
		var u tally
		u.read(&row)
		c.bad = c.bad || row.bad
		t.merge(&u)
		return
	}
	c.bad = c.bad || rows.bad
}

// detail reads the next detail.
func (q *query) detail(size uint64) []byte {
	at := q.at
	q.at += int64(size)
	if size > bodyMost || !q.x.head.inData(at, int(size)) || size < sumSize {
		q.bad = true
		return nil
	}
	var err error
	if q.out.detail, err = q.x.checked(q.out.detail, at, int(size), q.position); err != nil {
		q.bad, q.err = true, err
		return nil
	}
	return q.out.detail[sumSize:]
}
