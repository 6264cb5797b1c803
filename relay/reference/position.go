package reference

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"math/bits"
)

// bodyMost is more than the size of any body or detail: movesMost moves in games
// of every year do not fill it.
const bodyMost = 1 << 25

// positionWriter turns occurrences into blocks.
type positionWriter struct {
	w     *Writer
	block blockWriter

	any      bool
	previous Occurrence

	games, moves int    // of the current position
	moveBytes    []byte // its finished moves
	run          run    // its current move
	details      details
	buf          []byte
}

func (p *positionWriter) begin(w *Writer) {
	p.w = w
	p.block.out, p.details.out = w.out, w.out
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
	p.endMove()
	p.startMove(o)
	return nil
}

func (p *positionWriter) startPosition(o Occurrence) {
	p.games, p.moves, p.moveBytes = 0, 0, p.moveBytes[:0]
	p.details.position, p.details.at = o.Position, 0
	p.startMove(o)
}

func (p *positionWriter) startMove(o Occurrence) {
	p.moves++
	p.run.start(o.Move)
}

func (p *positionWriter) endMove() {
	p.moveBytes = p.run.end(p.moveBytes, p.w.attributes, &p.details)
}

func (p *positionWriter) endPosition() {
	p.w.head.positions++
	if p.games == 1 {
		p.endSingle()
		return
	}
	p.endMove()
	position := p.previous.Position
	p.buf = append(binary.AppendUvarint(p.buf[:0], uint64(p.details.at)), p.moveBytes...)
	if len(p.buf) <= inlineMost {
		p.block.add(position, byte(inlineTag+len(p.buf)), p.buf)
		return
	}
	// Outside the blocks, so that its neighbours are not slow to find.
	var row [largeRow]byte
	binary.LittleEndian.PutUint64(row[:], uint64(p.w.out.at))
	binary.LittleEndian.PutUint32(row[8:], uint32(p.w.out.piece(position, p.buf)))
	p.block.add(position, largeTag, row[:])
}

// endSingle ends a position that one game reached.
func (p *positionWriter) endSingle() {
	id := uint32(p.previous.Game)
	width := max(1, (bits.Len32(id)+7)/8)
	p.buf = binary.LittleEndian.AppendUint16(p.buf[:0], p.previous.Move)
	p.buf = binary.LittleEndian.AppendUint32(p.buf, id)
	p.block.add(p.previous.Position, byte(width-1), p.buf[:2+width])
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

// sumOf is the checksum of a block, a large body or a piece of details. It begins
// from the position, so that one in another's place is found out.
func sumOf(position uint64, b []byte) uint32 {
	return crc32.Update(uint32(position>>32)^uint32(position), castagnoli, b)
}
