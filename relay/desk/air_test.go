package desk

import (
	"slices"
	"testing"
	"time"
)

// sans returns the side line that is shown.
func (s *Shown) sans() []string {
	var out []string
	for _, step := range s.Moves {
		out = append(out, step.SAN)
	}
	return out
}

// TestAirFollowsTheDesk: viewers see nothing of the desk before it is put on the air, then
// step by step what it sees, and the live board when it is taken off.
func TestAirFollowsTheDesk(t *testing.T) {
	tb := newTable(t, "e4 e5")
	tb.does(playing("Nf3"))
	if tb.state.Shown != nil {
		t.Fatal("viewers see what was not put on the air")
	}
	tb.does(do("put-on-air"))
	if s := tb.state.Shown; s == nil || s.Ply != 2 || !slices.Equal(s.sans(), []string{"Nf3"}) || s.Last.SAN != "e5" || s.FEN != tb.games[0].Position(2).String() {
		t.Fatalf("viewers see %+v", tb.state.Shown)
	}
	tb.does(playing("Nc6"))
	if s := tb.state.Shown; !slices.Equal(s.sans(), []string{"Nf3", "Nc6"}) {
		t.Errorf("a step on, viewers see %+v", s)
	}
	tb.play(1, "Bc4 Nf6 d3")
	if s := tb.state.Shown; s.Ply != 2 || len(s.Moves) != 2 {
		t.Errorf("the live game moves what is explained: %+v", s)
	}
	tb.does(do("to-live"))
	if tb.state.Shown != nil {
		t.Errorf("at the live position viewers see %+v", tb.state.Shown)
	}
	tb.does(marking("weak", "", "f7"))
	if s := tb.state.Shown; s == nil || !s.Live || len(s.Marks) != 1 {
		t.Errorf("with a mark viewers see %+v", s)
	}
	tb.does(do("take-off-air"))
	if tb.state.Shown != nil {
		t.Errorf("taken off, viewers see %+v", tb.state.Shown)
	}
	tb.refused(do("take-off-air"), "nothing of the desk")
}

// TestAirShowsAWholeLine: a line that is played through or written does not follow the
// desk, and cannot be dropped meanwhile.
func TestAirShowsAWholeLine(t *testing.T) {
	tb := newTable(t, "e4")
	tb.refused(do("play-line"), "not in a side line")
	tb.does(playing("e5"))
	tb.does(playing("Nf3"))
	line := tb.state.Place.Move
	for action, way := range map[string]Way{"play-line": WayWhole, "write-line": WayText} {
		tb.does(withMove(action, line))
		since := tb.now
		tb.does(do("to-live"))
		s := tb.state.Shown
		if s == nil || s.Way != way || !slices.Equal(s.sans(), []string{"e5", "Nf3"}) || !s.At.Equal(since) {
			t.Errorf("%s: viewers see %+v", action, s)
		}
		tb.refused(withMove("drop-line", line), "on the air")
	}
}

// TestAnotherBoardIsNotLeaked: whoever looks at another board does not take the viewers
// along, and what was on the air of the first is over.
func TestAnotherBoardIsNotLeaked(t *testing.T) {
	tb := newTable(t, "e4", "d4", "c4")
	tb.does(do("back"))
	tb.does(do("put-on-air"))
	tb.does(Act{Action: "look-at", Board: 3})
	if tb.state.Air.Board != 1 || tb.state.Air.Way != "" || tb.state.Shown != nil {
		t.Errorf("on the air: %+v, viewers see %+v", tb.state.Air, tb.state.Shown)
	}
	tb.does(do("put-on-air"))
	if tb.state.Air.Board != 3 {
		t.Errorf("on the air: %+v", tb.state.Air)
	}
	tb.does(do("next-board"))
	if tb.state.Place.Board != 1 {
		t.Errorf("after the last board comes %d", tb.state.Place.Board)
	}
	tb.does(do("previous-board"))
	if tb.state.Place.Board != 3 {
		t.Errorf("before the first board comes %d", tb.state.Place.Board)
	}
	tb.refused(Act{Action: "look-at", Board: 4}, "the boards are 1 to 3")
}

// TestAirRevOnlyWithNews: what viewers do not see gives them nothing new to draw.
func TestAirRevOnlyWithNews(t *testing.T) {
	tb := newTable(t, "e4 e5")
	rev := tb.state.AirRev
	for _, act := range []Act{do("back"), playing("c5"), marking("weak", "", "d5"), do("prepare-challenge"), do("keep-marks")} {
		tb.does(act)
	}
	if tb.state.AirRev != rev {
		t.Error("viewers are told of what they do not see")
	}
	tb.does(do("put-on-air"))
	if tb.state.AirRev == rev {
		t.Error("viewers are not told of what is put on the air")
	}
}

// TestSuggestions: they never switch anything by themselves, unless told to; then with
// time between.
func TestSuggestions(t *testing.T) {
	tb := newTable(t, "e4", "d4", "c4")
	hot := func(board int, after time.Duration) {
		tb.now = tb.now.Add(after)
		tb.hot = []Suggestion{{Board: board, Kind: "novelty", Reason: "a new move", At: tb.now}}
		tb.follow()
	}
	hot(3, time.Minute)
	if len(tb.state.Hot) != 1 || tb.state.Air.Board != 1 || tb.state.Place.Board != 1 {
		t.Fatalf("suggested %v, on the air board %d, the desk at %d", tb.state.Hot, tb.state.Air.Board, tb.state.Place.Board)
	}
	tb.does(do("go-where-it-burns"))
	if tb.state.Place.Board != 3 || tb.state.Air.Board != 1 {
		t.Errorf("the desk looks at %d, on the air is %d", tb.state.Place.Board, tb.state.Air.Board)
	}
	tb.does(do("follow-by-itself"))
	was := tb.state.Air.Board
	tb.now = tb.now.Add(time.Minute)
	tb.hot = []Suggestion{{Board: 2, Kind: "swing", Reason: "the engine turns", At: tb.now, Judged: true}}
	tb.follow()
	if tb.state.Air.Board != was {
		t.Error("an engine alone takes viewers to another board")
	}
	hot(2, 0)
	if tb.state.Air.Board != 2 {
		t.Errorf("told to follow, board %d is on the air", tb.state.Air.Board)
	}
	hot(3, autoStays-time.Second)
	if tb.state.Air.Board != 2 {
		t.Error("viewers are taken away at once")
	}
	hot(3, time.Second)
	if tb.state.Air.Board != 3 {
		t.Error("viewers are not taken on")
	}
	tb.does(do("put-on-air"))
	hot(1, time.Minute)
	if tb.state.Air.Board != 3 {
		t.Error("viewers are taken away from what is explained to them")
	}
	tb.hot = nil
	tb.follow()
	tb.refused(do("go-where-it-burns"), "nothing burns")
}
