package reference

// query counts the games of a position.
type query struct {
	all    []attributes
	sieve  *sieve
	out    *Answer
	latest uint64 // age of out.Last
	bad    bool   // the body cannot be read
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
	for len(c.b) > 0 && !c.bad && !q.bad {
		move := c.uint16()
		games := c.uvarint()
		q.out.Unfiltered += int(games)
		var t tally
		if games < summaryFrom {
			q.list(&c, games, move, &t)
		} else {
			q.summed(&c, games, move, &t)
		}
		q.add(move, &t)
	}
	q.bad = q.bad || c.bad
}

// summed counts games that have a summary.
func (q *query) summed(c *cursor, games uint64, move uint16, t *tally) {
	t.read(c, anyYear)
	rest := cursor{b: c.take(c.uvarint())}
	if q.sieve.all {
		return
	}
	*t = tally{}
	if games < cellsFrom {
		q.list(&rest, games, move, t)
	} else {
		q.cells(&rest, t)
	}
	q.bad = q.bad || rest.bad
}

func (q *query) list(c *cursor, games uint64, move uint16, t *tally) {
	id := uint64(0)
	for range games {
		id += c.uvarint()
		q.game(id, move, t)
	}
}

// game counts a game if it passes.
func (q *query) game(id uint64, move uint16, t *tally) {
	if id >= uint64(len(q.all)) {
		q.bad = true
		return
	}
	if a := q.all[id]; q.sieve.passes(a) {
		t.add(GameID(id), a, move&BlackMoves != 0)
	}
}

// cells adds up the rows that pass: one a group, or one a year.
func (q *query) cells(c *cursor, t *tally) {
	for len(c.b) > 0 {
		group := attributes(c.byte()) << 38
		rest := cursor{b: c.take(c.uvarint())}
		if !q.sieve.kinds(group) {
			continue
		}
		q.group(&rest, t)
		c.bad = c.bad || rest.bad
	}
}

func (q *query) group(c *cursor, t *tally) {
	rows := cursor{b: c.take(c.uvarint())}
	if q.sieve.anyYear() {
		q.row(&rows, anyYear, t)
		c.bad = c.bad || rows.bad
		return
	}
	for len(c.b) > 0 {
		year := c.uvarint()
		rows := cursor{b: c.take(c.uvarint())}
		if q.sieve.years(year) {
			q.row(&rows, int(year), t)
			c.bad = c.bad || rows.bad
		}
	}
}

// row adds the first row of the minimum rating or more: it counts all that are higher.
func (q *query) row(c *cursor, year int, t *tally) {
	for len(c.b) > 0 {
		hundred, size := c.byte(), c.byte()
		row := cursor{b: c.take(uint64(size))}
		if uint64(hundred)*100 < q.sieve.rating {
			continue
		}
		var u tally
		u.read(&row, year)
		c.bad = c.bad || row.bad
		t.merge(&u)
		return
	}
}

// add adds the games of a move to the answer.
func (q *query) add(move uint16, t *tally) {
	if t.games == 0 || q.bad {
		return
	}
	out := q.out
	if out.Games == 0 || t.latest > q.latest {
		q.latest, out.Last, out.LastMove = t.latest, GameID(t.latest), move&^BlackMoves
	}
	out.Games += int(t.games)
	out.White += int(t.white)
	out.Draws += int(t.draws)
	out.Black += int(t.black)
	if move&^BlackMoves == 0 {
		return
	}
	out.Moves = append(out.Moves, MoveAnswer{
		Move: move &^ BlackMoves, Games: int(t.games), White: int(t.white), Draws: int(t.draws), Black: int(t.black),
		BestRating: int(t.best), MeanRating: t.mean(), LastYear: int(t.latest >> 32), Examples: out.pick(t),
	})
}

// pick chooses the examples: highest rated, latest, second highest rated.
func (out *Answer) pick(t *tally) []GameID {
	start := len(out.examples)
	top, latest, second := GameID(t.top), GameID(t.latest), GameID(t.second)
	out.examples = append(out.examples, top)
	if latest != top {
		out.examples = append(out.examples, latest)
	}
	if t.games > 1 && second != latest {
		out.examples = append(out.examples, second)
	}
	end := len(out.examples)
	return out.examples[start:end:end]
}
