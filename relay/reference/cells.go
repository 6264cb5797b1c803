package reference

import (
	"encoding/binary"
	"maps"
	"slices"
)

// cells count the games of a move by what filters ask: class and venue, year,
// hundred of the lower rating. The zero value is ready for use.
type cells struct {
	at      map[cell]int
	tallies []tally
}

// cell is group, year and hundred: bits 18-22, 6-17, 0-5.
type cell uint32

func (k cell) group() int   { return int(k >> 18) }
func (k cell) year() int    { return int(k >> 6 & 0xfff) }
func (k cell) hundred() int { return int(k & 0x3f) }

func (c *cells) reset() {
	if c.any() {
		clear(c.at)
		c.tallies = c.tallies[:0]
	}
}

func (c *cells) any() bool { return len(c.tallies) > 0 }

func (c *cells) add(id GameID, a attributes, black bool) {
	key := cell(a.group()<<18 | a.year()<<6 | a.hundred())
	i, ok := c.at[key]
	if !ok {
		if c.at == nil {
			c.at = make(map[cell]int)
		}
		i = len(c.tallies)
		c.at[key] = i
		c.tallies = append(c.tallies, tally{})
	}
	c.tallies[i].add(id, a, black)
}

func (c *cells) total() tally {
	var t tally
	for i := range c.tallies {
		t.merge(&c.tallies[i])
	}
	return t
}

// append appends all cells, a group after the other.
func (c *cells) append(b []byte) []byte {
	keys := slices.Sorted(maps.Keys(c.at))
	for len(keys) > 0 {
		n := sameGroup(keys)
		b = append(b, byte(keys[0].group()))
		b = appendSized(b, func(b []byte) []byte { return c.appendGroup(b, keys[:n]) })
		keys = keys[n:]
	}
	return b
}

// appendGroup appends the rows of all years, then those of each year.
func (c *cells) appendGroup(b []byte, keys []cell) []byte {
	b = appendSized(b, func(b []byte) []byte { return c.appendRows(b, keys, anyYear) })
	for len(keys) > 0 {
		n := sameYear(keys)
		year := keys[0].year()
		b = binary.AppendUvarint(b, uint64(year))
		b = appendSized(b, func(b []byte) []byte { return c.appendRows(b, keys[:n], year) })
		keys = keys[n:]
	}
	return b
}

// appendRows appends a row for each hundred that there is, in ascending order:
// the games of this hundred and all higher ones together. So a filter needs one row.
func (c *cells) appendRows(b []byte, keys []cell, year int) []byte {
	var sums [cellHundreds]tally
	var there [cellHundreds]bool
	for _, key := range keys {
		sums[key.hundred()].merge(&c.tallies[c.at[key]])
		there[key.hundred()] = true
	}
	for h := len(sums) - 2; h >= 0; h-- {
		sums[h].merge(&sums[h+1])
	}
	for h := range sums {
		if !there[h] {
			continue
		}
		b = append(b, byte(h), 0)
		start := len(b)
		b = sums[h].append(b, year)
		b[start-1] = byte(len(b) - start)
	}
	return b
}

const cellHundreds = RatingMost/100 + 1

// sameGroup returns how many keys at the beginning share a group.
func sameGroup(keys []cell) int {
	n := slices.IndexFunc(keys, func(k cell) bool { return k.group() != keys[0].group() })
	if n < 0 {
		return len(keys)
	}
	return n
}

// sameYear returns how many keys at the beginning share a group and a year.
func sameYear(keys []cell) int {
	n := slices.IndexFunc(keys, func(k cell) bool { return k>>6 != keys[0]>>6 })
	if n < 0 {
		return len(keys)
	}
	return n
}
