package bus

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// quick is how fast the show time of the fold's test goes: a second of it is what a feed
// needs a minute for.
const quick = 60

// quickly makes a process's clock go faster.
func quickly(n *node) *node {
	began := time.Now()
	var ahead atomic.Int64
	n.o.Now = func() time.Time {
		return relaytest.Start.Add(quick*time.Since(began) + time.Duration(ahead.Load()))
	}
	n.o.Set = func(to time.Time) { ahead.Add(int64(to.Sub(n.o.Now()))) }
	n.o.Due = func() time.Duration {
		due := n.show.Load().Due()
		if due.IsZero() {
			return -1
		}
		return max(0, due.Sub(n.o.Now())+relay.Lag) / quick
	}
	return n
}

// TestSameShowEverywhere lets a leader read a feed, and people enter things, while time
// passes. Two that follow, and one that comes later, have the same show, with the same
// revisions.
func TestSameShowEverywhere(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a, done := quickly(newNode(t, s.URL(), "a")), make(chan struct{})
	a.lead = func(ctx context.Context, n *node) error {
		defer close(done)
		tellGames(ctx, n)
		return nil
	}
	nodes := []*node{a, quickly(newNode(t, s.URL(), "b")), quickly(newNode(t, s.URL(), "c")), quickly(newNode(t, s.URL(), "late"))}
	for _, n := range nodes[1:] {
		n.o.Follow = true
	}
	for _, n := range nodes[:3] {
		n.start()
	}
	<-done
	until(t, "time alone has changed the show", func() bool { return a.show.Load().Feeds[0].State == relay.FeedStale })
	nodes[3].start()
	if err := a.stop(); err != nil {
		t.Fatal(err)
	}
	last := a.bus.stream.last
	for _, n := range nodes[1:] {
		until(t, n.o.ID+" has all", func() bool { return n.bus.Now().Last == last && n.show.Load().At.Equal(a.show.Load().At) })
		if err := n.stop(); err != nil {
			t.Fatal(err)
		}
		wantSameShow(t, n.o.ID, n.show.Load(), a.show.Load())
	}
	if show := a.show.Load(); len(show.Boards) != 2 || show.Log.Total < 5 || len(show.Boards[0].Plies) != 40 || len(show.Table.Notes) == 0 {
		t.Errorf("too little happened: %d boards, %d in the log", len(show.Boards), show.Log.Total)
	}
}

// tellGames is a feed of two games, in Latin-1, that goes wrong at times.
func tellGames(ctx context.Context, n *node) {
	intake, every := relay.NewIntake(relaytest.FeedName), time.NewTicker(5*time.Millisecond)
	defer every.Stop()
	for i := range 60 {
		now := n.o.Now()
		switch {
		case i%20 == 7:
			n.in <- relay.FeedFailed{At: now, Feed: relaytest.FeedName, Reason: "timeout", Text: "it took too long"}
		case i%20 == 13:
			n.in <- relay.AtPanel{At: now, ID: fmt.Sprint("note-", i), Who: "Ada", Act: relay.PanelNote, Text: "look at board 2"}
		case i%20 == 17:
			n.in <- relay.ByHand{At: now, ID: fmt.Sprint("hand-", i), Board: 1, Act: relay.ActName, Side: "white", Text: fmt.Sprint("Weiss ", i)}
		default:
			n.in <- intake.Read(now, []byte(games(min(i, 40), i/2)))
		}
		select {
		case <-every.C:
		case <-ctx.Done():
			return
		}
	}
}

// games are two games of so many plies.
func games(plies, others int) string {
	game := func(white string, n int) relaytest.Game {
		moves := strings.Fields(strings.Repeat("Nf3 Nf6 Ng1 Ng8 Nc3 Nc6 Nb1 Nb8 ", 5))[:n]
		g := relaytest.Game{White: white, Moves: strings.Join(moves, " "), Control: "5400+30"}
		for i := range moves {
			g.Clocks = append(g.Clocks, fmt.Sprintf("1:%02d:%02d", 29-i/2, 59-i))
		}
		return g
	}
	return strings.ReplaceAll(relaytest.Packet(game("Weiß, Wanda", plies), game("Grün, Greta", others)), "ß", "\xdf")
}

// wantSameShow compares all that is the same for all processes: BusState is of each alone,
// and counts in FeedsRev.
func wantSameShow(t *testing.T, id string, got, want *relay.Show) {
	t.Helper()
	for i, b := range want.Boards {
		if i >= len(got.Boards) || got.Boards[i].Rev != b.Rev || got.Boards[i].Game != b.Game || len(got.Boards[i].Plies) != len(b.Plies) {
			t.Errorf("%s: board %d is another", id, i+1)
		}
	}
	g, w := reflect.ValueOf(*got), reflect.ValueOf(*want)
	for _, field := range []string{"At", "Began", "Title", "Said", "Table", "OnAir", "Holds", "Log", "Entries", "Totals", "HeadRev", "SourcesRev", "OpinionsRev", "Desk", "ClockErrors"} {
		if !reflect.DeepEqual(g.FieldByName(field).Interface(), w.FieldByName(field).Interface()) {
			t.Errorf("%s: %s is\n%+v, the leader has\n%+v", id, field, g.FieldByName(field), w.FieldByName(field))
		}
	}
	if !reflect.DeepEqual(got.Feeds, want.Feeds) {
		t.Errorf("%s: the feeds are\n%+v, the leader has\n%+v", id, got.Feeds[0], want.Feeds[0])
	}
}
