package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/notnil/chess"

	"clocktell/overlay/wire"
)

// stepsFrom plays moves from a position and returns them as a frame tells them, each by its notation.
func stepsFrom(t *testing.T, fen string, number int, moves string) []wire.Step {
	t.Helper()
	from, err := chess.FEN(fen)
	if err != nil {
		t.Fatal(err)
	}
	game, steps := chess.NewGame(from), []wire.Step{}
	for i, san := range strings.Fields(moves) {
		if err := game.MoveStr(san); err != nil {
			t.Fatalf("%s from %s: %v", san, fen, err)
		}
		move := game.Moves()[i]
		steps = append(steps, wire.Step{Number: number + i, SAN: san, From: move.S1().String(), To: move.S2().String(), FEN: game.FEN()})
	}
	return steps
}

// at is a board's game after so many plies: the position, and the move that led there.
func at(t *testing.T, b wire.Board, plies int) (string, *wire.Step) {
	t.Helper()
	var moves []string
	for _, p := range b.Plies[:plies] {
		moves = append(moves, p.SAN)
	}
	const start = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"
	steps := stepsFrom(t, start, 1, strings.Join(moves, " "))
	if plies == 0 {
		return start, nil
	}
	return steps[plies-1].FEN, &steps[plies-1]
}

// explainedAt explains a board: moves of a side line after so many plies, or none.
func explainedAt(t *testing.T, b wire.Board, way string, plies int, moves string) *wire.Explained {
	t.Helper()
	fen, last := at(t, b, plies)
	return &wire.Explained{
		Board: b.Board, Way: way, Ply: plies, FEN: fen, Last: last, Moves: stepsFrom(t, fen, plies+1, moves), At: b.At, StepMs: 1500, Marks: []wire.Mark{},
	}
}

// askedAt asks for a move on a board after so many plies.
func askedAt(t *testing.T, b wire.Board, plies int, question string) *wire.AirChallenge {
	t.Helper()
	fen, last := at(t, b, plies)
	return &wire.AirChallenge{
		ID: 1, Board: b.Board, State: wire.ChallengeAsked, Number: plies + 1, FEN: fen, Last: last, Question: question,
		Asked: b.At, Ends: b.At + 30_000, Hints: []string{}, Answer: []wire.Step{}, StepMs: 1500,
	}
}

// veiled is a board as scenes are sent it while a question is put on it.
func veiled(b wire.Board) wire.Board {
	b.Running, b.Alerts = "", []wire.Alert{}
	for _, p := range []*wire.Player{&b.White, &b.Black} {
		p.Clock = wire.Clock{State: wire.StateHeld, At: b.At, Quality: wire.QualityNone}
		p.Tell = wire.Tell{Reasons: []string{}, Outlook: []string{}}
	}
	return b
}

// sayAir is a script that says what is on the air as the relay would.
func sayAir(air wire.Air) string {
	air.Type = wire.TypeAir
	data, err := json.Marshal(air)
	if err != nil {
		panic(err) // strings and numbers only
	}
	return "say(" + string(data) + ");"
}
