package relay

import (
	"fmt"
	"slices"
	"time"

	"clocktell/relay/tell"
)

// Known is what the reference, a collection of finished games, knows of a position.
// A game counts once for a position, however often it reached it.
type Known struct {
	Games               int // that reached it, of those counted
	White, Draws, Black int // how those ended
	All                 int // with those that are not counted
	Moves               []KnownMove
	Last                KnownGame // the latest of those counted; zero if none
}

// KnownMove is a move that reference games went on with.
type KnownMove struct {
	SAN                 string
	Games               int
	White, Draws, Black int
	BestRating          int // of those who played it, 0 unknown
	MeanRating          int
	LastYear            int       // 0 unknown
	Example             KnownGame // the one of the highest ratings
}

// Points returns the share of the points that the side playing the move took, 0 to 1,
// and false if no game with it has a known result.
func (m KnownMove) Points(white bool) (float64, bool) {
	ended := m.White + m.Draws + m.Black
	if ended == 0 {
		return 0, false
	}
	won := m.Black
	if white {
		won = m.White
	}
	return (float64(won) + float64(m.Draws)/2) / float64(ended), true
}

// KnownGame is one game of the reference.
type KnownGame struct {
	White, Black             string
	WhiteRating, BlackRating int // 0 unknown
	Event                    string
	Year                     int    // 0 unknown
	Result                   string // "1-0", "0-1", "1/2-1/2" or "*"
	Went                     string // the move it went on with, in SAN; "" if it ended there
}

// Reference says which reference is attached to the show.
type Reference struct {
	Games   int    // in it; 0 and no Fault: none is attached
	Depth   int    // plies of a game it holds
	Counted string // which of them count, in words: "both players 2400 or more"; "" all
	Fault   string // why the one that was named cannot be used
}

// Name tells one reference, and one choice of its games, from others.
func (r Reference) Name() string {
	return fmt.Sprintf("%d games to ply %d; %s", r.Games, r.Depth, r.Counted)
}

// Attached reports that positions are looked up.
func (r Reference) Attached() bool { return r.Games > 0 && r.Fault == "" }

// ReferenceAttached says which reference there is. It is not journalled.
type ReferenceAttached struct {
	At        time.Time
	Reference Reference
}

// When returns the time of attaching.
func (e ReferenceAttached) When() time.Time { return e.At }

// ReferenceAnswered brings what the reference knows of positions of one board.
type ReferenceAnswered struct {
	At      time.Time
	From    string // Reference.Name of the one that answers
	Board   int
	Game    int // Board.Game when it was asked
	Answers []KnownPosition
	Habits  []KnownHabit
}

// KnownPosition is the answer for one position.
type KnownPosition struct {
	Ply   int    // after which it stands, 0: the start
	Place uint64 // hash of the position asked for
	Known Known
}

// When returns the time of the answer.
func (e ReferenceAnswered) When() time.Time { return e.At }

// Asked is a position whose answer a board still lacks.
type Asked struct {
	Ply   int // after which it stands, 0: the start
	Place uint64
}

// Unanswered lists the positions of a board that the reference has not been asked
// about, as far as its games are followed: that many plies from the first move of a game,
// wherever the board begins. What stands further on it may have seen and not know.
func (b *Board) Unanswered(depth int) []Asked {
	var out []Asked
	for n := 0; n <= min(depth-(b.start.halfMove-1), len(b.Plies)); n++ {
		if b.KnownAt(n) == nil {
			out = append(out, Asked{n, b.Place(n).Hash()})
		}
	}
	return out
}

// KnownAt returns what the reference knows of the position after n plies; nil: it has
// not answered.
func (b *Board) KnownAt(n int) *Known {
	if n == 0 {
		return b.startKnown
	}
	return b.Plies[n-1].Known
}

// answered returns the board with what the reference says of it, and the board itself
// where that is no news. Answers for what no longer stands are dropped.
func (b *Board) answered(e ReferenceAnswered) *Board {
	if e.Game != b.Game {
		return b
	}
	next := *b
	next.Plies = slices.Clone(b.Plies)
	from := next.forgetOther(e.From)
	news := next.withHabits(e.Habits)
	for _, a := range e.Answers {
		if a.Ply < 0 || a.Ply > len(b.Plies) || b.Place(a.Ply).Hash() != a.Place || next.KnownAt(a.Ply) != nil {
			continue
		}
		known := a.Known
		if a.Ply == 0 {
			next.startKnown = &known
		} else {
			next.Plies[a.Ply-1].Known = &known
		}
		from = min(from, a.Ply)
	}
	if from > len(b.Plies) && !news {
		return b
	}
	next.Keep = min(len(b.Plies), max(0, from-1))
	next.retime(next.Keep)
	return b.succeeded(&next, e.At, false)
}

// forgetOther drops what another reference has answered. It returns the first ply after
// which something is forgotten, one behind the last if nothing is.
func (next *Board) forgetOther(from string) int {
	first := len(next.Plies) + 1
	if next.knownFrom == from {
		return first
	}
	for n := len(next.Plies); n > 0; n-- {
		if next.Plies[n-1].Known != nil {
			next.Plies[n-1].Known, first = nil, n
		}
	}
	if next.startKnown != nil {
		next.startKnown, first = nil, 0
	}
	next.Habits = [2]*Habit{}
	next.knownFrom = from
	return first
}

// asksAnew returns the board as another reference is attached: what the one before has
// answered no longer counts.
func (b *Board) asksAnew(r Reference, at time.Time) *Board {
	if !r.Attached() || b.knownFrom == "" || b.knownFrom == r.Name() {
		return b
	}
	next := *b
	next.Plies = slices.Clone(b.Plies)
	next.Keep = min(len(b.Plies), max(0, next.forgetOther(r.Name())-1))
	next.retime(next.Keep)
	return b.succeeded(&next, at, false)
}

// knowledge returns what the reference says of the ply at index i for the tell.
func (b *Board) knowledge(i int) tell.Knowledge {
	known, before := b.Plies[i].Known, b.KnownAt(i)
	switch {
	case known == nil:
		return tell.NoReference
	case known.Games > 0:
		return tell.InReference
	case b.Novelty() >= 0 && b.Novelty() < i:
		return tell.Outside
	case before == nil || before.Games == 0:
		return tell.NoReference // nobody knows where the game left it
	}
	return tell.FirstOutside
}

// Novelty returns the index of the ply with which the game left the reference: the
// first that leads from a position some game reached to one that none did, by whatever
// order of moves. It is -1 while there is none.
func (b *Board) Novelty() int {
	for i := range b.Plies {
		known, before := b.Plies[i].Known, b.KnownAt(i)
		if known != nil && known.Games == 0 && before != nil && before.Games > 0 {
			return i
		}
	}
	return -1
}
