package reference

import "encoding/binary"

// anyYear says that the games of a tally are of several years.
const anyYear = -1

// append appends a tally. The year is that of all its games, or anyYear: then
// it stands beside each game.
func (t *tally) append(b []byte, year int) []byte {
	for _, v := range [...]uint64{t.games, t.white, t.draws, t.black, t.rated, t.sum, t.best} {
		b = binary.AppendUvarint(b, v)
	}
	game := func(age uint64) {
		if year == anyYear {
			b = binary.AppendUvarint(b, age>>32&YearMost)
		}
		b = binary.AppendUvarint(b, age&0xffffffff)
	}
	b = binary.AppendUvarint(b, t.top>>44)
	game(t.top)
	if t.games > 1 {
		b = binary.AppendUvarint(b, t.second>>44)
		game(t.second)
		game(t.latest)
	}
	return b
}

// read is the counterpart of append.
func (t *tally) read(c *cursor, year int) {
	t.games, t.white, t.draws, t.black = c.uvarint(), c.uvarint(), c.uvarint(), c.uvarint()
	t.rated, t.sum, t.best = c.uvarint(), c.uvarint(), c.uvarint()
	t.top = c.uvarint()<<44 | c.age(year)
	t.second, t.latest = 0, t.top&(1<<44-1)
	if t.games > 1 {
		t.second = c.uvarint()<<44 | c.age(year)
		t.latest = c.age(year)
	}
}

func (c *cursor) age(year int) uint64 {
	y := uint64(year)
	if year == anyYear {
		y = c.uvarint()
	}
	return y<<32 | c.uvarint()
}
