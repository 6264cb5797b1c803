package relay

import (
	"fmt"
	"time"
)

// takePacket lets every changed game of a packet reach its board. The feed speaks
// from now on, but its boards learn that together with the news: a think that
// ended while nobody listened must not be called a long one.
func (s *Show) takePacket(e PacketRead, at time.Time) {
	s.Totals.Packets++
	slots := s.slotsOf(e.Feed)
	distinct := s.feed(e.Feed).distinct(e.Keys)
	numbers := s.pairAll(e, slots, distinct)
	half := s.breaksOff(e, numbers)
	receipt, several := Receipt{At: at, Within: s.unheardFor(e.Feed, at)}, s.severalBack(e, numbers)
	for i := range e.Games {
		read := &e.Games[i]
		if breaksOff(&read.Game) && len(read.Game.Moves) == 0 {
			continue // the text broke off inside its tags; the next packet will tell
		}
		s.takeGame(e, numbers, read, receipt, several)
	}
	s.place(e.Feed, numbers, slots, half)
	s.SourcesRev++
	s.onFeed(e.Feed, func(f *Feed) *Feed {
		next := f.answered(at, BeatNew)
		next.Games, next.More = len(e.Keys), e.More
		next.keys, next.distinctKeys = e.Keys, distinct
		next.Hidden, next.LeftOut = s.leftOut(e, numbers)
		return next
	})
	if s.feed(e.Feed).Name == "" { // a recording of a plan that had this feed
		s.followAll(e.Feed)
	}
	s.onFeed(e.Feed, func(f *Feed) *Feed { // once its boards have taken the news
		next := *f
		next.Reading = s.unread(f)
		return &next
	})
}

// breaksOff reports a packet that ends in the middle of a game which was whole before:
// half of what the arena wanted to write.
func (s *Show) breaksOff(e PacketRead, numbers []int) bool {
	if len(e.Games) == 0 {
		return false
	}
	last := &e.Games[len(e.Games)-1]
	if last.Index != len(e.Keys)-1 || !breaksOff(&last.Game) {
		return false
	}
	if number := numbers[last.Index]; number != 0 {
		o := s.Boards[number-1].offer(e.Feed)
		return o == nil || o.Game != nil && !o.cut
	}
	return true
}

// severalBack reports whether more than one game of a packet goes back to an older
// state.
func (s *Show) severalBack(e PacketRead, numbers []int) bool {
	back := 0
	for i := range e.Games {
		if number := numbers[e.Games[i].Index]; number != 0 {
			if o := s.Boards[number-1].offer(e.Feed); o != nil && o.goesBack(&e.Games[i]) {
				back++
			}
		}
	}
	return back > 1
}

// takeGame notes what a feed says of a game, on a new board if it has none and there
// is room.
func (s *Show) takeGame(e PacketRead, numbers []int, read *GameRead, r Receipt, several bool) {
	feed, number := e.Feed, numbers[read.Index]
	if number == 0 {
		if !s.opens(e, numbers, read) {
			return
		}
		number = len(s.Boards) + 1
		numbers[read.Index] = number
		s.Boards = append(s.Boards, newBoard(number, s.defaults.Language))
		s.HeadRev++
	}
	b := s.Boards[number-1]
	o := b.offer(feed)
	if o == nil {
		o = &Offer{Feed: feed, Place: read.Index, of: b.Game}
	}
	next := o.after(read, r, several)
	if next.of != o.of && o.of < b.Game && b.alike(next.Key, next.Game.Moves) >= 3 {
		next.of = b.Game // the feed has come to the game that another one told
	}
	s.noteOffer(number, o, next)
	s.Boards[number-1] = b.withOffer(next, s.rank)
}

// place notes where in the packet each board's game stands, and which it lacks.
func (s *Show) place(feed string, numbers []int, slots []slot, half bool) {
	for game, number := range numbers {
		if number == 0 {
			continue
		}
		b := s.Boards[number-1]
		o := b.offer(feed)
		if o == nil || o.Place == game && o.Gone.IsZero() {
			continue
		}
		moved := *o
		moved.Place, moved.Gone = game, time.Time{}
		s.notePlace(b, o, game)
		s.Boards[number-1] = b.withOffer(&moved, s.rank)
		s.noteOffer(number, o, &moved)
	}
	if half {
		return // what is missing may stand in the other half
	}
	stands := make([]bool, len(s.Boards)+1)
	for _, number := range numbers {
		stands[number] = true
	}
	for _, slot := range slots {
		if number := slot.board.Number; !stands[number] {
			b := s.Boards[number-1]
			o := b.offer(feed)
			gone := o.vanished(s.At)
			s.Boards[number-1] = b.withOffer(gone, s.rank)
			s.noteOffer(number, o, gone)
		}
	}
}

// notePlace notes a game that stands elsewhere in its feed's packet: boards that
// swap do that.
func (s *Show) notePlace(b *Board, o *Offer, game int) {
	if o.Place != game {
		s.note(Noted{Board: b.Number, Kind: NotePlace, Was: fmt.Sprint(o.Place + 1), Is: fmt.Sprint(game + 1), Text: o.Feed})
	}
}

// leftOut counts the games that are on no board: for want of room, or for another
// reason.
func (s *Show) leftOut(e PacketRead, numbers []int) (hidden int, out LeftOut) {
	for i, key := range e.Keys {
		switch {
		case numbers[i] != 0:
		case key == Key{}:
			out.Untagged++
		case len(s.Boards) >= s.plan.MaxBoards:
			hidden++
		case !s.mayOpen(e.Feed):
			out.Unmatched++
		default:
			out.Twice++
		}
	}
	return hidden, out
}

// opens reports whether a game may begin a board: not moves that no tag names, nor a
// game that the packet has twice.
func (s *Show) opens(e PacketRead, numbers []int, read *GameRead) bool {
	if len(s.Boards) >= s.plan.MaxBoards || !s.mayOpen(e.Feed) || len(read.Game.Tags) == 0 {
		return false
	}
	key := e.Keys[read.Index]
	for i, number := range numbers {
		if number == 0 || e.Keys[i] != key || unknown(key.White) || len(read.Game.Moves) < twicePlies {
			continue
		}
		if o := s.Boards[number-1].offer(e.Feed); o != nil && o.plies() == len(read.Game.Moves) && sameStart(o.Game.Moves, read.Game.Moves) == o.plies() {
			return false
		}
	}
	return true
}

// twicePlies is how many plies tell that a game is in a packet twice: two games of the
// same players may begin alike.
const twicePlies = 4

// unheardFor returns how long ago a feed was last heard.
func (s *Show) unheardFor(feed string, at time.Time) time.Duration {
	if f := s.feed(feed); !f.LastGood.IsZero() {
		return at.Sub(f.LastGood)
	}
	return unknownWithin
}

// followersOf returns the boards that follow a feed.
func (s *Show) followersOf(feed string) []*Board {
	var out []*Board
	for _, b := range s.Boards {
		if b.Feed == feed {
			out = append(out, b)
		}
	}
	return out
}
