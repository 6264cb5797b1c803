package engine

import (
	"testing"

	"github.com/notnil/chess"
	"github.com/notnil/chess/uci"

	"clocktell/relay/bitboard"
)

// TestAgainstAnotherClient: of the same searches of the same engine another UCI client,
// that of notnil/chess, reads the same score, depth and line. With one thread a search to a
// depth is the same each time.
func TestAgainstAnotherClient(t *testing.T) {
	e := realEngine(t)
	e.stop()
	o := e.Options
	o.Lines = 1
	mine := &asked{kennel: run(t, o)}
	theirs, err := uci.New(o.Command)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { theirs.Close() })
	err = theirs.Run(uci.CmdUCI, uci.CmdSetOption{Name: "Threads", Value: "1"}, uci.CmdSetOption{Name: "Hash", Value: "16"},
		uci.CmdSetOption{Name: "UCI_AnalyseMode", Value: "true"}, uci.CmdUCINewGame, uci.CmdIsReady)
	if err != nil {
		t.Fatal(err)
	}
	for _, fen := range []string{
		"r1bqk2r/pppp1ppp/2n2n2/2b1p3/2B1P3/2PP1N2/PP3PPP/RNBQK2R b KQkq - 0 5",
		"8/5pk1/6p1/3Q3p/7P/6P1/1q3P2/6K1 w - - 0 40",
		"2kr4/pp1n4/2p5/8/5B2/8/4B3/2Q3K1 w - - 0 1",
	} {
		var game chess.Position
		if err := game.UnmarshalText([]byte(fen)); err != nil {
			t.Fatal(err)
		}
		if err := theirs.Run(uci.CmdPosition{Position: &game}, uci.CmdGo{Depth: 10}); err != nil {
			t.Fatal(err)
		}
		want := theirs.SearchResults().Info
		p := position(t, fen)
		o := mine.ask(p, Limit{Depth: 10})
		best, _ := o.Best()
		score := best.Score.From(p.Turn() == bitboard.White)
		if score.Centipawns != want.Score.CP || score.Mate != want.Score.Mate || o.Depth != want.Depth || int(o.Nodes) != want.Nodes {
			t.Errorf("%s: score %+v, depth %d, %d nodes; the other client has %+v, %d, %d", fen, score, o.Depth, o.Nodes, want.Score, want.Depth, want.Nodes)
		}
		for i, m := range best.Moves {
			if i >= len(want.PV) || m.String() != want.PV[i].String() {
				t.Errorf("%s: line %v, the other client has %v", fen, best.Moves, want.PV)
				break
			}
		}
	}
}
