package pgn_test

import (
	"os"
	"testing"

	"clocktell/relay/pgn"
)

// The sample game of the PGN standard, 2.3: its words are from memory; that they
// are the right ones shows the final position, computed elsewhere from the
// standard's text: 85 plies, each with one legal move for its SAN.
func TestStandardSampleGame(t *testing.T) {
	data, err := os.ReadFile("testdata/standard-2.3.pgn")
	if err != nil {
		t.Fatal(err)
	}
	games := pgn.Read(data)
	if len(games) != 1 || len(games[0].Faults) > 0 {
		t.Fatalf("%d games, want 1 without faults: %+v", len(games), games)
	}
	g := games[0]
	if got, want := len(g.Moves), 85; got != want {
		t.Errorf("%d moves, want %d", got, want)
	}
	if got, want := g.Result, "1/2-1/2"; got != want {
		t.Errorf("result %s, want %s", got, want)
	}
	if got, want := g.Tag("Round"), "29"; got != want {
		t.Errorf("round %s, want %s", got, want)
	}
	got, err := replay(&g)
	if want := "8/8/4R1p1/2k3p1/1p4P1/1P1b1P2/3K1n2/8 b -"; got != want || err != nil {
		t.Errorf("final position %q, %v, want %q", got, err, want)
	}
}
