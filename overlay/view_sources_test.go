package overlay

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// told is the packet of one game after these moves, with a clock behind each.
func told(moves string) string {
	g := relaytest.Game{Table: "1", Control: "600+5", Moves: moves}
	for i := range strings.Fields(moves) {
		g.Clocks = append(g.Clocks, fmt.Sprintf("0:09:%02d", 59-i))
	}
	return relaytest.Packet(g)
}

// twoFeeds is a stage on which the primary and its backup have told a game.
func twoFeeds(primary, backup string) *relaytest.Stage {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(told(primary))
	s.TakeFrom(relaytest.BackupName, told(backup))
	return s
}

// do lets the producer do things on board 1, which must be taken.
func do(t *testing.T, s *relaytest.Stage, entries ...relay.ByHand) {
	t.Helper()
	for _, e := range entries {
		e.Board = 1
		if refused := s.Enter(e); refused != "" {
			t.Fatalf("%s refused: %s", e.Act, refused)
		}
	}
}

func TestSourcesFrame(t *testing.T) {
	s := twoFeeds("e4 e5 Nf3", "e4 e5 Nf3")
	do(t, s, relay.ByHand{Act: relay.ActMove, Ply: 4, SAN: "Nc6"}, relay.ByHand{Act: relay.ActClock, Ply: 3, Left: 9*time.Minute + 41*time.Second},
		relay.ByHand{Act: relay.ActName, Side: "black", Text: "Nacht, Nora"}, relay.ByHand{Act: relay.ActPin, Feed: relaytest.BackupName})
	got := sourcesFrame(s.Show)
	want := wire.Sources{Type: "sources", Errors: []wire.ClockErrorAt{}, Rev: s.Show.SourcesRev, Items: []wire.BoardSources{{
		Board: 1, White: "Weiss, Wanda", Black: "Nacht, Nora", Plies: 4, Last: "2...Nc6", Turn: "white", Next: "3.", Result: "*",
		Feed: relaytest.BackupName, Pinned: relaytest.BackupName, ByHand: []string{"2...Nc6", "clock 9:41 after 2.Nf3", "Black: Nacht, Nora"},
		Offers: []wire.Offer{{Feed: relaytest.FeedName, State: wire.OfferReady, Plies: 3}, {Feed: relaytest.BackupName, State: wire.OfferFollowed, Plies: 3}},
	}}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
	do(t, s, relay.ByHand{Act: relay.ActFreeze})
	if item := sourcesFrame(s.Show).Items[0]; item.Frozen != s.Now.UnixMilli() {
		t.Errorf("frozen since %d, want %d", item.Frozen, s.Now.UnixMilli())
	}
	if board := boardFrame(s.Board(1), 0); !board.Frozen || board.Feed != (wire.FeedState{Name: relaytest.BackupName, State: "ok"}) ||
		board.White.Clock.State != "held" || !board.Plies[3].ByHand || board.Plies[2].ByHand {
		t.Errorf("on the air: frozen %v, feed %+v, clock %+v, plies %+v", board.Frozen, board.Feed, board.White.Clock, board.Plies)
	}
}

// TestSourcesOfAnotherStart: moves are numbered as the game's own start says.
func TestSourcesOfAnotherStart(t *testing.T) {
	s := relaytest.NewStage()
	s.Take("[White \"A\"]\n[Black \"B\"]\n[SetUp \"1\"]\n[FEN \"4k3/8/8/8/8/8/4P3/4K3 b - - 0 40\"]\n\n40...Kd7 *\n")
	do(t, s, relay.ByHand{Act: relay.ActMove, Ply: 2, SAN: "e4"})
	if item := sourcesFrame(s.Show).Items[0]; item.Last != "41.e4" || item.Next != "41..." || item.Turn != "black" || fmt.Sprint(item.ByHand) != "[41.e4]" {
		t.Errorf("last %q, next %q, turn %q, by hand %q", item.Last, item.Next, item.Turn, item.ByHand)
	}
}

func TestOfferStates(t *testing.T) {
	for _, test := range []struct {
		name            string
		stage           func() *relaytest.Stage
		primary, backup string // state and text
	}{
		{"both well", func() *relaytest.Stage { return twoFeeds("e4 e5", "e4 e5") }, "followed", "ready"},
		{"the backup has other moves", func() *relaytest.Stage { return twoFeeds("e4 e5", "e4 c5") }, "followed", "differs"},
		{"the backup has not come as far", func() *relaytest.Stage { return twoFeeds("e4 e5", "e4") }, "followed", "ready"},
		{"the backup went back", func() *relaytest.Stage {
			s := twoFeeds("e4 e5 Nf3", "e4")
			s.TakeFrom(relaytest.BackupName, told("e4 e5 Nf3"))
			s.TakeFrom(relaytest.BackupName, told("e4"))
			return s
		}, "followed", "doubtful: it went back to an older state"},
		{"the backup is silent", func() *relaytest.Stage {
			s := twoFeeds("e4 e5", "e4 e5")
			s.Same(16 * time.Second)
			return s
		}, "followed", "doubtful: it is stale"},
		{"the primary is silent, and pinned", func() *relaytest.Stage {
			s := twoFeeds("e4 e5", "e4 e5")
			s.Enter(relay.ByHand{Board: 1, Act: relay.ActPin, Feed: relaytest.FeedName})
			s.SameFrom(16*time.Second, relaytest.BackupName)
			return s
		}, "followed: it is stale", "ready"},
	} {
		offers := sourcesFrame(test.stage().Show).Items[0].Offers
		if len(offers) != 2 {
			t.Fatalf("%s: %d offers", test.name, len(offers))
		}
		for i, want := range []string{test.primary, test.backup} {
			state, text, _ := strings.Cut(want, ": ")
			if offers[i].State != state || offers[i].Text != text {
				t.Errorf("%s: %+v, want %s", test.name, offers[i], want)
			}
		}
	}
}

// TestQuestionWords asks each kind of question the way a producer reads it.
func TestQuestionWords(t *testing.T) {
	const four = "e4 e5 Nf3 Nc6"
	byHand := func(then string, entries ...relay.ByHand) func() *relaytest.Stage {
		return func() *relaytest.Stage {
			s := relaytest.NewStage()
			s.Take(told(four))
			do(t, s, entries...)
			s.Take(then)
			return s
		}
	}
	move := relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bc4"}
	for _, test := range []struct {
		name  string
		stage func() *relaytest.Stage
		want  string
	}{
		{"a move", byHand(told(four+" Bb5 a6"), move), "Move 3, White: by hand Bc4, feed hall says Bb5."},
		{"a move behind one taken back", byHand(told("e4 e5 Nf3"), move), "Move 3, White: by hand Bc4, feed hall no longer has the move before it."},
		{"a move taken back", byHand(told(four+" Bb5"), relay.ByHand{Act: relay.ActCorrect, Ply: 4}), "Move 2, Black: taken back by hand, feed hall says Nc6."},
		{"a clock", byHand(strings.Replace(told(four), "0:09:56", "0:08:00", 1), relay.ByHand{Act: relay.ActClock, Ply: 4, Left: 7 * time.Minute}),
			"Clock after 2...Nc6: by hand 7:00, feed hall says 8:00."},
		{"a result", byHand(strings.Replace(told(four), " *", " 0-1", 1), relay.ByHand{Act: relay.ActResult, Text: "1-0"}),
			"Result: by hand 1-0, feed hall says 0-1."},
		{"a name", byHand(strings.Replace(told(four), "Weiss, Wanda", "Weisz, Wanda", 1), relay.ByHand{Act: relay.ActName, Side: "white", Text: "Marlow, Anna"}),
			`Name of White: by hand "Marlow, Anna", feed hall says "Weisz, Wanda".`},
	} {
		q := sourcesFrame(test.stage().Show).Items[0].Question
		if q == nil || q.Text != test.want {
			t.Errorf("%s: %+v, want %q", test.name, q, test.want)
		}
	}
}

// TestHandWords lists each kind of entry, also where its ply is no longer shown.
func TestHandWords(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(told("e4 e5 Nf3"))
	do(t, s, relay.ByHand{Act: relay.ActClock, Ply: 3, Left: time.Minute}, relay.ByHand{Act: relay.ActCorrect, Ply: 3},
		relay.ByHand{Act: relay.ActResult, Text: "1/2-1/2"}, relay.ByHand{Act: relay.ActName, Side: "white", Text: "Marlow, Anna"})
	want := []string{"2.Nf3 taken back", "clock 1:00 after move 2, White", "result 1/2-1/2", "White: Marlow, Anna"}
	if got := handWords(s.Board(1)); !reflect.DeepEqual(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestSourcesFollow: a pin, a freeze and a question reach the health page.
func TestSourcesFollow(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		synctest.Wait()
		p := h.open("page=health")
		enter := func(body string) {
			t.Helper()
			if response, reply := h.post(strings.NewReader(body), nil); response.StatusCode != 200 {
				t.Fatalf("%d %+v", response.StatusCode, reply)
			}
		}
		seen := func(what string, holds func(wire.BoardSources) bool) {
			t.Helper()
			for range 50 {
				var sources wire.Sources
				p.until(wire.TypeSources, &sources)
				if len(sources.Items) == 1 && holds(sources.Items[0]) {
					return
				}
			}
			t.Fatalf("%s never reached the health page", what)
		}
		enter(`{"id":"1","board":1,"act":"pin","feed":"hall"}`)
		seen("the pin", func(b wire.BoardSources) bool { return b.Pinned == "hall" && b.Feed == "hall" })
		enter(`{"id":"2","board":1,"act":"freeze"}`)
		seen("the freeze", func(b wire.BoardSources) bool { return b.Frozen > 0 })
		enter(`{"id":"3","board":1,"act":"thaw"}`)
		seen("the thaw", func(b wire.BoardSources) bool { return b.Frozen == 0 })
		enter(`{"id":"4","board":1,"act":"move","ply":3,"san":"Nf3"}`)
		seen("the move", func(b wire.BoardSources) bool { return b.Last == "2.Nf3" && len(b.ByHand) == 1 })
		h.play("e4 e5 Bc4 Nf6")
		seen("the question", func(b wire.BoardSources) bool { return b.Question != nil && b.Question.Kind == "move" })
	})
}

// TestBusView: pages are told what the process that they came to has to do with the show.
func TestBusView(t *testing.T) {
	s := relaytest.NewStage()
	if got := feedsFrame(s.Show, "", nil); got.Bus != (wire.Bus{}) || !got.Fine {
		t.Errorf("not shared: %+v", got)
	}
	before := s.Show.FeedsRev
	s.Apply(relay.BusState{Bus: relay.Bus{Role: relay.BusStandsBy, Leader: "yard, process 7"}})
	if got, want := feedsFrame(s.Show, "", nil), (wire.Bus{Role: wire.BusStandsBy, Leader: "yard, process 7"}); got.Bus != want || !got.Fine || got.Rev == before {
		t.Errorf("%+v, want %+v under another revision than %d", got, want, before)
	}
	s.Apply(relay.BusState{Bus: relay.Bus{Role: relay.BusLeads, Wrong: "it takes nothing", Waiting: 3}})
	got := feedsFrame(s.Show, "", nil)
	if want := (wire.Bus{Role: wire.BusLeads, Wrong: "it takes nothing", Waiting: 3}); got.Bus != want || got.Fine || !strings.Contains(got.Verdict, want.Wrong) {
		t.Errorf("%+v, want %+v in a verdict that says so", got, want)
	}
	for role, on := range map[relay.BusRole]string{relay.BusNone: wire.BusNone, relay.BusLeads: wire.BusLeads, relay.BusStandsBy: wire.BusStandsBy, relay.BusFollows: wire.BusFollows} {
		if string(role) != on {
			t.Errorf("%q is %q on the wire", role, on)
		}
	}
}

func TestJournalView(t *testing.T) {
	s := relaytest.NewStage()
	for _, test := range []struct {
		kept, wrong string
		want        wire.Journal
	}{
		{"", "", wire.Journal{State: "off"}},
		{"journal/show-1", "", wire.Journal{State: "kept", Text: "journal/show-1"}},
		{"journal/show-1", "the disk is full", wire.Journal{State: "failing", Text: "the disk is full"}},
	} {
		s.Apply(relay.JournalState{Text: test.wrong})
		if got := feedsFrame(s.Show, test.kept, nil).Journal; got != test.want {
			t.Errorf("kept at %q, wrong %q: %+v, want %+v", test.kept, test.wrong, got, test.want)
		}
	}
	if item := feedsFrame(twoFeeds("e4", "e4").Show, "", nil).Items[1]; item.BackupOf != relaytest.FeedName {
		t.Errorf("backup of %q", item.BackupOf)
	}
}
