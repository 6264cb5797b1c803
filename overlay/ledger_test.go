package overlay

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// sourcesPage is a producer's page, as far as where the boards come from: it holds what it was
// sent, put together as the protocol says.
type sourcesPage struct {
	held  ledgerHeld
	holds wire.Sources
	last  wire.Sources // the frame that it was sent last
}

// textOf is what a message says.
func textOf(m message) []byte {
	switch m[1] { // RFC 6455, 5.2
	case 126:
		return m[4:]
	case 127:
		return m[10:]
	}
	return m[2:]
}

// look lets the page be sent what is new of a show. It returns what is wrong with that, or "".
func (p *sourcesPage) look(ledger *sourcesLedger, show *relay.Show) string {
	p.last = wire.Sources{}
	if err := json.Unmarshal(textOf(ledger.news(nil, &p.held, show)[0]), &p.last); err != nil {
		return err.Error()
	}
	if next := p.last; next.Base != 0 {
		if next.Base != p.holds.Rev {
			return fmt.Sprintf("it holds revision %d and is sent what follows on %d", p.holds.Rev, next.Base)
		}
		p.holds.Rev = next.Rev
		p.holds.Errors = append(p.holds.Errors, next.Errors...)
		for _, item := range next.Items {
			if item.Board > len(p.holds.Items) {
				p.holds.Items = append(p.holds.Items, wire.BoardSources{})
			}
			p.holds.Items[item.Board-1] = item
		}
	} else {
		p.holds = next
	}
	whole := sourcesFrame(show)
	if kept := len(p.holds.Errors) - len(whole.Errors); kept > 0 {
		p.holds.Errors = p.holds.Errors[kept:] // the show keeps no more
	}
	if whole.Rev != p.holds.Rev || !reflect.DeepEqual(whole.Items, p.holds.Items) || !reflect.DeepEqual(whole.Errors, p.holds.Errors) {
		return fmt.Sprintf("it holds, after a frame on %d,\n%+v\nof\n%+v", p.last.Base, p.holds, whole)
	}
	return ""
}

// feedsPage is a producer's page, as far as how the feeds do.
type feedsPage struct {
	held  ledgerHeld
	holds wire.Feeds
	last  wire.Feeds // the frame that it was sent last
}

// look lets the page be sent what is new of a show. It returns what is wrong with that, or "".
func (p *feedsPage) look(ledger *feedsLedger, show *relay.Show) string {
	for _, m := range ledger.news(nil, &p.held, show) {
		p.last = wire.Feeds{}
		if err := json.Unmarshal(textOf(m), &p.last); err != nil {
			return err.Error()
		}
		items := slices.Clone(p.last.Items)
		if p.last.Base != 0 {
			if p.last.Base != p.holds.Rev {
				return fmt.Sprintf("it holds revision %d and is sent what follows on %d", p.holds.Rev, p.last.Base)
			}
			items = p.holds.Items
			for _, item := range p.last.Items {
				items[slices.IndexFunc(items, func(held wire.FeedItem) bool { return held.Name == item.Name })] = item
			}
		}
		p.holds = p.last
		p.holds.Base, p.holds.Items = 0, items
	}
	if whole := feedsFrame(show, "", nil); !reflect.DeepEqual(whole, p.holds) {
		return fmt.Sprintf("it holds, after a frame on %d,\n%+v\nof\n%+v", p.last.Base, p.holds, whole)
	}
	return ""
}

// hallOf is a stage of boards of one feed, which tells of them as far as there has been a move.
type hallOf struct {
	*relaytest.Stage
	games []relaytest.Game
	told  int
}

func newHallOf(boards int) *hallOf {
	plan := relaytest.Plan()
	plan.MaxBoards = boards
	h := &hallOf{Stage: relaytest.NewStageOf(plan)}
	for n := range boards {
		h.games = append(h.games, relaytest.Game{White: fmt.Sprintf("White%d, W", n), Black: fmt.Sprintf("Black%d, B", n), Table: fmt.Sprint(n + 1), Control: "5400+30"})
	}
	return h
}

// line is a game that ends nowhere.
var line = strings.Fields(strings.Repeat("Nf3 Nf6 Ng1 Ng8 ", 20))

// move lets the feed tell of another ply on a board.
func (h *hallOf) move(board int) {
	g := &h.games[board-1]
	played := len(g.Clocks)
	g.Moves = strings.Join(line[:played+1], " ")
	g.Clocks = append(g.Clocks, fmt.Sprintf("1:%02d:%02d", 29-played/2, 59-played%60))
	h.told = max(h.told, board)
	h.Take(relaytest.Packet(h.games[:h.told]...))
}

// TestMoveCostsItsRow: a page that holds where every board comes from is sent of a move what is
// told of its board, and of a feed that falls silent what is thought of all that it has.
func TestMoveCostsItsRow(t *testing.T) {
	const boards = 200
	h, ledger, page := newHallOf(boards), newSourcesLedger(new(atomic.Uint64)), sourcesPage{}
	h.move(boards)
	if wrong := page.look(ledger, h.Show); wrong != "" || len(page.last.Items) != boards || page.last.Base != 0 {
		t.Fatalf("at first it is sent %d rows on %d; %s", len(page.last.Items), page.last.Base, wrong)
	}
	whole := len(encode(page.last))
	for _, board := range []int{7, 200, 7} {
		h.Wait(4 * time.Second) // with a clock that runs on every board
		h.move(board)
		if wrong := page.look(ledger, h.Show); wrong != "" {
			t.Fatal(wrong)
		}
		if items := page.last.Items; len(items) != 1 || items[0].Board != board {
			t.Errorf("a move on board %d: %d rows, the first of %d", board, len(items), items[0].Board)
		}
		if part := len(encode(page.last)); part*boards > whole*2 {
			t.Errorf("a move takes %d bytes, all that there is %d: more than two of %d parts", part, whole, boards)
		}
	}
	h.Wait(16 * time.Second)
	if wrong := page.look(ledger, h.Show); wrong != "" || len(page.last.Items) != boards {
		t.Errorf("a feed falls silent: %d rows; %s", len(page.last.Items), wrong)
	}
}

// TestAnswerCostsItsFeed: a page that holds how every feed does is sent of an answer that one.
func TestAnswerCostsItsFeed(t *testing.T) {
	s, ledger, page := twoFeeds("e4", "e4"), newFeedsLedger(new(atomic.Uint64), "", nil), feedsPage{}
	if wrong := page.look(ledger, s.Show); wrong != "" || page.last.Base != 0 || len(page.last.Items) != 2 {
		t.Fatalf("at first it is sent %d feeds on %d; %s", len(page.last.Items), page.last.Base, wrong)
	}
	for _, feed := range []string{relaytest.BackupName, relaytest.FeedName} {
		s.SameFrom(time.Second, feed)
		if wrong := page.look(ledger, s.Show); wrong != "" || len(page.last.Items) != 1 || page.last.Items[0].Name != feed {
			t.Errorf("%s answers, and it is sent %+v; %s", feed, page.last.Items, wrong)
		}
	}
}

// TestWatchedOtherwise: how a feed is watched is told when it changes, though nothing else of the
// feed does.
func TestWatchedOtherwise(t *testing.T) {
	note := ""
	s, ledger, held := twoFeeds("e4", "e4"), newFeedsLedger(nil, "", func(string) string { return note }), ledgerHeld{}
	_, held = ledger.since(held, s.Show)
	note = "looked at every second"
	s.Apply(relay.JournalState{Text: "the disk is full"})
	if frame, _ := ledger.since(held, s.Show); len(frame.Items) != 2 || frame.Items[1].Note != note || frame.Journal.State != wire.JournalFailing {
		t.Errorf("it is sent %+v", frame)
	}
}

// TestPagesAtOtherShows: pages of which some look at shows that are older than what others have
// looked at hold what those shows say. None goes back itself.
func TestPagesAtOtherShows(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 1))
	h, ledger, pages := newHallOf(30), newSourcesLedger(new(atomic.Uint64)), make([]sourcesPage, 4)
	at := make([]int, len(pages)) // the show that each has looked at
	shows, older, news := []*relay.Show{h.Show}, 0, 0
	for step := range 400 {
		switch random.IntN(5) {
		case 0:
			h.Enter(relay.ByHand{Board: 1 + random.IntN(2), Act: []relay.Act{relay.ActFreeze, relay.ActThaw}[random.IntN(2)]})
		case 1:
			h.Wait(time.Duration(random.IntN(20)) * time.Second)
		default:
			if board := 1 + random.IntN(2+step/15); len(h.games[board-1].Clocks) < len(line) {
				h.move(board)
			}
		}
		shows = append(shows, h.Show)
		for i := range pages {
			at[i] = max(at[i], len(shows)-1-random.IntN(4))
			show := shows[at[i]]
			if random.IntN(3) == 0 || show.SourcesRev == pages[i].held.rev {
				continue
			}
			if show.SourcesRev < ledger.at {
				older++
			}
			if wrong := pages[i].look(ledger, show); wrong != "" {
				t.Fatalf("step %d, page %d: %s", step, i, wrong)
			}
			news += len(pages[i].last.Errors)
		}
	}
	if older < 50 || news < 50 {
		t.Errorf("%d looks at older shows, %d errors of clocks: the check sees too little", older, news)
	}
}

// TestRowsAreEncodedOnce: pages that hold the same are sent the same frame.
func TestRowsAreEncodedOnce(t *testing.T) {
	h, ledger, pages := newHallOf(3), newSourcesLedger(new(atomic.Uint64)), make([]sourcesPage, 10)
	for range 5 {
		h.move(2)
		for i := range pages {
			if wrong := pages[i].look(ledger, h.Show); wrong != "" {
				t.Fatal(wrong)
			}
		}
	}
	if made := ledger.count.Load(); made != 5 {
		t.Errorf("%d frames are made of 5 shows for %d pages that are in step", made, len(pages))
	}
}
