package reference

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"
)

// How a move's games are written, by their number.
const (
	summaryFrom = 17   // from here on a summary stands before them
	cellsFrom   = 2049 // from here on they are cells, not a list
	bodyMost    = 1 << 28
)

// positionWriter turns occurrences into blocks.
type positionWriter struct {
	w     *Writer
	block blockWriter

	any      bool
	previous Occurrence

	games, moves int    // of the current position
	body         []byte // its finished moves
	run          run    // its current move
	single       [2 + 4]byte
}

func (p *positionWriter) begin(w *Writer) {
	p.w = w
	p.block.out, p.block.head = w.out, &w.head
}

func (p *positionWriter) add(o Occurrence) error {
	if uint64(o.Game) >= uint64(len(p.w.attributes)) {
		return fmt.Errorf("occurrence: %w: game %d of %d", ErrLimit, o.Game, len(p.w.attributes))
	}
	if p.any {
		if err := p.follows(o); err != nil {
			return err
		}
	} else {
		p.startPosition(o)
	}
	p.any, p.previous = true, o
	p.games++
	p.w.head.occurrences++
	p.run.add(p.w.attributes, o.Game)
	return p.w.out.err
}

// follows takes what o begins: a position, a move or neither.
func (p *positionWriter) follows(o Occurrence) error {
	last := p.previous
	switch {
	case o.Position > last.Position:
		p.endPosition()
		p.startPosition(o)
		return nil
	case last.Compare(o) >= 0:
		return fmt.Errorf("occurrence: %w: %x after %x", ErrUnsorted, o, last)
	case o.Move == last.Move:
		return nil
	case (o.Move^last.Move)&BlackMoves != 0:
		return fmt.Errorf("occurrence: %w: both sides on move in position %x", ErrLimit, o.Position)
	case p.moves == movesMost:
		return fmt.Errorf("occurrence: %w: %d moves in position %x", ErrLimit, movesMost, o.Position)
	}
	p.body = p.run.end(p.body, p.w.attributes)
	p.startMove(o)
	return nil
}

func (p *positionWriter) startPosition(o Occurrence) {
	p.games, p.moves, p.body = 0, 0, p.body[:0]
	p.startMove(o)
}

func (p *positionWriter) startMove(o Occurrence) {
	p.moves++
	p.run.start(o.Move)
}

func (p *positionWriter) endPosition() {
	p.w.head.positions++
	position := p.previous.Position
	if p.games == 1 {
		binary.LittleEndian.PutUint16(p.single[:], p.previous.Move)
		binary.LittleEndian.PutUint32(p.single[2:], uint32(p.previous.Game))
		width := idWidth(uint32(p.previous.Game))
		p.block.add(position, byte(width-1), p.single[:2+width])
		return
	}
	p.body = p.run.end(p.body, p.w.attributes)
	if len(p.body) > bodyMost {
		p.w.fail(fmt.Errorf("occurrence: %w: position %x is too varied", ErrLimit, position))
		return
	}
	if len(p.body) <= inlineMost {
		p.block.add(position, byte(inlineTag+len(p.body)), p.body)
		return
	}
	p.block.add(position, largeTag, p.writeLarge(position))
}

// writeLarge writes a body outside the blocks, so that its neighbours are not
// slow to find, and returns what refers to it.
func (p *positionWriter) writeLarge(position uint64) []byte {
	var row [largeRow]byte
	binary.LittleEndian.PutUint64(row[:], uint64(p.w.out.at))
	binary.LittleEndian.PutUint32(row[8:], uint32(len(p.body)+4))
	var sum [4]byte
	binary.LittleEndian.PutUint32(sum[:], sumOf(position, p.body))
	p.w.out.write(sum[:])
	p.w.out.write(p.body)
	return row[:]
}

func (p *positionWriter) end() {
	if p.any {
		p.endPosition()
	}
	p.block.flush()
	p.w.head.sections[data] = p.w.out.end()
	writeColumn(p.w.out, p.block.fence)
	p.block.fence = nil
	p.w.head.sections[fenceTable] = p.w.out.end()
}

// idWidth is the number of bytes that a game's number takes.
func idWidth(id uint32) int {
	switch {
	case id < 1<<8:
		return 1
	case id < 1<<16:
		return 2
	case id < 1<<24:
		return 3
	}
	return 4
}

// sumOf is the checksum of a block or a large body. The position is part of it,
// so that one in another's place is found out.
func sumOf(position uint64, b []byte) uint32 {
	var first [8]byte
	binary.LittleEndian.PutUint64(first[:], position)
	return crc32.Update(crc32.Checksum(first[:], castagnoli), castagnoli, b)
}
