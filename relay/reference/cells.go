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

// append appends the spans of years and writes a piece for each.
func (c *cells) append(body []byte, details *details) []byte {
	keys := slices.Sorted(maps.Keys(c.at))
	years := 1
	for i := range keys[1:] {
		if keys[i].year() != keys[i+1].year() {
			years++
		}
	}
	body = binary.AppendUvarint(body, uint64(2*years-1))
	return c.appendSpan(body, keys, details)
}

// appendSpan appends a span of years and then those of its halves, so that any
// years are made of few spans. Unknown years stand alone.
func (c *cells) appendSpan(body []byte, keys []cell, details *details) []byte {
	first, last := keys[0].year(), keys[len(keys)-1].year()
	details.buf = c.appendGroups(details.buf[:0], keys)
	body = binary.AppendUvarint(body, uint64(first))
	body = binary.AppendUvarint(body, uint64(last-first))
	body = binary.AppendUvarint(body, details.write())
	if first == last {
		return body
	}
	middle := halve(keys)
	body = c.appendSpan(body, keys[:middle], details)
	return c.appendSpan(body, keys[middle:], details)
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
