package overlay

import (
	"bytes"
	"compress/flate"
	"fmt"
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
	move, before, whole, list := deflateFrames()
	for _, test := range []struct {
		name         string
		frame, known []byte
	}{
		{"a move", move, nil}, {"a move after another", move, before}, {"a board whole", whole, nil}, {"the show of 40 boards", list, nil},
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

// deflateFrames are a move and the one before, the whole board then, and a show of 40 boards.
func deflateFrames() (move, before, whole, list []byte) {
	feed, show, at := newFanoutFeed(), relay.NewShow(relaytest.Plan(), relaytest.Start), relaytest.Start
	for range 60 {
		at = at.Add(30 * time.Second)
		event, _ := feed.next(at)
		show = show.After(event)
		board := show.Boards[0]
		before, move, whole = move, encode(boardFrame(board, board.Rev-1)), encode(boardFrame(board, 0))
	}
	plan := relaytest.Plan()
	plan.MaxBoards = 40
	var games []relaytest.Game
	for n := range plan.MaxBoards {
		games = append(games, relaytest.Game{White: fmt.Sprintf("Weiss%d, Wanda", n), Black: fmt.Sprintf("Noir%d, Noel", n), Table: fmt.Sprint(n + 1), Moves: "e4 e5"})
	}
	many := relay.NewShow(plan, relaytest.Start).After(relay.NewIntake(relaytest.FeedName).Read(relaytest.Start, []byte(relaytest.Packet(games...))))
	return move, before, whole, encode(showFrame(many))
}
