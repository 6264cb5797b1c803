package relay_test

import (
	"fmt"
	"hash/maphash"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// ruy is 60 plies of a game made up for the benchmark.
const ruy = "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Nb8 d4 Nbd7 Nbd2 Bb7 Bc2 Re8 Nf1 Bf8 Ng3 g6 a4 c5 " +
	"d5 c4 Bg5 Nc5 Qd2 h6 Be3 Nfd7 Rad1 Kh7 Nh2 Bg7 Ng4 h5 Nh2 Rh8 Nf3 Kg8 Bh6 Bxh6 Qxh6 Qf8 Qd2 Qe7 axb5 axb5 Ra1 Nb6 Rxa8+ Bxa8"

func benchPacket(boards, plies int, last string) []byte {
	moves := strings.Fields(ruy)
	games := make([]relaytest.Game, boards)
	for i := range games {
		games[i] = relaytest.Game{White: fmt.Sprintf("White%d, W", i), Table: fmt.Sprint(i + 1), Control: "600+5", Moves: strings.Join(moves[:plies], " ")}
		for range plies {
			games[i].Clocks = append(games[i].Clocks, "0:09:30")
		}
	}
	games[boards-1].Moves += last
	return []byte(relaytest.Packet(games...))
}

// BenchmarkOneMoveOf40Boards is what a poll costs that brings one new move: read
// the packet, find the change, work out the board. The floor is to hash its bytes.
func BenchmarkOneMoveOf40Boards(b *testing.B) {
	packets := [][]byte{benchPacket(40, 59, ""), benchPacket(40, 59, " Bxa8")}
	b.Run("read and apply", func(b *testing.B) {
		plan := relay.Plan{MaxBoards: 40, Feeds: []relay.FeedPlan{{Name: "hall", Every: time.Second, Late: time.Hour, Stale: time.Hour}}}
		show, intake, now := relay.NewShow(plan, relaytest.Start), relay.NewIntake("hall"), relaytest.Start
		for i := 0; b.Loop(); i++ {
			now = now.Add(time.Second)
			show = show.Apply(intake.Read(now, packets[i%2]))
		}
		b.SetBytes(int64(len(packets[0])))
		if board := show.Boards[39]; board.Fault != "" || len(board.Plies) < 59 {
			b.Fatalf("%d plies, fault %q: the benchmark measures something else", len(board.Plies), board.Fault)
		}
	})
	b.Run("hash only", func(b *testing.B) {
		seed := maphash.MakeSeed()
		for i := 0; b.Loop(); i++ {
			maphash.Bytes(seed, packets[i%2])
		}
		b.SetBytes(int64(len(packets[0])))
	})
}

// manyGames returns a packet of 200 games of 25 KB each, 5 MB, one of them with that
// many plies.
func manyGames(plies int) []byte {
	const boards, bytes = 200, 25_000
	var out strings.Builder
	for i := range boards {
		g := relaytest.Game{White: fmt.Sprintf("White%d, W", i), Table: fmt.Sprint(i + 1), Control: "600+5", Moves: moves(56)}
		if i == boards/2 {
			g.Moves = moves(plies)
		}
		for range strings.Fields(g.Moves) {
			g.Clocks = append(g.Clocks, "0:09:30")
		}
		text := g.PGN()
		at := strings.LastIndex(text, "}") + 1
		note := "{" + strings.Repeat(" words of a commentator", (bytes-len(text))/23) + " }"
		out.WriteString(text[:at] + " " + note + text[at:] + "\n")
	}
	return []byte(out.String())
}

// BenchmarkChangedPoll is a poll of 200 boards in 5 MB with one new move: packet to
// events, against hashing the bytes alone, measured by turns in the same run.
func BenchmarkChangedPoll(b *testing.B) {
	packets := [][]byte{manyGames(56), manyGames(57)}
	in, seed := relay.NewIntake("hall"), maphash.MakeSeed()
	in.Read(relaytest.Start, packets[0])
	var read, hash time.Duration
	b.SetBytes(int64(len(packets[0])))
	for i := 1; b.Loop(); i++ {
		packet := packets[i%2]
		start := time.Now()
		event, _ := in.Read(relaytest.Start, packet).(relay.PacketRead)
		middle := time.Now()
		maphash.Bytes(seed, packet)
		read, hash = read+middle.Sub(start), hash+time.Since(middle)
		if len(event.Games) != 1 || len(event.Keys) != 200 {
			b.Fatalf("%d games changed of %d, want 1 of 200", len(event.Games), len(event.Keys))
		}
	}
	b.ReportMetric(float64(read.Nanoseconds())/float64(b.N), "read-ns")
	b.ReportMetric(float64(hash.Nanoseconds())/float64(b.N), "hash-ns")
	b.ReportMetric(float64(read)/float64(hash), "x-hash")
}

// BenchmarkChangedPollToState is the same poll as far as the new state of the show.
func BenchmarkChangedPollToState(b *testing.B) {
	packets := [][]byte{manyGames(56), manyGames(57)}
	plan := relay.Plan{MaxBoards: 200, Feeds: []relay.FeedPlan{{Name: "hall", Every: time.Second, Late: time.Hour, Stale: time.Hour}}}
	show, in, now := relay.NewShow(plan, relaytest.Start), relay.NewIntake("hall"), relaytest.Start
	for i := 0; b.Loop(); i++ {
		now = now.Add(time.Second)
		show = show.Apply(in.Read(now, packets[i%2]))
	}
	if n := len(show.Boards); n != 200 {
		b.Fatalf("%d boards", n)
	}
}
