package main

import (
	"strings"

	"clocktell/relay"
)

// Games for moves that the usual one does not have.
const (
	promoting = "a4 b5 axb5 a6 bxa6 Bb7 axb7 Nc6 bxa8=Q" // by capture, on a8
	passing   = "e4 a6 e5 d5 exd6"                       // en passant
	checking  = "e4 e5 Bc4 Nc6 Bxf7+ Kxf7"
	mating    = "f3 e5 g4 Qh4#"
	twoKnight = "d4 d5 Nf3 Nf6 Nbd2 e6" // both knights can reach d2
	longSide  = "d4 d5 Nc3 Nf6 Bf4 e6 Qd2 Be7 O-O-O"
)

// sanRows are moves written otherwise than the standard exports them, and clear.
var sanRows = []faultRow{
	{name: "castling with zeros", basis: "PGN 8.2.3.3: the letter O, not the digit; import is lax (3.1)", during: 7, game: instead("O-O", "0-0")},
	{name: "long castling with zeros", basis: "PGN 8.2.3.3", moves: longSide, during: 9, game: instead("O-O-O", "0-0-0")},
	{name: "castling in small letters", basis: "PGN 8.2.3.3", during: 7, game: instead("O-O", "o-o")},
	{name: "promotion without =", basis: "PGN 8.2.3.3", moves: promoting, during: 9, game: instead("bxa8=Q", "bxa8Q")},
	{name: "promotion in brackets", basis: "PGN 8.2.3.3", moves: promoting, during: 9, game: instead("bxa8=Q", "bxa8(Q)")},
	{name: "promotion behind a slash", basis: "PGN 8.2.3.3", moves: promoting, during: 9, game: instead("bxa8=Q", "bxa8/Q")},
	{name: "more of the origin than needed", basis: "PGN 8.2.3.4", game: instead("Nf3", "Ngf3", "Nc6", "Nb8c6", "Bc4", "B1c4")},
	{name: "e.p.", basis: "PGN 8.2.3.3 gives en passant no mark; FIDE Laws C.12 allow it", moves: passing, during: 5, game: instead("exd6", "exd6 e.p.")},
	{name: "e.p. without a space", basis: "PGN 8.2.3.3", moves: passing, during: 5, game: instead("exd6", "exd6e.p.")},
	{name: "++", basis: "PGN 8.2.3.5: one + for any check; FIDE Laws C.13 know ++ for mate", moves: checking, game: instead("Bxf7+", "Bxf7++")},
	{name: "check without a mark", basis: "PGN 8.2.3.5", moves: checking, game: instead("Bxf7+", "Bxf7")},
	{name: "figurines", basis: "Unicode U+2654 to U+265F", game: instead("Nf3", "♘f3", "Nc6", "♞c6", "Bc4", "♗c4", "Bc5", "♝c5")},
	{name: "long algebraic moves", basis: "FIDE Laws C.8: an origin may be written", game: instead("e4 ", "e2-e4 ", "e5 ", "e7-e5 ", "Nf3", "Ng1-f3", "Nc6", "Nb8-c6", "Bc4", "Bf1-c4", "Bc5", "Bf8-c5")},
	{name: "coordinate moves", basis: "UCI's way of writing moves", game: instead("e4 ", "e2e4 ", "e5 ", "e7e5 ", "Nf3", "g1f3", "Nc6", "b8c6", "Bc4", "f1c4", "Bc5", "f8c5")},
	{name: "captures with colons", basis: "FIDE Laws C.9 once allowed it", moves: checking, game: instead("Bxf7+", "B:f7+", "Kxf7", "K:f7")},
	{name: "move numbers without periods", basis: "PGN 8.2.2: import is lax", game: instead("1. ", "1 ", "2. ", "2... ", "3. ", "")},
	{name: "mate", basis: "FIDE Laws 5.1.1", moves: mating, before: 3, during: 4, game: instead("Qh4#", "Qh4"), want: faultWant{result: "0-1", notes: noted(relay.NoteResult)}},
}

// moveRows are moves that cannot be right.
var moveRows = []faultRow{
	{name: "a result before the end", basis: "PGN 8.2.6: the result ends the game", game: instead("3. Bc4", "1-0 3. Bc4"),
		want: faultWant{shows: "e4 e5 Nf3 Nc6", result: "1-0", notes: noted(relay.NoteResult, relay.NotePlace), loose: true}},
	{name: "moves after mate", basis: "FIDE Laws 5.1.1: mate ends the game", moves: mating, game: instead("\n*", "\n3. a3 a6\n*"), before: 3, during: 4,
		want: faultWant{result: "0-1", notes: noted(relay.NoteResult, relay.NoteFault),
			reading: []string{"board 1, move 3.a3: a3 is not a legal move; the game is shown up to 2...Qh4#"}, unread: map[string]int{"unplayable": 1}}},
	{name: "an illegal move, repaired in the next poll", basis: "FIDE Laws 3.10", game: instead("Bc4", "Bc5", "Bc5 {[%clk 0:06:33]}", "a6 {[%clk 0:06:33]}"),
		want: faultWant{shows: "e4 e5 Nf3 Nc6", notes: noted(relay.NoteFault), verdict: "Board 1 stands still",
			reading: []string{"board 1, move 3.Bc5: Bc5 is not a legal move; the game is shown up to 2...Nc6"}, unread: map[string]int{"unplayable": 1}}},
	{name: "an illegal move in place of one already shown", basis: "FIDE Laws 3.10", game: instead("Nc6", "Nh5"),
		want: faultWant{shows: "e4 e5 Nf3 Nc6", notes: noted(relay.NoteFault), verdict: "Board 1 stands still",
			reading: []string{"board 1, move 2...Nh5: Nh5 is not a legal move"}, unread: map[string]int{"unplayable": 1}}},
	{name: "a move already shown left out", basis: "FIDE Laws 3.10", game: func(text string) string { return strings.Replace(text, "Nc6 "+clk(4), "", 1) },
		want: faultWant{shows: "e4 e5 Nf3 Nc6", notes: noted(relay.NoteFault), verdict: "Board 1 stands still",
			reading: []string{"board 1, move 2...Bc4: Bc4 is not a legal move"}, unread: map[string]int{"unplayable": 1}}},
	{name: "an ambiguous move", basis: "PGN 8.2.3.4", moves: twoKnight, game: instead("Nbd2", "Nd2"),
		want: faultWant{shows: "d4 d5 Nf3 Nf6", notes: noted(relay.NoteFault), verdict: "Board 1 stands still",
			reading: []string{"board 1, move 3.Nd2: Nd2 may mean two moves; the game is shown up to 2...Nf6"}, unread: map[string]int{"unplayable": 1}}},
	{name: "a garbled move", basis: "PGN 8.2.3", game: instead("Bc4", "Bz4"),
		want: faultWant{shows: "e4 e5 Nf3 Nc6", notes: noted(relay.NoteFault), verdict: "Board 1 stands still",
			reading: []string{"board 1, move 3.Bz4: \"Bz4\" is not a move", "meant for a move, but is none"}, unread: map[string]int{"unplayable": 1, "bad_move": 1}}},
	{name: "a new move left out", basis: "FIDE Laws 3.10", game: func(text string) string { return strings.Replace(text, "Bc4 "+fifth, "", 1) },
		want: faultWant{shows: "e4 e5 Nf3 Nc6", notes: noted(relay.NoteFault), verdict: "Board 1 stands still",
			reading: []string{"board 1, move 3.Bc5: Bc5 is not a legal move"}, unread: map[string]int{"unplayable": 1}}},
}
