package relay

import (
	"cmp"
	"slices"
	"strings"

	"clocktell/relay/pgn"
)

// slot is a board as one feed knows it: what that offers has a game. The board may show
// another one's.
type slot struct {
	board *Board
	offer *Offer
}

// slotsOf returns the boards a feed has games of.
func (s *Show) slotsOf(feed string) []slot {
	out := make([]slot, 0, len(s.Boards))
	for _, b := range s.Boards {
		if o := b.offer(feed); o != nil && o.Game != nil {
			out = append(out, slot{b, o})
		}
	}
	return out
}

// pairAll finds for every game of a packet the board that shows it: the number of a
// board, or 0 for a game that needs a new one. Games that the feed never had may
// stand on boards of other feeds of its line, or on boards begun by hand. Distinct says
// that no two games have the same key.
func (s *Show) pairAll(e PacketRead, slots []slot, distinct bool) []int {
	if distinct {
		if numbers := asBefore(e, slots); numbers != nil {
			return numbers
		}
	}
	numbers := pair(e, slots, len(s.Boards) >= s.plan.MaxBoards)
	if slices.Contains(numbers, 0) {
		s.pairOthers(e, numbers)
	}
	return numbers
}

// asBefore pairs a packet whose games stand in their old places under their old
// keys; nil: it is another packet.
func asBefore(e PacketRead, slots []slot) []int {
	if len(slots) != len(e.Keys) {
		return nil
	}
	numbers := make([]int, len(e.Keys))
	for _, slot := range slots {
		place := slot.offer.Place
		if place < 0 || place >= len(e.Keys) || e.Keys[place] != slot.offer.Key {
			return nil
		}
		numbers[place] = slot.board.Number
	}
	if slices.Contains(numbers, 0) {
		return nil
	}
	return numbers
}

// pairing is a slot that may be a game's.
type pairing struct {
	game, slot int // indices
	likeness   int
	common     int // plies both have
	samePlace  bool
}

// better orders pairings, the surest first: by their keys, then by their moves,
// then by their place in the packet, then by order.
func better(a, b pairing) int {
	place := func(m pairing) int {
		if m.samePlace {
			return 0
		}
		return 1
	}
	return cmp.Or(cmp.Compare(b.likeness, a.likeness), cmp.Compare(b.common, a.common), cmp.Compare(place(a), place(b)),
		cmp.Compare(a.game, b.game), cmp.Compare(a.slot, b.slot))
}

// pair finds the boards of games by their keys, and by their moves where a name was
// mended. Games that neither leads to take boards whose game the packet no longer has:
// the one on which another feed has them already, or that of their table or place: a
// pairing that moved on. With full set there is no room for new boards, and such games
// take any left.
func pair(e PacketRead, slots []slot, full bool) []int {
	numbers := make([]int, len(e.Keys))
	taken := make(map[int]bool, len(slots))
	take := func(pairings []pairing) {
		slices.SortFunc(pairings, better)
		for _, m := range pairings {
			if numbers[m.game] == 0 && !taken[m.slot] {
				numbers[m.game], taken[m.slot] = slots[m.slot].board.Number, true
			}
		}
	}
	take(pairings(e, slots, func(m pairing, _ Key, _ slot) bool { return m.likeness > 0 }))
	take(pairings(e, slots, func(m pairing, _ Key, s slot) bool { return m.common >= surePlies && m.common == s.offer.plies() }))
	take(pairings(e, slots, func(_ pairing, k Key, s slot) bool { return k.sameGame(s.board.Key) }))
	take(pairings(e, slots, func(_ pairing, k Key, s slot) bool { return k.Table != "" && k.Table == s.offer.Key.Table }))
	take(pairings(e, slots, func(m pairing, _ Key, _ slot) bool { return m.samePlace || full }))
	return numbers
}

// pairings lists every game with every slot that may be its own.
func pairings(e PacketRead, slots []slot, may func(pairing, Key, slot) bool) []pairing {
	moves := movesOf(e)
	var out []pairing
	for game, key := range e.Keys {
		for i, s := range slots {
			m := pairing{game: game, slot: i, likeness: key.likeness(s.offer.Key), samePlace: s.offer.Place == game}
			if changed, ok := moves[game]; ok {
				m.common = sameStart(changed, s.offer.Game.Moves)
			} else if m.samePlace {
				m.common = s.offer.plies() // its text stands as it was
			}
			if may(m, key, s) {
				out = append(out, m)
			}
		}
	}
	return out
}

// movesOf returns the moves of a packet's changed games by their places.
func movesOf(e PacketRead) map[int][]pgn.Move {
	moves := make(map[int][]pgn.Move, len(e.Games))
	for i := range e.Games {
		moves[e.Games[i].Index] = e.Games[i].Game.Moves
	}
	return moves
}

// sameStart counts the first moves that mean the same.
func sameStart(a, b []pgn.Move) int {
	n := min(len(a), len(b))
	for i := range n {
		if !sameSAN(a[i].SAN, b[i].SAN) {
			return i
		}
	}
	return n
}

// Names written in two ways, or not at all, leave the moves to tell a game by: so
// many of them, all that one of the two feeds has.
const surePlies = 8

// pairOthers pairs games that a feed never had with boards of the other feeds of
// its line, and with boards begun by hand, the surest first.
func (s *Show) pairOthers(e PacketRead, numbers []int) {
	var found []pairing
	moves := movesOf(e)
	for _, b := range s.Boards {
		if b.offer(e.Feed) != nil || !s.sameLine(e.Feed, b) {
			continue
		}
		for game, number := range numbers {
			if changed, ok := moves[game]; ok && number == 0 {
				found = append(found, pairing{game: game, slot: b.Number, likeness: b.alike(e.Keys[game], changed)})
			}
		}
	}
	slices.SortStableFunc(found, better)
	for _, m := range found {
		if m.likeness > 0 && numbers[m.game] == 0 && !slices.Contains(numbers, m.slot) {
			numbers[m.game] = m.slot
		}
	}
}

// sameLine reports whether a board may have a feed's games: it was begun by hand,
// or one of its feeds is a backup of the other or of the same one.
func (s *Show) sameLine(feed string, b *Board) bool {
	return len(b.Offers) == 0 || s.line(b.Offers[0].Feed) == s.line(feed)
}

// line names the primary that a feed backs up, or the feed itself.
func (s *Show) line(feed string) string {
	if f := s.feed(feed); f.BackupOf != "" {
		return f.BackupOf
	}
	return feed
}

// rank orders feeds: a primary before its backups, else as configured.
func (s *Show) rank(feed string) int {
	at := slices.IndexFunc(s.Feeds, func(f *Feed) bool { return f.Name == feed })
	if at >= 0 && s.Feeds[at].BackupOf != "" {
		at += len(s.Feeds)
	}
	return at
}

// mayOpen reports whether a feed's games may have boards of their own: a backup's
// only while its primary is silent.
func (s *Show) mayOpen(feed string) bool {
	line := s.line(feed)
	return line == feed || s.feed(line).LastGood.IsZero() || s.feed(line).State == FeedStale
}

// alike ranks how surely a board of another feed shows a game, 0 for not at all.
func (b *Board) alike(k Key, moves []pgn.Move) int {
	common, shorter := b.common(moves), min(len(moves), len(b.Plies))
	names := sameFamily(k.White, b.Players[0]) && sameFamily(k.Black, b.Players[1])
	table := k.Table != "" && k.Table == b.Key.Table
	switch {
	case k.sameGame(b.Key):
		return 6
	case !agree(k.Round, b.Key.Round) && shorter == 0, common < shorter-2:
		return 0 // they play something else
	case k.White == b.Key.White && k.Black == b.Key.Black && !unknown(k.White):
		return 5
	case names && table:
		return 4
	case names:
		return 3
	case common >= surePlies && common == shorter:
		return 2
	case table && common == shorter:
		return 1
	}
	return 0
}

// common counts the first moves of a text that the board shows.
func (b *Board) common(moves []pgn.Move) int {
	n := min(len(moves), len(b.Plies))
	for i := range n {
		if !b.Plies[i].is(moves[i].SAN) {
			return i
		}
	}
	return n
}

// sameFamily reports whether a tag and a player have the same family name.
func sameFamily(tag string, p Player) bool {
	return !unknown(tag) && strings.EqualFold(Player{Name: tag}.Short(), p.Short())
}
