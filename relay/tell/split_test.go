package tell

import (
	"encoding/binary"
	"math/rand/v2"
	"reflect"
	"testing"

	"clocktell/relay/clock"
)

// However moves come in packets, the filter after them is the same: here games of
// hostile moves, cut anywhere, with questions asked between the packets and the
// last moves of a packet told again from the snapshot before them.
func TestSplitPackets(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for _, text := range []string{"900+10", "40/5400+30:1800+30", "0+1"} {
		for range 50 {
			moves := make([]Move, 40)
			for i := range moves {
				var b [12]byte
				binary.LittleEndian.PutUint64(b[:], rnd.Uint64())
				binary.LittleEndian.PutUint32(b[8:], rnd.Uint32())
				moves[i] = hostile(b[:], i)
			}
			whole := New(control(t, text))
			for _, m := range moves {
				whole = whole.Next(m)
			}
			parts := New(control(t, text))
			for done := 0; done < len(moves); {
				n := min(1+rnd.IntN(6), len(moves)-done)
				snapshot, again := parts, rnd.IntN(n+1)
				for _, m := range moves[done : done+n] {
					parts = parts.Next(m)
				}
				parts.Call(clock.White)
				parts.Running(clock.Black, sec, Quiet, 20)
				if again > 0 {
					parts = snapshot
					n = again
					for _, m := range moves[done : done+n] {
						parts = parts.Next(m)
					}
				}
				done += n
			}
			if !reflect.DeepEqual(whole, parts) {
				t.Fatalf("%s: in parts %+v, whole %+v", text, parts, whole)
			}
		}
	}
}
