package main

import (
	"strings"
	"testing"

	"github.com/notnil/chess"
	"github.com/notnil/chess/opening"

	"clocktell/relay/bitboard"
)

// TestOpeningsByPosition: every line of the library's table is found by its position,
// under the name the library gives it unless a shorter line leads to the same place.
func TestOpeningsByPosition(t *testing.T) {
	book, library := theBook(), opening.NewBookECO()
	same, shared := 0, 0
	for _, line := range library.Possible(nil) {
		place, ok := playedOut(strings.Fields(line.PGN()))
		if !ok {
			t.Errorf("%s %s cannot be played: %s", line.Code(), line.Title(), line.PGN())
			continue
		}
		got, ok := book.Name(place)
		switch {
		case !ok:
			t.Errorf("%s %s is not found", line.Code(), line.Title())
		case got.Name == line.Title() && got.Code == line.Code():
			same++
		default:
			shared++
		}
	}
	t.Logf("%d lines under their own name, %d under that of another order of moves", same, shared)
	if same < 3000 || shared > same/20 {
		t.Errorf("%d lines found under their own name, %d under another", same, shared)
	}
}

// TestOpeningByTransposition: a Slav by another order of moves is a Slav; the library's
// own search, by order of moves, is the rival.
func TestOpeningByTransposition(t *testing.T) {
	usual, other := "d4 d5 c4 c6 Nf3", "c4 c6 d4 d5 Nf3"
	place := bitboard.Start()
	game := chess.NewGame()
	for _, san := range strings.Fields(other) {
		move, err := place.ParseSAN(san)
		if err != nil {
			t.Fatal(err)
		}
		place.Make(move)
		if err := game.MoveStr(san); err != nil {
			t.Fatal(err)
		}
	}
	straight := chess.NewGame()
	for _, san := range strings.Fields(usual) {
		if err := straight.MoveStr(san); err != nil {
			t.Fatal(err)
		}
	}
	library := opening.NewBookECO()
	want := library.Find(straight.Moves())
	got, ok := theBook().Name(place.Hash())
	if !ok || got.Name != want.Title() || got.Code != want.Code() {
		t.Errorf("got %v, want %s %s", got, want.Code(), want.Title())
	}
	if byOrder := library.Find(game.Moves()); byOrder != nil && byOrder.Title() == want.Title() {
		t.Errorf("the library finds %s by this order of moves too: the test proves nothing", want.Title())
	}
}
