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

// cell is year, group and hundred: bits 11-22, 6-10, 0-5.
type cell uint32

func cellOf(a attributes) cell { return cell(a.year()<<11 | a.group()<<6 | a.hundred()) }

func (k cell) year() int    { return int(k >> 11) }
func (k cell) group() int   { return int(k >> 6 & 31) }
func (k cell) hundred() int { return int(k & 63) }

func (c *cells) reset() {
	if c.any() {
		clear(c.at)
		c.tallies = c.tallies[:0]
	}
}

func (c *cells) any() bool { return len(c.tallies) > 0 }

func (c *cells) add(id GameID, a attributes, black bool) {
	key := cellOf(a)
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

// append writes a piece for each of many spans of years, and appends the size of
// all pieces and the spans.
func (c *cells) append(body []byte, details *details) []byte {
	spans := spans{cells: c, details: details}
	spans.add(slices.Sorted(maps.Keys(c.at)))
	body = binary.AppendUvarint(body, spans.size)
	body = binary.AppendUvarint(body, uint64(len(spans.rows)))
	return append(body, spans.rows...)
}

type spans struct {
	*cells
	details *details
	size    uint64
	rows    []byte // first year, years after it, size of the piece
}

// add adds a span of years and then its halves, so that any years are made of
// few spans. Unknown years stand alone.
func (s *spans) add(keys []cell) {
	first, last := keys[0].year(), keys[len(keys)-1].year()
	s.details.buf = s.appendGroups(s.details.buf[:0], keys)
	size := s.details.write()
	s.size += size
	for _, v := range [...]uint64{uint64(first), uint64(last - first), size} {
		s.rows = binary.AppendUvarint(s.rows, v)
	}
	if first < last {
		middle := halve(keys)
		s.add(keys[:middle])
		s.add(keys[middle:])
	}
}

// halve returns where the second half of the years begins.
func halve(keys []cell) int {
	var starts []int
	for i := 1; i < len(keys); i++ {
		if keys[i].year() != keys[i-1].year() {
			starts = append(starts, i)
		}
	}
	if keys[0].year() == 0 {
		return starts[0]
	}
	return starts[(len(starts)-1)/2]
}

// appendGroups appends a row for each group and hundred that there is, the
// hundreds in ascending order: the games of this hundred and all higher ones
// together. So a filter needs one row of a group.
func (c *cells) appendGroups(b []byte, keys []cell) []byte {
	var sums [groups][cellHundreds]tally
	var there [groups]bool
	for _, key := range keys {
		sums[key.group()][key.hundred()].merge(&c.tallies[c.at[key]])
		there[key.group()] = true
	}
	for g := range sums {
		if there[g] {
			b = append(b, byte(g), 0, 0, 0, 0)
			start := len(b)
			b = appendRows(b, &sums[g])
			binary.LittleEndian.PutUint32(b[start-4:], uint32(len(b)-start))
		}
	}
	return b
}

const (
	groups       = (classBits + 1) * (venueBits + 1)
	cellHundreds = RatingMost/100 + 1
)

func appendRows(b []byte, sums *[cellHundreds]tally) []byte {
	var above [cellHundreds + 1]tally
	for h := cellHundreds - 1; h >= 0; h-- {
		above[h] = above[h+1]
		above[h].merge(&sums[h])
	}
	for h := range sums {
		if sums[h].games > 0 {
			b = append(b, byte(h), 0)
			start := len(b)
			b = above[h].append(b)
			b[start-1] = byte(len(b) - start)
		}
	}
	return b
}
