package overlay

import (
	"fmt"
	"net/url"
	"strings"
	"testing"
	"testing/synctest"

	"clocktell/overlay/wire"
	"clocktell/relay/relaytest"
)

func numbers(to int) string {
	var out []string
	for i := range to {
		out = append(out, fmt.Sprint(i+1))
	}
	return strings.Join(out, ",")
}

// TestBoardsAsked: which boards an address asks for, and which addresses ask for nothing
// that there is.
func TestBoardsAsked(t *testing.T) {
	for _, test := range []struct {
		page, query string
		want        string // of boards 1 to 14 those sent; "" refused
	}{
		{"scene/wall", "", numbers(wallMost)},
		{"scene/wall", "boards=4,1,7", "1,4,7"},
		{"scene/wall", "boards=14", "14"},
		{"scene/wall", "board=3", "3"},
		{"scene/wall", "boards=" + numbers(wallMost), numbers(wallMost)},
		{"scene/wall", "boards=" + numbers(wallMost+1), ""},
		{"scene/wall", "boards=1,1", ""},
		{"scene/wall", "boards=0,1", ""},
		{"scene/wall", "boards=1,,2", ""},
		{"scene/wall", "boards=1, 2", ""},
		{"scene/wall", "boards=01", ""},
		{"scene/wall", "boards=99999999999999999999", ""},
		{"scene/clocks", "", "1"},
		{"scene/clocks", "board=2", "2"},
		{"scene/clocks", "board=-1", ""},
		{"scene/clocks", "boards=2,3", "1"}, // a list is for walls alone
		{"panel", "boards=2,3", numbers(14)},
		{"panel", "board=5", "5"},
	} {
		query, err := url.ParseQuery(test.query)
		if err != nil {
			t.Fatal(err)
		}
		c, err := boardsAsked(pageKinds[test.page], query)
		var sent []string
		for n := range c.among(14) {
			sent = append(sent, fmt.Sprint(n))
		}
		if err != nil {
			sent = nil
		}
		if got := strings.Join(sent, ","); got != test.want {
			t.Errorf("%s?%s is sent %q and error %v, want %q", test.page, test.query, got, err, test.want)
		}
	}
}

// TestWallOverTheSocket: a wall is sent the boards it names and no other.
func TestWallOverTheSocket(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.events <- h.intake.Read(h.tb.Now(), []byte(relaytest.Packet(
			relaytest.Game{White: "A, A", Black: "B, B", Moves: "e4"}, relaytest.Game{White: "C, C", Black: "D, D", Moves: "d4"},
			relaytest.Game{White: "E, E", Black: "F, F", Moves: "c4"})))
		synctest.Wait()
		p := h.open("page=scene/wall&boards=3,1")
		for _, want := range []int{1, 3} {
			if b := p.board(); b.Board != want || len(b.Plies) != 1 {
				t.Errorf("sent board %d with %d plies, want board %d", b.Board, len(b.Plies), want)
			}
		}
		q := h.open("page=scene/wall&boards=3,3")
		if got := q.closed(); got != wire.CloseUnknownPage {
			t.Errorf("a board named twice: close code %d", got)
		}
	})
}
