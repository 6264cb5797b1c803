package relay

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay/bitboard"
	"clocktell/relay/pgn"
	"clocktell/relay/remark"
)

// benchGame is 60 plies made up for the benchmark.
const benchGame = "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Nb8 d4 Nbd7 Nbd2 Bb7 Bc2 Re8 Nf1 Bf8 Ng3 g6 a4 c5 " +
	"d5 c4 Bg5 Nc5 Qd2 h6 Be3 Nfd7 Rad1 Kh7 Nh2 Bg7 Ng4 h5 Nh2 Rh8 Nf3 Kg8 Bh6 Bxh6 Qxh6 Qf8 Qd2 Qe7 axb5 axb5 Ra1 Nb6 Rxa8+ Bxa8"

// BenchmarkPromptsPerPly is a ply from the reading of it to the new show, and how much of that are
// its remarks (x-without): what State.Next and the alerts take is measured by itself on the same
// position, by turns, each as the best of its tries.
func BenchmarkPromptsPerPly(b *testing.B) {
	moves := strings.Fields(benchGame)
	packet := func(plies int) []byte {
		var text strings.Builder
		game := pgn.Game{Result: "*", Tags: []pgn.Tag{{Name: "White", Value: "Weiss"}, {Name: "Black", Value: "Noir"}}}
		for _, san := range moves[:plies] {
			game.Moves = append(game.Moves, pgn.Move{SAN: san})
		}
		if err := pgn.Write(&text, &game); err != nil {
			b.Fatal(err)
		}
		return []byte(text.String())
	}
	now := time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)
	in := NewIntake("hall")
	plan := Plan{MaxBoards: 1, Feeds: []FeedPlan{{Name: "hall", Every: time.Second, Late: time.Hour, Stale: time.Hour}}}
	before := NewShow(plan, now).Apply(in.Read(now, packet(40)))
	event := in.Read(now.Add(time.Second), packet(41))
	least, own := time.Hour, time.Hour
	for b.Loop() {
		start := time.Now()
		after := before.Apply(event)
		middle := time.Now()
		board := after.Boards[0]
		last := &board.Plies[40]
		short := *board
		short.Plies = board.Plies[:40]
		short.remarksAfter(last)
		board.factConditions(now.Add(time.Second), true) // with the ply, so that a silence is filled
		least, own = min(least, middle.Sub(start)), min(own, time.Since(middle))
		if len(board.Plies) != 41 {
			b.Fatalf("%d plies", len(board.Plies))
		}
	}
	b.ReportMetric(float64(least.Nanoseconds()), "apply-ns")
	b.ReportMetric(float64(own.Nanoseconds()), "remarks-ns")
	b.ReportMetric(float64(least)/float64(least-own), "x-without")
}

// BenchmarkRemarks is what a ply's remarks take over whole games, against its facts alone.
func BenchmarkRemarks(b *testing.B) {
	p := bitboard.Start()
	state := remark.Begin(&p)
	type ply struct {
		before, after bitboard.Position
		move          bitboard.Move
		state         remark.State
	}
	var plies []ply
	for _, san := range strings.Fields(benchGame) {
		m, err := p.ParseSAN(san)
		if err != nil {
			b.Fatal(err)
		}
		one := ply{before: p, move: m, state: state}
		p.Make(m)
		one.after = p
		state = state.Next(&one.before, m, &p)
		plies = append(plies, one)
	}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		one := &plies[i%len(plies)]
		one.state.Next(&one.before, one.move, &one.after)
	}
}
