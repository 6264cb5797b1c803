package relay

import (
	"slices"
	"time"

	"clocktell/relay/opinion"
)

// Engine says which engine gives second opinions.
type Engine struct {
	Name  string // by the name it gives itself; "" none is set, which is a normal state
	Fault string // why the one that was set gives no opinion now, and what to do; "" nothing
}

// EngineChanged says which engine there is and how it is. It is not journalled.
type EngineChanged struct {
	At     time.Time
	Engine Engine
}

// When returns the time of the change.
func (e EngineChanged) When() time.Time { return e.At }

// EngineAnswered brings second opinions on positions of one board.
type EngineAnswered struct {
	At      time.Time
	Board   int
	Game    int // Board.Game when it was asked
	Answers []Judged
}

// Judged is the opinion on one position.
type Judged struct {
	Ply     int    // after which it stands, 0: the start
	Place   uint64 // hash of the position asked for
	Opinion opinion.Opinion
}

// When returns the time of the answer.
func (e EngineAnswered) When() time.Time { return e.At }

// OpinionAt returns what the engine thinks of the position after n plies; nil: it has
// not said.
func (b *Board) OpinionAt(n int) *opinion.Opinion {
	if n == 0 {
		return b.startOpinion
	}
	return b.Plies[n-1].Opinion
}

// judged returns the board with what the engine says of it, and the board itself where
// that is no news: an opinion gives way to one of the same depth or deeper.
func (b *Board) judged(e EngineAnswered) *Board {
	if e.Game != b.Game {
		return b
	}
	next := *b
	next.Plies = slices.Clone(b.Plies)
	news := false
	for _, a := range e.Answers {
		if a.Ply < 0 || a.Ply > len(b.Plies) || b.Place(a.Ply).Hash() != a.Place {
			continue
		}
		if old := next.OpinionAt(a.Ply); old != nil && old.Depth > a.Opinion.Depth {
			continue
		}
		said := a.Opinion
		if a.Ply == 0 {
			next.startOpinion = &said
		} else {
			next.Plies[a.Ply-1].Opinion = &said
		}
		news = true
	}
	if !news {
		return b
	}
	next.Keep = len(b.Plies)
	return b.succeeded(&next, e.At, false)
}
