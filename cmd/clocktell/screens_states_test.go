package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/notnil/chess"

	"clocktell/overlay/wire"
)

// screenScenes are the scenes of which pictures are kept, each with its states by name.
var screenScenes = []struct {
	name   string
	states map[string]func(t *testing.T) screen
}{
	{"board", boardScreens(oneBoard, pointing, explaining, leaning)},
	{"clocks", boardScreens(oneBoard)},
	{"wall", wallScreens},
	{"caption", captionScreens},
	{"challenge", challengeScreens},
}

// screenShow is what the relay says of a show with these boards, first of all and then of each.
func screenShow(quiet bool, boards ...wire.Board) []any {
	show := wire.Show{Type: wire.TypeShow, Title: "Velmarin Harbour Festival", Lang: "en", Boards: highest(boards), Quiet: quiet}
	return append([]any{show}, anys(boards)...)
}

// oneBoard is the picture of a board alone.
func oneBoard(_ *testing.T, b wire.Board) screen { return screen{frames: screenShow(false, b)} }

// screenBoard is board 1 in one of the airStates, with a name for its opening.
func screenBoard(t *testing.T, state string) wire.Board {
	t.Helper()
	b := stated(t, 1, state, screenNow)
	if len(b.Plies) > 4 {
		b.Opening = wire.Opening{Code: "C84", Name: "Spanish Game, Closed"}
	}
	return b
}

// replayed is a board on which these moves were played, in seconds of thought that follow each other.
func replayed(t *testing.T, moves string, seconds ...int64) wire.Board {
	t.Helper()
	b := airBoard(t, 1, 0, screenNow)
	b.Control = wire.Control{Text: "90 min + 30 s", BaseMs: 5_400_000, IncrementMs: 30_000, Class: "standard"}
	game, left := chess.NewGame(), [2]int64{b.Control.BaseMs, b.Control.BaseMs}
	for i, san := range strings.Fields(moves) {
		if err := game.MoveStr(san); err != nil {
			t.Fatal(err)
		}
		spent, look, move := 1000*seconds[i%len(seconds)], wire.LookThinking, game.Moves()[i]
		if i < 10 {
			spent, look = 4000, wire.LookPreparation
		}
		left[i%2] += b.Control.IncrementMs - spent
		b.Plies = append(b.Plies, wire.Ply{
			Number: i + 1, SAN: san, From: move.S1().String(), To: move.S2().String(),
			SpentMs: spent, LeftMs: left[i%2], Quality: wire.QualityRead, Look: look,
		})
	}
	b.FEN, b.White.Clock.LeftMs, b.Black.Clock.LeftMs = game.FEN(), left[0], left[1]
	for side := range 2 {
		tellFrom(&b, side, len(b.Plies) > 14)
	}
	b.Running = []string{"white", "black"}[len(b.Plies)%2]
	p, _ := onMove(&b)
	p.Clock.State, p.Clock.SpentMs = wire.StateRunning, 23_000
	p.Clock.LeftMs -= p.Clock.SpentMs
	return b
}

// demoMoves are the moves of the demo's first game, without anything else.
func demoMoves(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "testdata/demo/game1.pgn"))
	if err != nil {
		t.Fatal(err)
	}
	return regexp.MustCompile(`(?s)\[.*?\]|\{.*?\}|\d+\.+|1-0`).ReplaceAllString(string(text), " ")
}

// promoted is a board on which a pawn has just become a queen.
func promoted(t *testing.T) wire.Board {
	t.Helper()
	b := replayed(t, "e4 d5 exd5 c6 dxc6 Nf6 cxb7 Nbd7 bxa8=Q", 40)
	b.White.Gains = "QRPP"
	return b
}

// mated is a game that has ended with a move.
func mated(t *testing.T) wire.Board {
	t.Helper()
	b := replayed(t, "e4 e5 Bc4 Nc6 Qh5 Nf6 Qxf7#", 40)
	b.Result, b.Running, b.White.Gains = "1-0", "", "P"
	b.Black.Clock.State, b.Black.Clock.SpentMs, b.Black.Clock.LeftMs = wire.StateStopped, 0, b.Black.Clock.LeftMs+23_000
	return b
}
