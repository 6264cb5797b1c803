package overlay

import (
	"encoding/json"
	"fmt"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/opinion"
	"clocktell/relay/relaytest"
)

// TestSecondEngine: the desk is told what another engine thinks, and that it is of another
// mind; the tiles of the panel are not.
func TestSecondEngine(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		h.engine()
		h.judge(14, opinion.Score{Centipawns: 84}, "Nf3", "Nc6", "Bb5")
		desk := h.watch("page=desk")
		pass(time.Second, desk)
		if said := desk.newest(); said.Other != nil || said.Differ {
			t.Errorf("with one engine: %+v", said)
		}
		h.judgeAs("Leadline 2", 12, opinion.Score{Centipawns: -10}, "f4", "exf4")
		pass(time.Second, desk)
		said := desk.newest()
		if said.Other == nil || said.Other.Engine != "Leadline 2" || said.Other.Lines[0].Score != "−0.10" || !said.Differ || said.Desk.Engine != engineName {
			t.Errorf("with two: %+v", said)
		}
		if len(said.Boards) != 1 || said.Boards[0].Engine != engineName {
			t.Errorf("tiles have %+v", said.Boards)
		}
		desk.conn.CloseNow()
		synctest.Wait()
	})
}

// TestOpinionsAreSmall: of twelve boards, each with five lines of twenty moves, a page is
// sent less than a board's own frame has.
func TestOpinionsAreSmall(t *testing.T) {
	show := fullOpinions(t, 12)
	frame := encode(opinionsFrame(show))
	if len(frame) > opinionBytesMost {
		t.Errorf("%d bytes, more than %d", len(frame), opinionBytesMost)
	}
	var said wire.Opinions
	json.Unmarshal(frame, &said)
	if len(said.Boards) != 12 || len(said.Boards[0].Lines) != tileLimits.lines || len(said.Boards[0].Lines[0].Moves) != tileLimits.moves ||
		len(said.Desk.Lines) != deskLimits.lines || len(said.Desk.Lines[0].Moves) != deskLimits.moves {
		t.Errorf("%.400s", frame)
	}
	t.Logf("%d bytes", len(frame))
}

// opinionBytesMost is what the opinions on twelve boards may weigh, uncompressed.
const opinionBytesMost = 10_000

func fullOpinions(t *testing.T, boards int) *relay.Show {
	t.Helper()
	plan := relaytest.Plan()
	plan.MaxBoards = boards
	stage := relaytest.NewStageOf(plan)
	var games []relaytest.Game
	for n := range boards {
		games = append(games, relaytest.Game{White: fmt.Sprintf("Weiss%d, W", n), Black: fmt.Sprintf("Noir%d, N", n), Moves: "e4 e5"})
	}
	stage.Take(relaytest.Packet(games...))
	for n := range boards {
		place := *stage.Show.Boards[n].Place(2)
		said := opinion.Opinion{Engine: engineName, Depth: 20}
		for range deskLimits.lines + 1 {
			line, at := opinion.Line{Score: opinion.Score{Centipawns: 84}, Chances: &opinion.Chances{Win: 100, Draw: 800, Loss: 100}}, place
			for range 20 {
				line.Moves = append(line.Moves, at.Moves(nil)[0])
				at.Make(line.Moves[len(line.Moves)-1])
			}
			said.Lines = append(said.Lines, line)
		}
		stage.Apply(relay.EngineAnswered{At: stage.Now, Board: n + 1, Answers: []relay.Judged{{Ply: 2, Place: place.Hash(), Opinion: said}}})
	}
	return stage.Show
}
