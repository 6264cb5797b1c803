package main

import (
	"context"
	"sync"
	"time"

	"github.com/notnil/chess"
	"github.com/notnil/chess/opening"

	"clocktell/relay"
)

// openingBook names openings by the library's table.
type openingBook struct{ book *opening.BookECO }

// Name returns the deepest named opening that moves go through.
func (b openingBook) Name(moves []*chess.Move) relay.Opening {
	found := b.book.Find(moves)
	if found == nil {
		return relay.Opening{}
	}
	return relay.Opening{Code: found.Code(), Name: found.Title()}
}

// theBook is built once in a process, and by one goroutine: the library labels
// its nodes with a counter that all books share.
var theBook = sync.OnceValue(func() openingBook { return openingBook{opening.NewBookECO()} })

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
