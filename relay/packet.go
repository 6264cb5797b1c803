package relay

import (
	"fmt"
	"time"

	"clocktell/relay/pgn"
)

// takePacket lets every changed game of a packet reach its board. The feed
// speaks from now on, but its boards learn that together with the news: a think
// that ended while nobody listened must not be called a long one.
func (s *Show) takePacket(e PacketRead, at time.Time) {
	s.Totals.Packets++
	numbers := pair(e, s.boardsOf(e.Feed), len(s.Boards) >= s.plan.MaxBoards)
	receipt := Receipt{At: at, Within: s.unheardFor(e.Feed, at)}
	for _, read := range e.Games {
		if breaksOff(&read.Game) && len(read.Game.Moves) == 0 {
			continue // the text broke off inside its tags; the next packet will tell
		}
		s.takeGame(e.Feed, numbers[read.Index], read, receipt)
	}
	s.place(numbers)
	s.onFeed(e.Feed, func(f *Feed) *Feed {
		next := f.answered(at, BeatNew)
		next.Games, next.Hidden, next.Reading = len(e.Keys), s.hidden(e, numbers), s.unread(e.Feed)
		return next
	})
}

func (s *Show) takeGame(feed string, number int, read GameRead, r Receipt) {
	if number == 0 {
		if len(s.Boards) >= s.plan.MaxBoards {
			return
		}
		number = len(s.Boards) + 1
		board := newBoard(number, feed)
		board.Place = read.Index
		s.Boards = append(s.Boards, board)
		s.HeadRev++
	}
	i := number - 1
	s.setBoard(i, s.Boards[i].Apply(&read.Game, r, s.defaults))
}

// place notes where in the packet each board's game stands.
func (s *Show) place(numbers []int) {
	for game, number := range numbers {
		if number == 0 || s.Boards[number-1].Place == game {
			continue
		}
		moved := *s.Boards[number-1]
		moved.Place = game
		s.Boards[number-1] = &moved // not visible, so not a revision
	}
}

// hidden counts the games for which there is no board.
func (s *Show) hidden(e PacketRead, numbers []int) int {
	shown := 0
	for _, b := range s.Boards {
		if b.Feed == e.Feed {
			shown++
		}
	}
	if len(s.Boards) < s.plan.MaxBoards {
		return 0
	}
	return max(0, len(numbers)-shown)
}

// unheardFor returns how long ago a feed was last heard.
func (s *Show) unheardFor(feed string, at time.Time) time.Duration {
	for _, f := range s.Feeds {
		if f.Name == feed && !f.LastGood.IsZero() {
			return at.Sub(f.LastGood)
		}
	}
	return unknownWithin
}

func (s *Show) boardsOf(feed string) []*Board {
	var out []*Board
	for _, b := range s.Boards {
		if b.Feed == feed {
			out = append(out, b)
		}
	}
	return out
}

// unread says in lines what could not be read in a feed's games.
func (s *Show) unread(feed string) []string {
	var lines []string
	for _, b := range s.boardsOf(feed) {
		if b.Fault != "" {
			lines = append(lines, fmt.Sprintf("board %d, %s", b.Number, b.Fault))
		}
		for _, fault := range b.Unread {
			lines = append(lines, fmt.Sprintf("board %d, %s", b.Number, fault))
		}
	}
	return lines[:min(len(lines), readingMax)]
}

// unreadOf lists in words what of a text could not be read.
func unreadOf(g *pgn.Game) []string {
	var out []string
	for _, fault := range g.Faults {
		if len(out) == unreadMost {
			break
		}
		out = append(out, fault.String())
	}
	return out
}

// unreadMost is how many faults of one game are told.
const unreadMost = 5
