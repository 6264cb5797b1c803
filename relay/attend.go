package relay

import (
	"fmt"
	"slices"
	"time"
)

// follow lets a board choose the feed it follows, believe what that has kept to
// long enough, and show what it says.
func (s *Show) follow(i int) {
	was := s.Boards[i]
	b := was.settled(s.feed, s.At).weighed(s.feed, s.At)
	if feed, why := b.choose(s.feed, s.At); feed != b.Feed {
		turned := *b
		turned.Feed = feed
		b = &turned
		if was.Feed != "" {
			s.Totals.FeedSwitches++
			s.note(Noted{Board: b.Number, Kind: NoteFeed, Was: was.Feed, Is: feed, Text: why})
		}
	}
	b = b.followed(s.defaultsOf(b.Feed), s.At)
	if b.Feed != was.Feed && b.Rev == was.Rev { // pages are told which feed it is
		turned := *b
		turned.Keep = len(b.Plies)
		b = b.succeeded(&turned, s.At, false)
	}
	b = b.hold(b.silence(s.feed(b.Feed)), s.At)
	if b == was {
		return
	}
	if b.sourcesDiffer(was) {
		s.SourcesRev++
	}
	s.noteSources(was, b)
	s.learn(was, b)
	s.setBoard(i, b)
}

// settled believes what feeds have kept to long enough.
func (b *Board) settled(feed func(string) *Feed, t time.Time) *Board {
	if !slices.ContainsFunc(b.Offers, func(o *Offer) bool { return o.Older != nil }) {
		return b
	}
	next := *b
	for i, o := range b.Offers {
		if o.Older == nil {
			continue
		}
		if believed := o.settled(feed(o.Feed).LastGood, t); believed != o {
			next.Offers = slices.Clone(next.Offers)
			next.Offers[i] = believed
		}
	}
	return &next
}

// sourcesDiffer reports whether the producer should see something else of where
// the board comes from.
func (b *Board) sourcesDiffer(was *Board) bool {
	return b.Feed != was.Feed || b.Pinned != was.Pinned || !b.Frozen.Equal(was.Frozen) || !sameQuestion(b.Question, was.Question) ||
		b.Fault != was.Fault || len(b.Plies) != len(was.Plies) || b.Result != was.Result || !b.Hand.same(&was.Hand) ||
		!slices.EqualFunc(b.Offers, was.Offers, sameOffer)
}

func sameOffer(x, y *Offer) bool {
	return x.Feed == y.Feed && x.texts == y.texts && x.Gone.Equal(y.Gone) && (x.Older == nil) == (y.Older == nil) &&
		x.Broken == y.Broken && x.behind.IsZero() == y.behind.IsZero() && x.fit.IsZero() == y.fit.IsZero()
}

func sameQuestion(x, y *Question) bool { return (x == nil) == (y == nil) && (x == nil || x.ID == y.ID) }

// same reports whether two hands hold the same entries.
func (h *Hand) same(other *Hand) bool {
	return slices.Equal(h.Moves, other.Moves) && slices.Equal(h.Clocks, other.Clocks) && h.Result == other.Result && h.Names == other.Names
}

// noteSources writes down what changed in where a board comes from.
func (s *Show) noteSources(was, now *Board) {
	for _, o := range now.Offers {
		if before := was.offer(o.Feed); before != nil {
			s.noteOffer(now.Number, before, o)
		}
	}
	if q := now.Question; q != nil && !sameQuestion(q, was.Question) {
		s.note(Noted{Board: now.Number, Kind: NoteAsked, Ply: q.Ply, Was: q.Hand, Is: q.Feed, Text: string(q.Kind)})
	}
	for _, e := range was.Hand.Moves {
		if now.Game == was.Game && now.Hand.move(e.Ply) == nil && now.Hand.entries == was.Hand.entries && e.SAN != "" {
			s.note(Noted{Board: now.Number, Kind: NoteAgreed, Ply: e.Ply, Was: e.SAN, Is: e.SAN})
		}
	}
}

// noteOffer writes down what changed in what a feed has of a board's game.
func (s *Show) noteOffer(board int, was, now *Offer) {
	note := func(kind NoteKind, before, after string) {
		s.note(Noted{Board: board, Kind: kind, Was: before, Is: after, Text: now.Feed})
	}
	switch gone, before := !now.Gone.IsZero(), !was.Gone.IsZero(); {
	case gone && !before:
		note(NoteVanished, plies(was.plies()), "")
	case before && !gone:
		note(NoteReturned, "", plies(now.plies()))
	}
	switch {
	case was.Older == nil && now.Older != nil:
		note(NoteOlder, plies(was.plies()), plies(now.Older.Plies))
		s.Totals.OlderStates++
	case was.Older != nil && now.Older == nil:
		note(NoteOlderOver, plies(was.Older.Plies), plies(now.plies()))
	}
}

func plies(n int) string { return fmt.Sprintf("%d plies", n) }
