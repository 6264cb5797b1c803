package desk

import "testing"

// judge lets the engine say of where a game of the table stands that White is better.
func (tb *table) judge(board, size int) Verdict {
	v := Verdict{Side: "white", Size: size, Short: "Engine: White better", Sentence: "The engine prefers White."}
	if tb.verdicts == nil {
		tb.verdicts = map[string]Verdict{}
	}
	game := tb.games[board-1]
	tb.verdicts[game.Position(game.Plies()).String()] = v
	return v
}

func TestLeanLeavesWithTheMove(t *testing.T) {
	tb := newTable(t, "e4 e5", "d4")
	tb.refused(do("lean"), "not judged")
	tb.judge(1, 2)
	tb.does(do("lean"))
	if got := tb.state.Leans(); got.Board != 1 || got.Shown.Size != 2 {
		t.Fatalf("leans %+v", got)
	}
	rev := tb.state.AirRev
	tb.judge(1, 3) // a step further, and not final: viewers are not told
	tb.does(do("turn"))
	if got := tb.state.Leans(); got.Shown.Size != 2 || tb.state.AirRev != rev {
		t.Errorf("it wavers: %+v", got)
	}
	tb.judge(1, 5)
	tb.does(do("turn"))
	if got := tb.state.Leans(); got.Shown.Size != 5 || tb.state.AirRev == rev {
		t.Errorf("mate is seen, and the marker says %+v", got)
	}
	tb.play(2, "d5")
	if tb.state.Leans().Board != 1 {
		t.Error("a move on another board took it off")
	}
	tb.play(1, "Nf3")
	if got := tb.state.Lean; got != (Lean{}) {
		t.Errorf("after the move there is %+v", got)
	}
}

func TestLeanKeptComesAgain(t *testing.T) {
	tb := newTable(t, "e4 e5")
	tb.judge(1, 2)
	tb.does(do("keep-lean"))
	tb.does(do("lean"))
	tb.play(1, "Nf3")
	if got := tb.state.Leans(); got.Board != 0 {
		t.Errorf("of a position that is not judged viewers are told %+v", got)
	}
	tb.judge(1, 1)
	tb.does(do("turn"))
	if got := tb.state.Leans(); got.Board != 1 || got.Shown.Size != 1 {
		t.Errorf("on the next position %+v", got)
	}
	tb.does(do("lean"))
	if tb.state.Lean.Board != 0 || !tb.state.Lean.Keep {
		t.Errorf("taken off: %+v", tb.state.Lean)
	}
	tb.refused(Act{Action: "lean", On: new(bool)}, "no marker")
}

// TestLeanIsOfWhatViewersSee: the desk may look at what viewers do not see, and of that
// they are told nothing.
func TestLeanIsOfWhatViewersSee(t *testing.T) {
	tb := newTable(t, "e4 e5")
	tb.judge(1, 2)
	tb.does(playing("Bc4"))
	tb.refused(do("lean"), "viewers do not see")
	tb.refused(do("say-verdict"), "viewers do not see")
	tb.does(do("put-on-air"))
	tb.refused(do("lean"), "not judged")
	fen, _ := tb.state.Stand(tb)
	tb.verdicts[fen] = Verdict{Side: "black", Size: 1, Short: "Engine: Black slightly better", Sentence: "."}
	tb.does(do("lean"))
	if got := tb.state.Leans(); got.Shown.Side != "black" {
		t.Errorf("of the side line on the air %+v", got)
	}
	tb.does(do("back"))
	if got := tb.state.Lean; got.Board != 0 {
		t.Errorf("viewers see another position, and the marker is %+v", got)
	}
	tb.does(do("to-live"))
	tb.does(do("take-off-air"))
	tb.does(do("lean"))
	tb.does(playing("Bc4"))
	tb.does(do("play-line"))
	tb.refused(do("lean"), "played through") // it went as well
}

func TestChallengeTakesTheLeanOff(t *testing.T) {
	tb := newTable(t, "e4 e5")
	tb.judge(1, 2)
	tb.does(do("keep-lean"))
	tb.does(do("lean"))
	tb.does(Act{Action: "prepare-challenge", Who: "Ada"})
	tb.does(Act{Action: "ask", Who: "Ada"})
	if tb.state.Lean.Board != 0 || tb.state.Leans().Board != 0 {
		t.Errorf("viewers are asked, and shown %+v", tb.state.Lean)
	}
	if tb.state.Challenge.By != "Ada" {
		t.Errorf("asked by %q", tb.state.Challenge.By)
	}
	tb.refused(do("lean"), "asked")
	tb.refused(do("say-verdict"), "asked")
}

func TestPlayMoves(t *testing.T) {
	tb := newTable(t, "e4 e5 Nf3")
	tb.does(Act{Action: "play-moves", Text: "Nc6 Bb5 a6"})
	tb.stands(3, "Nc6 Bb5 a6")
	tb.does(do("undo")) // all of it is one thing
	tb.stands(3, "")
	if n := len(tb.state.Lines()); n != 0 {
		t.Errorf("%d moves are left", n)
	}
	tb.play(1, "Nc6") // the desk goes on with the game, and the line begins where it was read
	tb.does(Act{Action: "play-moves", Text: "d6 d4 exd4", From: "begin", Ply: 3, Steps: 1})
	tb.stands(3, "d6")
	tb.does(do("forward"))
	tb.stands(3, "d6 d4")
	tb.does(Act{Action: "play-moves", Text: "d6 d4 exd4 Nxd4", From: "begin", Ply: 3, Steps: 4}) // half of it is there
	tb.stands(3, "d6 d4 exd4 Nxd4")
	tb.does(do("undo"))
	if n := len(tb.state.Lines()); n != 3 {
		t.Errorf("%d moves are left, want the three before", n)
	}
	undos := len(tb.state.undos)
	tb.refused(Act{Action: "play-moves", Text: "d4 exd4 Qh9"}, "")
	if n := len(tb.state.Lines()); n != 3 || len(tb.state.undos) != undos {
		t.Errorf("of a line that cannot be played %d moves are there", n)
	}
	tb.refused(Act{Action: "play-moves"}, "1 to 40")
	tb.refused(Act{Action: "play-moves", Text: "d4", Steps: 2}, "1 to 40")
	tb.refused(Act{Action: "play-moves", Text: "d4", From: "e4"}, "begin")
}
