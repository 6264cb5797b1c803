package main

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/notnil/chess"

	"clocktell/overlay/wire"
)

// Openings as they stand in any book, for boards that look like games.
var airMoves = []string{
	"e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Nb8 d4 Nbd7 Nbd2 Bb7 Bc2 Re8 Nf1 Bf8 Ng3 g6",
	"d4 Nf6 c4 e6 Nc3 Bb4 e3 O-O Bd3 d5 Nf3 c5 O-O Nc6 a3 Bxc3 bxc3 dxc4 Bxc4 Qc7 Bd3 e5 Qc2 Re8",
	"e4 c5 Nf3 d6 d4 cxd4 Nxd4 Nf6 Nc3 a6 Be3 e5 Nb3 Be6 f3 Be7 Qd2 O-O O-O-O Nbd7 g4 b5 g5 b4 Ne2 Ne8",
	"c4 e5 Nc3 Nf6 Nf3 Nc6 g3 d5 cxd5 Nxd5 Bg2 Nb6 O-O Be7 d3 O-O Be3 Be6 Rc1 f5 Na4",
	"e4 e6 d4 d5 Nc3 Bb4 e5 c5 a3 Bxc3+ bxc3 Ne7 Qg4 Qc7 Qxg7 Rg8 Qxh7 cxd4 Ne2 Nbc6 f4 dxc3 Qd3 d4",
}

// airPlayers are invented, two a board.
var airPlayers = strings.Fields("Quintanilha Tveiterås Castellanos Duarte-Finn Halloran Brask Okonjo-Baptista Vandermoel " +
	"Yıldırımsoy Mbeki-Sund Tolvanen-Reid Arkwright Ferreira Ahlm Żółkiewicz Szentgyörgyi Lindahl Ocampo Pereyra Nakasone Dvořáková Ashdown Ingram Bello")

// spentOn says how long each player thinks on a move, in seconds: prepared first, then not.
func spentOn(i int) int64 {
	if i < 10 {
		return int64(2 + i%3*2)
	}
	return int64(12 + (i*37)%50 + i%7/6*90)
}

// airBoard is a board of the show as its frame says it, at now, with so many plies played
// at 15 minutes and 10 seconds a move. White has thought for 23 seconds, or Black.
func airBoard(t *testing.T, number, plies int, now int64) wire.Board {
	t.Helper()
	moves := strings.Fields(airMoves[(number-1)%len(airMoves)])
	game, left := chess.NewGame(), [2]int64{900_000, 900_000}
	b := wire.Board{
		Type: wire.TypeBoard, Board: number, Rev: 1, At: now, Event: "Velmarin Harbour Festival", Round: "5", Result: "*", Plies: []wire.Ply{},
		Control: wire.Control{Text: "15 min + 10 s", BaseMs: 900_000, IncrementMs: 10_000, Class: "rapid"}, Alerts: []wire.Alert{}, Feed: wire.FeedState{Name: "hall", State: "ok"},
	}
	for i := range min(plies, len(moves)) {
		if err := game.MoveStr(moves[i]); err != nil {
			t.Fatal(err)
		}
		spent, look := 1000*spentOn(i), wire.LookPreparation
		if i >= 10 {
			look = wire.LookThinking
		}
		left[i%2] += 10_000 - spent
		move := game.Moves()[i]
		b.Plies = append(b.Plies, wire.Ply{
			Number: i + 1, SAN: moves[i], From: move.S1().String(), To: move.S2().String(),
			SpentMs: spent, LeftMs: left[i%2], Quality: wire.QualityRead, Look: look,
		})
	}
	b.FEN = game.FEN()
	sides := [2]*wire.Player{&b.White, &b.Black}
	for i, p := range sides {
		name := airPlayers[(2*number-2+i)%len(airPlayers)]
		*p = wire.Player{Name: name, Short: name, Title: "GM", Rating: 2500 + number, Federation: "VEL"}
		p.Clock = wire.Clock{LeftMs: left[i], At: now, State: wire.StateStopped, Quality: wire.QualityRead, StepMs: 1000}
		p.Tell = wire.Tell{Verdict: wire.VerdictEarly, Reasons: []string{}, Outlook: []string{}, Thinking: 0.1}
		tellFrom(&b, i, plies > 12)
	}
	if plies > 0 {
		on := sides[len(b.Plies)%2]
		on.Clock.State, on.Clock.LeftMs, on.Clock.SpentMs = wire.StateRunning, on.Clock.LeftMs-23_000, 23_000
		b.Running = []string{"white", "black"}[len(b.Plies)%2]
	}
	return b
}

// onMove returns the player whose clock runs, and which side that is.
func onMove(b *wire.Board) (*wire.Player, string) {
	if b.Running == "black" {
		return &b.Black, b.Running
	}
	return &b.White, "white"
}

func raise(b *wire.Board, kind string, level int, at int64) {
	_, side := onMove(b)
	b.Alerts = append(b.Alerts, wire.Alert{
		ID: fmt.Sprintf("board%d-%s-%s-%d", b.Board, kind, side, level), Kind: kind, Side: side, Level: level, Ply: len(b.Plies), At: at,
		Reason: "under 20 seconds", Evidence: "under 20 seconds",
	})
}

// airStates are the states in which a scene has to hold: each makes one of an ordinary board.
var airStates = map[string]func(b *wire.Board, now int64){
	"start":       func(b *wire.Board, now int64) {},
	"preparation": func(b *wire.Board, now int64) {},
	"thinking":    func(b *wire.Board, now int64) {},
	"long think": func(b *wire.Board, now int64) {
		p, _ := onMove(b)
		p.Clock.LeftMs -= 412_000 - p.Clock.SpentMs
		p.Clock.SpentMs, p.Tell.Evidence = 412_000, "longest think so far"
		raise(b, "longThink", 0, now-60_000)
	},
	"time trouble": func(b *wire.Board, now int64) {
		hurried(b, 14_600)
		raise(b, "timeTrouble", 3, now-5000)
	},
	"novelty": func(b *wire.Board, now int64) {
		b.Novelty = &wire.Novelty{Ply: len(b.Plies), Before: wire.Known{Games: 1211, All: 1211, Moves: []wire.KnownMove{}}}
		raise(b, "novelty", 0, now-3000)
	},
	"first think": func(b *wire.Board, now int64) { raise(b, "firstThink", 0, now-3000) },
	"stale": func(b *wire.Board, now int64) {
		b.Feed.State, b.Feed.Since = "stale", now-42_000
		held(b, 30_000, now-12_000)
	},
	"frozen": frozen,
	"corrected": func(b *wire.Board, now int64) {
		b.Correction = &wire.Correction{Ply: len(b.Plies), Was: "Qd8", Is: "Qd7", At: now}
	},
	"result": func(b *wire.Board, now int64) {
		b.Result, b.Running = "1/2-1/2", ""
		b.White.Clock.State, b.Black.Clock.State = wire.StateStopped, wire.StateStopped
	},
	"no clocks": func(b *wire.Board, now int64) {
		for _, p := range []*wire.Player{&b.White, &b.Black} {
			p.Clock.Quality, p.Clock.StepMs, p.Tell.Verdict, p.Tell.Evidence = wire.QualityNone, 0, wire.VerdictNoClock, ""
		}
		for i := range b.Plies {
			b.Plies[i].Look, b.Plies[i].Quality, b.Plies[i].SpentMs = wire.LookNone, wire.QualityNone, 0
		}
	},
	"estimated": func(b *wire.Board, now int64) {
		b.White.Clock.Quality, b.Black.Clock.Quality = wire.QualityEstimated, wire.QualityEstimated
	},
	"hours": func(b *wire.Board, now int64) { b.White.Clock.LeftMs, b.Black.Clock.LeftMs = 6_912_000, 7_205_000 },
	"minutes": func(b *wire.Board, now int64) {
		b.White.Clock.StepMs, b.Black.Clock.StepMs, b.White.Clock.LeftMs, b.Black.Clock.LeftMs = 60_000, 60_000, 5_310_000, 2_610_000
	},
	"held hours": func(b *wire.Board, now int64) {
		b.White.Clock.LeftMs, b.Black.Clock.LeftMs = 6_912_000, 7_205_000
		frozen(b, now)
	},
	"held minutes": func(b *wire.Board, now int64) {
		b.White.Clock.StepMs, b.Black.Clock.StepMs, b.White.Clock.LeftMs, b.Black.Clock.LeftMs = 60_000, 60_000, 5_310_000, 2_610_000
		frozen(b, now)
	},
	"estimated result": func(b *wire.Board, now int64) {
		b.Result, b.Running = "1-0", ""
		b.White.Clock.State, b.Black.Clock.State = wire.StateStopped, wire.StateStopped
		b.White.Clock.Quality, b.Black.Clock.Quality = wire.QualityEstimated, wire.QualityEstimated
	},
	"longest names in trouble": func(b *wire.Board, now int64) {
		hurried(b, 12_600)
		b.White.Short, b.Black.Short = "Wölfflin-Szczebrzeszyński de la Fuente y Ochoa", "Phạm Nguyễn-Ravelomanantsoa-Ķēniņš"
		raise(b, "timeTrouble", 3, now-1000)
	},
	"longest names": func(b *wire.Board, now int64) {
		b.Event = "Velmarin Harbour Festival of Rapid and Very Rapid Chess under the Patronage of the Lighthouse Keepers"
		b.White.Short, b.Black.Short = "Wölfflin-Szczebrzeszyński de la Fuente y Ochoa", "Phạm Nguyễn-Ravelomanantsoa-Ķēniņš"
	},
	"Arabic": func(b *wire.Board, now int64) {
		b.White.Short, b.Black.Short = "عبد الرحمن القنطري", "سليمان بن يوسف المنارة"
	},
	"Chinese": func(b *wire.Board, now int64) { b.White.Short, b.Black.Short = "欧阳海港", "司徒灯塔" },
}

// stated is a board in one of the states. Its plies are few at the start.
func stated(t *testing.T, number int, state string, now int64) wire.Board {
	t.Helper()
	b := airBoard(t, number, map[string]int{"start": 0, "preparation": 9}[state]+map[bool]int{true: 0, false: 18 + number%4}[state == "start" || state == "preparation"], now)
	change, ok := airStates[state]
	if !ok {
		t.Fatalf("no state %q", state)
	}
	change(&b, now)
	return b
}

// highest is how many boards there are in a show that has these.
func highest(boards []wire.Board) (number int) {
	for _, b := range boards {
		number = max(number, b.Board)
	}
	return number
}

// sayShow is a script that says frames to a tapped page as the relay would: how many boards there
// are, and each of them.
func sayShow(boards ...wire.Board) string {
	show := wire.Show{Type: wire.TypeShow, Title: "Velmarin Harbour Festival", Lang: "en", Boards: highest(boards)}
	var out strings.Builder
	for _, frame := range append([]any{show}, anys(boards)...) {
		data, err := json.Marshal(frame)
		if err != nil {
			panic(err) // strings and numbers only
		}
		fmt.Fprintf(&out, "say(%s);", data)
	}
	return out.String()
}

func anys(boards []wire.Board) []any {
	var out []any
	for _, b := range boards {
		out = append(out, b)
	}
	return out
}

// showNow is show time: the relays of these tests show at the rate of the wall.
func showNow() int64 { return time.Now().UnixMilli() }
