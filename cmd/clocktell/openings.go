package main

import (
	"context"
	"strings"
	"sync"
	"time"

	"github.com/notnil/chess/opening"

	"clocktell/relay"
	"clocktell/relay/bitboard"
)

// openingBook names openings by the position they lead to, so that any order of moves
// finds them.
type openingBook map[uint64]relay.Opening

// Name returns the name of a position that ends a line of the table.
func (b openingBook) Name(place uint64) (relay.Opening, bool) {
	found, ok := b[place]
	return found, ok
}

// theBook is built once in a process, from the library's table. It gives its lines as
// moves from square to square. Where two lines end in one position the shorter names
// it, and the earlier of the same length.
var theBook = sync.OnceValue(func() openingBook {
	book, lengths := make(openingBook), make(map[uint64]int)
	for _, line := range opening.NewBookECO().Possible(nil) {
		moves := strings.Fields(line.PGN())
		place, ok := playedOut(moves)
		if n, taken := lengths[place]; !ok || taken && (n < len(moves) || n == len(moves) && book[place].Code <= line.Code()) {
			continue
		}
		book[place], lengths[place] = relay.Opening{Code: line.Code(), Name: line.Title()}, len(moves)
	}
	return book
})

// loadOpenings builds the table beside the loop: it takes a quarter of a second,
// and no picture should wait for it.
func loadOpenings(ctx context.Context, now func() time.Time, events chan<- relay.Event) error {
	book := theBook()
	select {
	case events <- relay.OpeningsLoaded{At: now(), Book: book}:
	case <-ctx.Done():
	}
	return nil
}

// playedOut returns the hash of the position after moves from square to square.
func playedOut(moves []string) (uint64, bool) {
	place := bitboard.Start()
	for _, text := range moves {
		move, ok := moveOf(text)
		if !ok || !place.IsLegal(move) {
			return 0, false
		}
		place.Make(move)
	}
	return place.Hash(), len(moves) > 0
}

// moveOf reads a move such as "e2e4"; no line of the table promotes.
func moveOf(text string) (bitboard.Move, bool) {
	if len(text) != 4 {
		return 0, false
	}
	from, known := bitboard.ParseSquare(text[:2])
	to, alsoKnown := bitboard.ParseSquare(text[2:])
	return bitboard.NewMove(from, to, bitboard.NoPieceType), known && alsoKnown
}
