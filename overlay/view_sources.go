package overlay

import (
	"slices"
	"sync/atomic"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/clock"
)

// sourcesLedger tells where every board comes from.
type sourcesLedger = ledger[*relay.Board, wire.BoardSources, wire.Sources]

func newSourcesLedger(count *atomic.Uint64) *sourcesLedger {
	return &sourcesLedger{
		count:  count,
		rev:    func(s *relay.Show) uint64 { return s.SourcesRev },
		things: func(s *relay.Show) []*relay.Board { return s.Boards },
		row:    boardSources,
		stands: func(s *relay.Show, b *relay.Board, row wire.BoardSources) bool { // the state of feeds is not the board's
			return slices.EqualFunc(b.Offers, row.Offers, func(o *relay.Offer, view wire.Offer) bool { return s.OfferDoubt(o) == view.Text })
		},
		frame: func(s *relay.Show, base uint64, rows []wire.BoardSources) wire.Sources {
			return wire.Sources{Type: wire.TypeSources, Rev: s.SourcesRev, Base: base, Items: rows, Errors: clockErrors(s.ClockErrorsSince(base))}
		},
	}
}

// sourcesFrame tells all that there is of where the boards come from.
func sourcesFrame(show *relay.Show) wire.Sources {
	frame, _ := newSourcesLedger(nil).since(ledgerHeld{}, show)
	return frame
}

func clockErrors(errors []relay.ClockErrorAt) []wire.ClockErrorAt {
	out := make([]wire.ClockErrorAt, len(errors))
	for i, e := range errors {
		out[i] = wire.ClockErrorAt{At: e.At.UnixMilli(), Board: e.Board, Ms: e.By.Milliseconds()}
	}
	return out
}

func boardSources(show *relay.Show, b *relay.Board) wire.BoardSources {
	n := len(b.Plies)
	item := wire.BoardSources{
		Board: b.Number, White: b.Players[clock.White].Name, Black: b.Players[clock.Black].Name,
		Plies: n, Turn: b.Turn().String(), Next: moveNumber(b, n+1), Result: b.Result, Fault: b.Fault,
		Feed: b.Feed, Pinned: b.Pinned, Frozen: milli(b.Frozen),
		ByHand: handWords(b), Offers: make([]wire.Offer, 0, len(b.Offers)), Question: questionView(b),
		Error: wire.ClockError{Count: b.Errors.Count, LastMs: b.Errors.Last().Milliseconds(), MedianMs: b.Errors.Median().Milliseconds()},
	}
	if n > 0 {
		item.Last = moveWords(b, n)
	}
	for _, o := range b.Offers {
		item.Offers = append(item.Offers, offerView(show, b, o))
	}
	return item
}

// offerView says what becomes of an offer. Other moves than those shown weigh more
// than a doubt: they would change what is on the air.
func offerView(show *relay.Show, b *relay.Board, o *relay.Offer) wire.Offer {
	view := wire.Offer{Feed: o.Feed, State: wire.OfferReady, Text: show.OfferDoubt(o), Plies: o.Plies()}
	switch {
	case o.Feed == b.Feed:
		view.State = wire.OfferFollowed
	case b.Differs(o):
		view.State = wire.OfferDiffers
	case view.Text != "":
		view.State = wire.OfferDoubtful
	}
	return view
}

func questionView(b *relay.Board) *wire.Question {
	q := b.Question
	if q == nil {
		return nil
	}
	return &wire.Question{ID: q.ID, Kind: string(q.Kind), Text: questionWords(b), Hand: q.Hand, Feed: q.Feed}
}
