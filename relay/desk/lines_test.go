package desk

import (
	"fmt"
	"strings"
	"testing"
)

func do(name string) Act               { return Act{Action: name} }
func playing(san string) Act           { return Act{Action: "play", SAN: san} }
func toPly(ply int) Act                { return Act{Action: "go-to", Ply: ply} }
func naming(text string) Act           { return Act{Action: "name-line", Text: text} }
func withMove(name string, id int) Act { return Act{Action: name, Move: id} }

// TestLines goes through a game and side lines as a commentator would: in, nested, back,
// and to the other line.
func TestLines(t *testing.T) {
	tb := newTable(t, "e4 e5 Nf3 Nc6")
	tb.stands(4, "")
	tb.does(do("back"))
	tb.does(do("back"))
	tb.stands(2, "")
	tb.does(playing("Nf3")) // as it was played: no side line
	tb.stands(3, "")
	tb.does(playing("d7d6"))
	tb.does(playing("d4"))
	tb.stands(3, "d6 d4")
	tb.does(do("back"))
	tb.does(playing("Bc4"))
	tb.stands(3, "d6 Bc4")
	tb.does(do("other-line"))
	tb.stands(3, "d6 d4")
	tb.does(do("other-line"))
	tb.stands(3, "d6 Bc4")
	tb.does(do("back"))
	tb.does(do("forward"))
	tb.stands(3, "d6 d4") // the one entered first
	tb.does(do("to-start"))
	tb.stands(3, "")
	tb.does(playing("d6")) // again: the same move, not another one
	tb.stands(3, "d6")
	if n := len(tb.state.Lines()); n != 3 {
		t.Errorf("%d moves of side lines, want 3", n)
	}
	tb.does(do("back"))
	tb.does(do("other-line")) // from the game into what departs there
	tb.stands(3, "d6")
	tb.does(do("to-live"))
	tb.stands(4, "")
	if !tb.state.Place.Live {
		t.Error("back at the live position the desk does not follow")
	}
	tb.play(1, "Bb5")
	tb.stands(5, "")
	tb.refused(do("forward"), "live position")
	tb.does(toPly(0))
	tb.stands(0, "")
	tb.refused(do("back"), "start")
	tb.refused(toPly(6), "no ply 6")
	tb.refused(withMove("go-to", 77), "no move 77")
}

// TestLineStaysWhileTheGameGoesOn: whoever explains is not pulled away.
func TestLineStaysWhileTheGameGoesOn(t *testing.T) {
	tb := newTable(t, "e4 e5")
	tb.does(playing("Bc4"))
	tb.play(1, "Nf3 Nc6 Bb5")
	tb.stands(2, "Bc4")
	tb.does(do("to-live"))
	tb.stands(5, "")
	if lines := tb.state.Lines(); len(lines) != 1 || lines[0].Number != 3 || lines[0].Adrift(tb.Game(1)) {
		t.Errorf("the line is kept as %+v", lines)
	}
}

// TestNestedNumbers: moves are counted on from where a line departs, and one by Black too.
func TestNestedNumbers(t *testing.T) {
	tb := newTable(t, "e4 e5 Nf3")
	for _, san := range strings.Fields("Nf6 Nxe5 d6") {
		tb.does(playing(san))
	}
	var numbers []int
	for _, m := range tb.state.Lines() {
		numbers = append(numbers, m.Number)
	}
	if fmt.Sprint(numbers) != "[4 5 6]" {
		t.Errorf("half-moves %v, want 4 5 6", numbers)
	}
}

func TestNames(t *testing.T) {
	tb := newTable(t, "e4")
	tb.refused(naming("open game"), "not in a side line")
	tb.does(playing("e5"))
	tb.does(playing("Nf3"))
	tb.does(naming("  open game "))
	first := tb.state.Lines()[0]
	if first.Name != "open game" {
		t.Errorf("the line that begins with %s is called %q", first.SAN, first.Name)
	}
	tb.does(do("back"))
	tb.does(playing("f4")) // a branch of its own
	tb.does(naming("gambit"))
	if got := tb.state.nameOf(tb.state.Place.Move); got != "gambit" {
		t.Errorf("the branch is called %q", got)
	}
	if got := tb.state.nameOf(tb.state.Lines()[1].ID); got != "open game" {
		t.Errorf("the first branch is called %q", got)
	}
	tb.does(naming(""))
	if got := tb.state.nameOf(tb.state.Place.Move); got != "open game" {
		t.Errorf("without its own name the branch is called %q", got)
	}
	tb.refused(naming(strings.Repeat("x", nameMost+1)), "at most 60")
	tb.refused(naming("two\nlines"), "on one line")
}

func TestDropAndUndo(t *testing.T) {
	tb := newTable(t, "e4")
	for _, san := range strings.Fields("e5 Nf3 Nc6") {
		tb.does(playing(san))
	}
	second := tb.state.Lines()[1].ID
	tb.does(withMove("drop-line", second))
	tb.stands(1, "e5")
	if n := len(tb.state.Lines()); n != 1 {
		t.Errorf("%d moves are left, want 1", n)
	}
	if got := tb.state.Undoable(); got != "the line that was dropped" {
		t.Errorf("undo would take back %q", got)
	}
	tb.does(do("undo"))
	tb.stands(1, "e5 Nf3 Nc6")
	tb.does(do("undo"))
	tb.stands(1, "e5 Nf3")
	tb.does(do("undo"))
	tb.does(do("undo"))
	tb.stands(1, "")
	if !tb.state.Place.Live {
		t.Error("taken back to where it was live, the desk does not follow")
	}
	tb.refused(do("undo"), "nothing to take back")
	tb.refused(withMove("drop-line", second), "no move")
}

// TestUndoIsBounded: what is taken back is limited, and the newest can be.
func TestUndoIsBounded(t *testing.T) {
	tb := newTable(t, "e4")
	for i := range undosMost + 5 {
		tb.does(Act{Action: "mark-weak", To: fmt.Sprintf("%c%d", 'a'+i%8, 1+i/8)})
	}
	for range undosMost {
		tb.does(do("undo"))
	}
	tb.refused(do("undo"), "nothing to take back")
	if n := len(tb.state.Marks); n != 5 {
		t.Errorf("%d marks are left, want the 5 oldest", n)
	}
}

// TestCorrectionSetsLinesAdrift: a game that is corrected takes no side line away, and says
// which departed from what was not played.
func TestCorrectionSetsLinesAdrift(t *testing.T) {
	tb := newTable(t, "e4 e5 Nf3")
	tb.does(playing("Nf6"))
	tb.does(toPly(1))
	tb.does(playing("c5"))
	tb.games[0].takeBack(2)
	tb.play(1, "c6 d4")
	lines := tb.state.Lines()
	if len(lines) != 2 || !lines[0].Adrift(tb.Game(1)) || lines[1].Adrift(tb.Game(1)) {
		t.Errorf("adrift are %v and %v, want the first alone", lines[0].Adrift(tb.Game(1)), lines[1].Adrift(tb.Game(1)))
	}
	tb.does(withMove("go-to", lines[0].ID))
	tb.stands(3, "Nf6")
}

// TestPlaceNeverPassesTheGame: a takeback behind the place leads to the live position.
func TestPlaceNeverPassesTheGame(t *testing.T) {
	tb := newTable(t, "e4 e5 Nf3 Nc6")
	tb.does(toPly(3))
	tb.games[0].takeBack(2)
	tb.follow()
	tb.stands(2, "")
	if !tb.state.Place.Live {
		t.Error("the desk does not follow")
	}
}

// TestNextGame: with the next game on its board the desk begins anew; the lines of the one
// before are kept with it.
func TestNextGame(t *testing.T) {
	tb := newTable(t, "e4")
	tb.does(playing("e5"))
	tb.does(do("put-on-air"))
	tb.games[0] = newPlayed(t, "", "d4")
	tb.games[0].number = 1
	tb.follow()
	tb.stands(1, "")
	if tb.state.Air.Way != "" || len(tb.state.Lines()) != 0 || len(tb.state.lines) != 1 {
		t.Errorf("on the air %q, %d lines shown, %d kept", tb.state.Air.Way, len(tb.state.Lines()), len(tb.state.lines))
	}
}

// TestLineLimits holds the limits of side lines.
func TestLineLimits(t *testing.T) {
	tb := newTable(t, "")
	shuffle := strings.Fields("Nf3 Nf6 Ng1 Ng8")
	for i := range lineMost {
		tb.does(playing(shuffle[i%4]))
	}
	tb.refused(playing("Nf3"), fmt.Sprintf("at most %d moves", lineMost))
	full := func(game int) {
		tb.state.lines = make([]Move, linesMost)
		for i := range tb.state.lines {
			tb.state.lines[i] = Move{ID: 1000 + i, Board: 1, Game: game, Ply: 7, from: tb.games[0].Position(0)}
		}
		tb.state.Place = Place{Board: 1, Live: true}
	}
	full(0)
	tb.refused(playing("e4"), fmt.Sprintf("%d moves of side lines", linesMost))
	full(3) // of a game that is no longer on the board: those make room
	tb.does(playing("e4"))
	if n := len(tb.state.lines); n != 1 {
		t.Errorf("%d moves are kept", n)
	}
}

// TestCorrectionIsSeen: a game that is corrected while as many plies stand is another
// position, for the desk and for what was drawn on it.
func TestCorrectionIsSeen(t *testing.T) {
	tb := newTable(t, "e4 e5 Nf3")
	tb.does(marking("weak", "", "f7"))
	tb.does(marking("weak", "", "d5"))
	rev := tb.state.Rev
	tb.games[0].takeBack(1)
	tb.play(1, "Nc3")
	if tb.state.Rev == rev || len(tb.state.Marks) != 0 {
		t.Errorf("revision %d after %d, marks %v", tb.state.Rev, rev, tb.state.Marks)
	}
	tb.does(do("undo"))
	if len(tb.state.Marks) != 0 {
		t.Errorf("undone, %v stand on another position", tb.state.Marks)
	}
}

// TestLineLeavesTheAirWithItsGame: on whichever board the desk looks meanwhile.
func TestLineLeavesTheAirWithItsGame(t *testing.T) {
	tb := newTable(t, "e4", "d4")
	tb.does(playing("e5"))
	tb.does(do("play-line"))
	tb.does(do("next-board"))
	if tb.state.Air.Way != WayWhole {
		t.Fatal("another board at the desk takes the line off the air")
	}
	tb.games[0] = newPlayed(t, "", "")
	tb.games[0].number = 1
	tb.follow()
	if tb.state.Air.Way != "" || tb.state.Air.Board != 1 {
		t.Errorf("on the air: %+v", tb.state.Air)
	}
}
