package relay_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// A large evening: so many halls, each with a feed and boards of its own.
const (
	halls      = 12
	hallBoards = 17 // of the first eight; 16 of the others
	allBoards  = 200
)

type evening struct {
	*relaytest.Stage
	t     *testing.T
	halls [halls][]relaytest.Game
}

func hallName(hall int) string { return fmt.Sprintf("hall-%d", hall+1) }

func newEvening(t *testing.T) *evening {
	plan := relay.Plan{MaxBoards: allBoards}
	e := &evening{t: t}
	for hall := range halls {
		feed := relaytest.Plan().Feeds[0]
		feed.Name, feed.Late, feed.Stale = hallName(hall), 5*time.Minute, 10*time.Minute
		plan.Feeds = append(plan.Feeds, feed)
		for i := range hallBoards - hall/8 {
			e.halls[hall] = append(e.halls[hall], relaytest.Game{
				White: fmt.Sprintf("White%dx%d, W", hall+1, i+1), Black: fmt.Sprintf("Black%dx%d, B", hall+1, i+1), Table: fmt.Sprintf("%d.%d", hall+1, i+1), Control: "5400+30",
			})
		}
	}
	e.Stage = relaytest.NewStageOf(plan)
	return e
}

// tell lets a hall's feed answer.
func (e *evening) tell(hall int) {
	e.TakeFrom(hallName(hall), relaytest.Packet(e.halls[hall]...))
}

// move plays a ply on a board of a hall, and tells.
func (e *evening) move(hall, i int) {
	g := &e.halls[hall][i]
	n := len(g.Clocks)
	g.Moves, g.Clocks = moves(n+1), append(g.Clocks, scaleClock(n))
	e.tell(hall)
}

// board returns the board on which a game is shown.
func (e *evening) board(hall, i int) *relay.Board {
	e.t.Helper()
	for _, b := range e.Show.Boards {
		if b.Feed == hallName(hall) && b.Players[0].Name == e.halls[hall][i].White {
			return b
		}
	}
	e.t.Fatalf("no board shows game %d of hall %d", i+1, hall+1)
	return nil
}

// holds compares every board with its game.
func (e *evening) holds(when string) {
	e.t.Helper()
	if len(e.Show.Boards) != allBoards {
		e.t.Fatalf("%s: %d boards, want %d", when, len(e.Show.Boards), allBoards)
	}
	for hall, games := range e.halls {
		for i, g := range games {
			b := e.board(hall, i)
			var sans []string
			for _, ply := range b.Plies {
				sans = append(sans, ply.SAN)
			}
			if got := strings.Join(sans, " "); got != g.Moves || b.Key.Round != max(g.Round, "1") || b.Fault != "" || b.Over() != (g.Result != "") {
				e.t.Fatalf("%s: hall %d, game %d: board %d shows %q of round %s, result %s, fault %q; want %+v", when, hall+1, i+1, b.Number, got, b.Key.Round, b.Result, b.Fault, g)
			}
		}
	}
}

// TestLargeEvening: 200 boards on 12 feeds hold what their feeds say, while games come, are played, end
// and are followed by others; a game more than there is room for is counted.
func TestLargeEvening(t *testing.T) {
	e := newEvening(t)
	for hall := range halls {
		e.tell(hall)
	}
	e.holds("all have come")
	for n := range 20 * halls {
		e.move(n%halls, n/halls%5)
	}
	e.holds("under way")
	numbers := make(map[string]int)
	for hall := range halls {
		for i := range e.halls[hall] {
			e.halls[hall][i].Result = "1-0"
			numbers[e.halls[hall][i].White] = e.board(hall, i).Number
		}
		e.tell(hall)
	}
	e.holds("all over")
	for hall := range halls {
		for i := range e.halls[hall] {
			g := &e.halls[hall][i]
			g.Round, g.Result, g.Moves, g.Clocks = "2", "", "", nil
		}
		e.tell(hall)
		e.move(hall, 3)
	}
	e.holds("the next round")
	for hall := range halls {
		for i, g := range e.halls[hall] {
			if b := e.board(hall, i); b.Number != numbers[g.White] || b.Game != 1 {
				t.Errorf("hall %d, game %d of the next round: board %d, its game %d; want board %d, game 1", hall+1, i+1, b.Number, b.Game, numbers[g.White])
			}
		}
	}
	e.halls[0] = append(e.halls[0], relaytest.Game{White: "Late, L", Table: "1.18"})
	e.tell(0)
	if got := e.Show.Feeds[0].Hidden; len(e.Show.Boards) != allBoards || got != 1 {
		t.Errorf("%d boards, %d games without one; want %d and 1", len(e.Show.Boards), got, allBoards)
	}
}

// TestIdleBoardsStay: what happens on one board leaves all others the very boards that they were, but for
// those whose clocks run; a show in which no clock runs waits for its feeds alone.
func TestIdleBoardsStay(t *testing.T) {
	e := newEvening(t)
	for hall := range halls {
		e.tell(hall)
	}
	e.move(3, 5)
	e.move(3, 5)
	before := e.Show
	e.move(3, 5)
	e.tell(4)
	e.SameFrom(3*time.Second, hallName(0))
	moved := e.board(3, 5).Number
	for i, b := range e.Show.Boards {
		if same := b == before.Boards[i]; same == (b.Number == moved) {
			t.Errorf("board %d: stays %v; only board %d had a move", b.Number, same, moved)
		}
	}
	e.halls[3][5].Result = "1-0"
	e.tell(3)
	e.Wait(30 * time.Second) // what is withdrawn has left the panel
	first := e.Show.Feeds[0].Due()
	for _, f := range e.Show.Feeds {
		if f.Due().Before(first) {
			first = f.Due()
		}
	}
	if due := e.Show.Due(); !due.Equal(first) {
		t.Errorf("no clock runs, and the show is due at %v; the first feed at %v", due, first)
	}
}
