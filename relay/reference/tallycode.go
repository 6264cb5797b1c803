package reference

import "encoding/binary"

// append appends a tally of at least one game.
func (t *tally) append(b []byte) []byte {
	for _, n := range t.results {
		b = binary.AppendUvarint(b, n)
	}
	for _, v := range [...]uint64{t.games - t.rated, t.sum, t.best} {
		b = binary.AppendUvarint(b, v)
	}
	b = t.appendGame(b, t.latest>>32, t.latest)
	b = binary.AppendUvarint(b, t.top>>44)
	if t.games == 1 {
		return b // the highest rated is the latest
	}
	year := t.latest >> 32
	b = t.appendGame(b, year-t.top>>32&YearMost, t.top)
	b = binary.AppendUvarint(b, t.second>>44)
	return t.appendGame(b, year-t.second>>32&YearMost, t.second)
}

// appendGame appends a year and the number of a game.
func (t *tally) appendGame(b []byte, year, rank uint64) []byte {
	return binary.AppendUvarint(binary.AppendUvarint(b, year), rank&0xffffffff)
}

// read is the counterpart of append.
func (t *tally) read(c *cursor) {
	t.games = 0
	for r := range t.results {
		t.results[r] = c.uvarint()
		t.games += t.results[r]
	}
	t.rated = t.games - c.uvarint()
	t.sum, t.best = c.uvarint(), c.uvarint()
	year := c.uvarint()
	t.latest = year<<32 | c.uvarint()
	t.top, t.second = c.uvarint()<<44, 0
	if t.games == 1 {
		t.top |= t.latest
		return
	}
	t.top |= c.game(year)
	t.second = c.uvarint() << 44
	t.second |= c.game(year)
}

// game reads a year, as the distance from a later one, and the number of a game.
func (c *cursor) game(year uint64) uint64 {
	return (year-c.uvarint())<<32 | c.uvarint()
}
