package main

import (
	"context"
	"fmt"
	"log/slog"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/relaytest"
)

// A day's show: rounds of an hour on so many boards, two feeds that answer every
// second, and pauses between.
const (
	dayRounds = 5
	dayBoards = 6
	dayPause  = 40 * time.Minute
	dayMoves  = "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Nb8 d4 Nbd7 Nbd2 Bb7 Bc2 Re8 Nf1 Bf8 Ng3 g6 a4 c5 " +
		"d5 c4 Bg5 Nc5 Qd2 h6 Be3 Nfd7 Rad1 Kh7 Nh2 Bg7 Ng4 h5 Nh2 Rh8 Nf3 Kg8 Bh6 Bxh6 Qxh6 Qf8 Qd2 Qe7 axb5 axb5 Ra1 Nb6 Rxa8+ Bxa8"
)

// dayPacket is what a feed says after so many plies of a round.
func dayPacket(round, plies int) []byte {
	words := strings.Fields(dayMoves)
	var games []relaytest.Game
	for board := range dayBoards {
		n := min(len(words), max(0, (plies+board)/dayBoards))
		g := relaytest.Game{White: fmt.Sprintf("White%d, W", board), Table: fmt.Sprint(board + 1), Round: fmt.Sprint(round + 1), Control: "1500+10", Moves: strings.Join(words[:n], " ")}
		for ply := range n {
			g.Clocks = append(g.Clocks, fmt.Sprintf("0:%02d:%02d", 24-ply/3, 59-ply%60))
		}
		if n == len(words) {
			g.Result = "1/2-1/2"
		}
		games = append(games, g)
	}
	return []byte(relaytest.Packet(games...))
}

// recordDay writes a day's show into a journal and returns its folder.
func recordDay(tb testing.TB) (config.Config, relay.Timebase) {
	tb.Helper()
	c := config.Default()
	c.Journal.Dir = tb.TempDir()
	for _, name := range []string{"arena", "hall"} {
		f := config.DefaultFeed()
		f.Name, f.URL = name, "http://127.0.0.1:1/"
		c.Feeds = append(c.Feeds, f)
	}
	c.Feeds[1].BackupOf = "arena"
	base := relay.NewTimebaseAt(demoStart, 1)
	kept, _, err := openJournal(tb.Context(), c, planOf(c, base), base, slog.New(slog.DiscardHandler), nil)
	if err != nil {
		tb.Fatal(err)
	}
	in, out := make(chan relay.Event, 64), make(chan relay.Event, 64)
	done := make(chan error)
	go func() { done <- kept.Run(context.Background(), in, out) }()
	go func() {
		for range out {
		}
	}()
	sendDay(c, in)
	close(in)
	if err := <-done; err != nil {
		tb.Fatal(err)
	}
	close(out)
	if err := kept.Close(); err != nil {
		tb.Fatal(err)
	}
	return c, base
}

func sendDay(c config.Config, in chan<- relay.Event) {
	readers := make(intakes)
	at := demoStart
	for round := range dayRounds {
		total := dayBoards * len(strings.Fields(dayMoves))
		for second := range 3600 {
			at = at.Add(time.Second)
			packet := dayPacket(round, second*total/3500)
			for _, f := range c.Feeds {
				in <- readers.of(f.Name).Read(at, packet)
			}
		}
		for range dayPause / time.Second {
			at = at.Add(time.Second)
			for _, f := range c.Feeds {
				in <- relay.FeedAnswered{At: at, Feed: f.Name}
			}
		}
	}
}

// BenchmarkRestoreDay is the time from opening the journal of a day's show to having
// the show back.
func BenchmarkRestoreDay(b *testing.B) {
	c, base := recordDay(b)
	var records, boards int
	for b.Loop() {
		kept, r, err := openJournal(b.Context(), c, planOf(c, base), base, slog.New(slog.DiscardHandler), nil)
		if err != nil {
			b.Fatal(err)
		}
		records, boards = r.records, len(r.show.Boards)
		kept.Close()
	}
	if boards != dayBoards || records < 2*3600*dayRounds {
		b.Fatalf("%d boards of %d records: the benchmark measures something else", boards, records)
	}
	b.ReportMetric(float64(records), "records")
}
