package relay

// What the producer is shown of a board's sources; everything here only looks.

// Acts lists every Act.
var Acts = []Act{ActMove, ActCorrect, ActClock, ActResult, ActName, ActFreeze, ActThaw, ActPin, ActAnswer, ActHold, ActQuiet, ActRecording}

// Plies returns how many plies the feed has of the game.
func (o *Offer) Plies() int { return o.plies() }

// OfferDoubt says in a few words why an offer should not be followed as things
// stand, or "".
func (s *Show) OfferDoubt(o *Offer) string { return o.doubt(o.behind, s.feed(o.Feed), s.At) }

// Differs reports whether an offer's moves are others than those shown. One that
// has not come as far yet does not differ.
func (b *Board) Differs(o *Offer) bool { return !b.agreesWith(o) }

// Playing reports whether a game of a feed is on, or none is known yet.
func (s *Show) Playing(feed string) bool {
	known := false
	for _, b := range s.Boards {
		if b.offer(feed) == nil {
			continue
		}
		if known = true; !b.Over() {
			return true
		}
	}
	return !known
}

// gone reports that the feed followed no longer has the game.
func (b *Board) gone() bool {
	o := b.offer(b.Feed)
	return o != nil && !o.Gone.IsZero()
}
