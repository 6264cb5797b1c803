package journal

import (
	"encoding/binary"
	"hash/crc32"
	"math"
	"time"
)

// row is a record as the table holds it, without its seq.
type row struct {
	at         int64 // Unix ns of its first event
	kind, feed string
	board      int
	n          int // events in it
	key        bool
	body       []byte
}

// The kinds of records. Their names are on disk: never rename one.
const (
	kindPacket  = "packet"
	kindAnswers = "answers"
	kindFailed  = "failed"
	kindHand    = "hand"
	kindPanel   = "panel"  // what a co-host did
	kindDesk    = "desk"   // what was done at a desk
	kindKnown   = "known"  // what the reference said of positions
	kindJudged  = "judged" // what the engine said of positions
	kindSegment = "segment"
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// sum is the checksum of a row under its seq: seq, at, board, n and key as eight
// bytes each, lowest first; kind, 0, feed, 0, body.
func (r *row) sum(seq int64) uint32 {
	buf := make([]byte, 0, 5*8+len(r.kind)+len(r.feed)+2)
	for _, v := range []int64{seq, r.at, int64(r.board), int64(r.n), bit(r.key)} {
		buf = binary.LittleEndian.AppendUint64(buf, uint64(v))
	}
	buf = append(append(buf, r.kind...), 0)
	buf = append(append(buf, r.feed...), 0)
	return crc32.Update(crc32.Checksum(buf, castagnoli), castagnoli, r.body)
}

// rowOverhead is about what a row takes in the file besides its body.
const rowOverhead = 48

// size is about how many bytes the row takes in the file.
func (r *row) size() int64 {
	return int64(len(r.body) + len(r.feed) + rowOverhead)
}

func bit(b bool) int64 {
	if b {
		return 1
	}
	return 0
}

// stamp returns a time as the table holds it: Unix ns, which reach from the year
// 1678 to 2262, and the smallest number for the zero time.
func stamp(t time.Time) int64 {
	if t.IsZero() {
		return math.MinInt64
	}
	return t.UnixNano()
}

// timeOf undoes stamp.
func timeOf(ns int64) time.Time {
	if ns == math.MinInt64 {
		return time.Time{}
	}
	return time.Unix(0, ns).UTC()
}
