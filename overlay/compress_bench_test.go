package overlay

import (
	"bytes"
	"compress/flate"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// BenchmarkDeflate is what compression of messages (RFC 7692) would cost and win with the frames that
// pages are really sent: the time to deflate one, and its bytes before and after. The library has
// the same compressor, and deflates for each page anew; the write of a frame to a page takes some 10
// microseconds (BenchmarkFanout). "after another" is with the frame before as what is known already.
func BenchmarkDeflate(b *testing.B) {
	move, before, whole := deflateFrames()
	for _, test := range []struct {
		name         string
		frame, known []byte
	}{
		{"a move", move, nil}, {"a move after another", move, before}, {"a board whole", whole, nil},
	} {
		b.Run(test.name, func(b *testing.B) {
			var out bytes.Buffer
			w, err := flate.NewWriter(&out, flate.BestSpeed)
			if err != nil {
				b.Fatal(err)
			}
			deflate := func(text []byte) {
				out.Reset()
				if _, err := w.Write(text); err != nil {
					b.Fatal(err)
				}
				if err := w.Flush(); err != nil {
					b.Fatal(err)
				}
			}
			for b.Loop() {
				b.StopTimer()
				w.Reset(&out)
				deflate(test.known)
				b.StartTimer()
				deflate(test.frame)
			}
			b.ReportMetric(float64(len(test.frame)), "bytes")
			b.ReportMetric(float64(out.Len()-len("\x00\x00\xff\xff")), "deflated") // the end is not sent (RFC 7692, 7.2.1)
		})
	}
}

// deflateFrames are a move and the one before, and the whole board then.
func deflateFrames() (move, before, whole []byte) {
	feed, show, at := newFanoutFeed(), relay.NewShow(relaytest.Plan(), relaytest.Start), relaytest.Start
	for range 60 {
		at = at.Add(30 * time.Second)
		event, _ := feed.next(at)
		show = show.After(event)
		board := show.Boards[0]
		before, move, whole = move, encode(boardFrame(board, board.Rev-1)), encode(boardFrame(board, 0))
	}
	return move, before, whole
}
