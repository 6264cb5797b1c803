package relay

import (
	"slices"
	"strings"
	"time"
)

// Which feed a board follows. Feeds are asked in their order: the primary, then
// its backups.
const (
	returnAfter = 20 * time.Second // a better feed must have been without a doubt for so long: no flapping
	behindAfter = 10 * time.Second // a feed that lacks moves another one has for so long is left
	differAfter = 45 * time.Second // a feed that tells other moves must have been without a doubt for so long
)

// offer returns what a feed says of the board's game, or nil.
func (b *Board) offer(feed string) *Offer {
	for _, o := range b.Offers {
		if o.Feed == feed {
			return o
		}
	}
	return nil
}

// withOffer returns a board with that offer in place of the feed's last one. The
// change is not visible.
func (b *Board) withOffer(o *Offer, rank func(feed string) int) *Board {
	next := *b
	next.Offers = slices.DeleteFunc(slices.Clone(b.Offers), func(was *Offer) bool { return was.Feed == o.Feed })
	next.Offers = append(next.Offers, o)
	slices.SortFunc(next.Offers, func(x, y *Offer) int { return rank(x.Feed) - rank(y.Feed) })
	return &next
}

// doubt says in a few words why an offer that has been behind since then should not be
// followed, or "".
func (o *Offer) doubt(behind time.Time, f *Feed, t time.Time) string {
	switch {
	case f.State == FeedStale:
		return "it is stale"
	case f.State != FeedOK:
		return "it does not answer"
	case !o.Gone.IsZero():
		return "it no longer has the game"
	case o.Older != nil:
		return "it went back to an older state"
	case o.Broken != "":
		return "its moves cannot be played"
	case !behind.IsZero() && t.Sub(behind) >= behindAfter:
		return "it is behind"
	}
	return ""
}

// weighed returns the board with what choosing needs to know of each offer: since
// when it is without a doubt, and since when it is behind another.
func (b *Board) weighed(feed func(string) *Feed, t time.Time) *Board {
	if len(b.Offers) < 2 {
		return b
	}
	offers, changed := b.Offers, false
	for i, o := range b.Offers {
		behind := since(o.behind, b.isBehind(o, feed), t)
		fit := o.doubt(behind, feed(o.Feed), t) == ""
		if behind.Equal(o.behind) && since(o.fit, fit, t).Equal(o.fit) && since(o.doubted, !fit, t).Equal(o.doubted) {
			continue
		}
		w := *o
		w.behind, w.fit, w.doubted = behind, since(o.fit, fit, t), since(o.doubted, !fit, t)
		if !changed {
			offers, changed = slices.Clone(b.Offers), true
		}
		offers[i] = &w
	}
	if !changed {
		return b
	}
	next := *b
	next.Offers = offers
	return &next
}

// since is when something began to hold: before, or now.
func since(was time.Time, holds bool, t time.Time) time.Time {
	switch {
	case !holds:
		return time.Time{}
	case was.IsZero():
		return t
	}
	return was
}

// isBehind reports whether a feed that answers has more moves of the same game.
func (b *Board) isBehind(o *Offer, feed func(string) *Feed) bool {
	return slices.ContainsFunc(b.Offers, func(other *Offer) bool {
		return other.plies() > o.plies() && feed(other.Feed).State == FeedOK && other.Gone.IsZero() &&
			other.Older == nil && other.Broken == "" && other.of == o.of && b.agreeing(o, other)
	})
}

// agreeing reports whether one feed's moves go on from the other's.
func (b *Board) agreeing(x, y *Offer) bool {
	for i := range min(x.plies(), y.plies()) {
		one, other := x.Game.Moves[i].SAN, y.Game.Moves[i].SAN
		if !sameSAN(one, other) && !(i < len(b.Plies) && b.Plies[i].is(one) && b.Plies[i].is(other)) {
			return false
		}
	}
	return true
}

// agreesWith reports whether an offer goes on from what the board shows, or has not
// come so far yet. What was entered by hand, and what no feed has told, is no matter.
func (b *Board) agreesWith(o *Offer) bool {
	for i := range min(o.plies(), len(b.Plies)) {
		ply, text := &b.Plies[i], o.Game.Moves[i].SAN
		if fed := b.fedText(i); fed != "" && !sameSAN(text, fed) && (ply.ByHand || !ply.is(text)) {
			return false
		}
	}
	return true
}

// is reports whether a word means the ply: as the feed wrote it, in SAN, or as the two
// squares.
func (p *Ply) is(word string) bool {
	return sameSAN(word, p.Text) || sameSAN(word, p.SAN) || strings.EqualFold(strings.ReplaceAll(word, "-", ""), p.Move.String())
}

// choose returns the feed the board should follow, and why it is another than
// before.
func (b *Board) choose(feed func(string) *Feed, t time.Time) (name, why string) {
	if b.offer(b.Pinned) != nil {
		return b.Pinned, "pinned"
	}
	now := b.offer(b.Feed)
	switch {
	case now == nil && len(b.Offers) > 0:
		return b.Offers[0].Feed, "the first to have the game"
	case len(b.Offers) < 2:
		return b.Feed, ""
	}
	for _, o := range b.Offers {
		if o == now {
			break
		}
		// One that tells other moves must have done so for long.
		fit := t.Sub(o.fit)
		if b.mayFollow(o) && o.plies() >= now.plies() && (fit >= differAfter || fit >= returnAfter && b.agreesWith(o)) {
			return o.Feed, "it is in order again"
		}
	}
	if !now.fit.IsZero() {
		return b.Feed, ""
	}
	// A feed that tells other moves is better than one that has told nothing for long.
	given := !now.doubted.IsZero() && t.Sub(now.doubted) >= differAfter
	for _, o := range b.Offers {
		if o != now && b.mayFollow(o) && (given || b.agreesWith(o)) {
			return o.Feed, now.Feed + ": " + now.doubt(now.behind, feed(now.Feed), t)
		}
	}
	return b.Feed, ""
}

// mayFollow reports whether a feed is in order and has the board's game, or the next.
func (b *Board) mayFollow(o *Offer) bool { return !o.fit.IsZero() && o.of >= b.Game }

// offersDue returns when time alone, from now on, may next change what is believed of
// the offers, or which is followed; zero: never.
func (b *Board) offersDue(now time.Time) time.Time {
	var due time.Time
	for _, o := range b.Offers {
		if o.Older != nil {
			due = earlier(due, laterThan(o.Older.Due, now))
		}
		if len(b.Offers) > 1 {
			due = earlier(due, o.weighDue(now))
		}
	}
	return due
}

// weighDue returns when an offer next passes one of the times that choosing looks at.
func (o *Offer) weighDue(now time.Time) time.Time {
	var due time.Time
	for _, at := range []struct {
		since time.Time
		after time.Duration
	}{{o.behind, behindAfter}, {o.fit, returnAfter}, {o.fit, differAfter}, {o.doubted, differAfter}} {
		if !at.since.IsZero() {
			due = earlier(due, laterThan(at.since.Add(at.after), now))
		}
	}
	return due
}

// laterThan returns t if it is still to come at now; zero otherwise.
func laterThan(t, now time.Time) time.Time {
	if t.After(now) {
		return t
	}
	return time.Time{}
}
