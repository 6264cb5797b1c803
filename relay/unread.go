package relay

import (
	"cmp"
	"fmt"

	"clocktell/relay/pgn"
)

// What of a feed's text could not be taken as it stands, besides the reasons of
// package pgn.
const (
	FaultUnplayable = "unplayable" // a move that is not legal
	FaultClock      = "clock"      // a reading that is none, or that no clock can show
	FaultLeftOut    = "left_out"   // a game that is on no board, see LeftOut
)

// FaultReasons lists every reason that Unread can count.
var FaultReasons = append([]string{FaultUnplayable, FaultClock, FaultLeftOut}, pgn.FaultReasons...)

// How much is told of one game.
const (
	unreadMost = 5 // faults of its text
	doubtsMost = 3 // odd readings, the newest
)

// unread says in lines what could not be read in a feed's games.
func (s *Show) unread(f *Feed) []string {
	var lines []string
	feed := f.Name
	if f.More {
		lines = append(lines, fmt.Sprintf("more games than are read from one packet: only the first %d are", gamesMost))
	}
	for _, out := range []struct {
		n   int
		why string
	}{
		{f.LeftOut.Unmatched, "feed " + s.line(feed) + " does not have them"}, {f.LeftOut.Untagged, "moves without tags before them"},
		{f.LeftOut.Twice, "listed twice"},
	} {
		if out.n > 0 {
			lines = append(lines, fmt.Sprintf("on no board: %d (%s)", out.n, out.why))
		}
	}
	for _, b := range s.Boards {
		o := b.offer(feed)
		if o == nil || o.Game == nil || !o.Gone.IsZero() || len(lines) >= readingMax {
			continue
		}
		for _, line := range append(o.unread(), b.oddReadings(feed)...) {
			lines = append(lines, fmt.Sprintf("board %d, %s", b.Number, line))
		}
	}
	return lines[:min(len(lines), readingMax)]
}

func (o *Offer) unread() []string {
	var out []string
	if o.Broken != "" {
		out = append(out, o.Broken)
	}
	for _, fault := range o.faults[:min(len(o.faults), unreadMost)] {
		out = append(out, fault.String())
	}
	return out
}

// oddReadings tells of the newest clocks that cannot be right, if the board follows
// that feed.
func (b *Board) oddReadings(feed string) []string {
	if b.Feed != feed {
		return nil
	}
	var out []string
	for _, i := range b.odd {
		out = append(out, b.moveText(i)+": "+b.Plies[i].odd())
	}
	return out
}

// findOdd notes which plies oddReadings tells of: every packet asks for them, of all boards.
func (next *Board) findOdd() {
	next.odd = nil
	for i := len(next.Plies) - 1; i >= 0 && len(next.odd) < doubtsMost; i-- {
		if next.Plies[i].odd() != "" {
			next.odd = append(next.odd, i)
		}
	}
}

// odd says what is wrong with the reading of a ply, or "".
func (p *Ply) odd() string {
	if p.Misread != "" {
		return p.Misread
	}
	return cmp.Or(p.Timed.Doubt, p.Mended)
}

// Unread counts by reason what of a feed's games, as they stand now, could not be
// taken as it is.
func (s *Show) Unread(feed string) map[string]int {
	counts, f := make(map[string]int), s.feed(feed)
	if n := f.LeftOut.Unmatched + f.LeftOut.Untagged + f.LeftOut.Twice; n > 0 {
		counts[FaultLeftOut] = n
	}
	if f.More {
		counts[pgn.FaultLimitGames]++
	}
	for _, b := range s.Boards {
		o := b.offer(feed)
		if o == nil || o.Game == nil || !o.Gone.IsZero() {
			continue
		}
		if o.Broken != "" {
			counts[FaultUnplayable]++
		}
		for _, fault := range o.faults {
			counts[fault.Reason]++
		}
		for i := range b.Plies {
			if b.Feed == feed && b.Plies[i].odd() != "" {
				counts[FaultClock]++
			}
		}
	}
	return counts
}

// Questions counts the boards about which the producer is asked.
func (s *Show) Questions() int {
	n := 0
	for _, b := range s.Boards {
		if b.Question != nil {
			n++
		}
	}
	return n
}
