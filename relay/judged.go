package relay

import (
	"slices"
	"time"

	"clocktell/relay/opinion"
)

// Engine says which engine gives second opinions.
type Engine struct {
	Name     string    // by the name it gives itself, its command before it has; "" none is set, which is a normal state
	Fault    string    // why the one that was set gives no opinion now, and what to do; "" nothing
	Since    time.Time // it has been ready since then; zero: it is not
	Restarts int       // since the start
	Last     string    // the kind of its last fault, in a word; "" it has had none
	Waiting  int       // positions that wait for it
	Board    int       // whose position it searches; 0: none
}

// same reports whether two engines are the same to who reads their opinions.
func (e Engine) same(o Engine) bool { return e.Name == o.Name && e.Fault == o.Fault }

// EngineChanged says which engine there is and how it is. It is not journalled.
type EngineChanged struct {
	At     time.Time
	Second bool // it is the one that the first is compared with
	Engine Engine
}

// When returns the time of the change.
func (e EngineChanged) When() time.Time { return e.At }

// EngineAnswered brings second opinions on positions of one board.
type EngineAnswered struct {
	At      time.Time
	Board   int
	Game    int  // Board.Game when it was asked
	Second  bool // they are those of the engine that the first is compared with
	Answers []Judged
}

// Judged is the opinion on one position.
type Judged struct {
	Ply     int    // after which it stands, 0: the start; OffGame: on a side line
	Place   uint64 // hash of the position asked for
	Opinion opinion.Opinion
}

// When returns the time of the answer.
func (e EngineAnswered) When() time.Time { return e.At }

// OpinionAt returns what the engine thinks of the position after n plies; nil: it has
// not said.
func (b *Board) OpinionAt(n int) *opinion.Opinion { return b.opinionAt(n, false) }

// SecondOpinionAt is OpinionAt for the engine that the first is compared with.
func (b *Board) SecondOpinionAt(n int) *opinion.Opinion { return b.opinionAt(n, true) }

// EnginesDiffer reports whether the two engines are not of one mind about the position
// after n plies, see opinion.Differ.
func (b *Board) EnginesDiffer(n int) bool {
	return opinion.Differ(b.OpinionAt(n), b.SecondOpinionAt(n))
}

func (b *Board) opinionAt(n int, second bool) *opinion.Opinion { return *b.opinionOf(n, second) }

// opinionOf returns where the board has the opinion.
func (b *Board) opinionOf(n int, second bool) **opinion.Opinion {
	switch {
	case n == 0 && second:
		return &b.startSecond
	case n == 0:
		return &b.startOpinion
	case second:
		return &b.Plies[n-1].Second
	}
	return &b.Plies[n-1].Opinion
}

// judged returns the board with what an engine says of it, and the board itself where
// that is no news: an opinion gives way to one of the same depth or deeper, or to the
// outcome of a search that was given more time.
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
		at, said := next.opinionOf(a.Ply, e.Second), a.Opinion
		if !said.Supersedes(*at) {
			continue
		}
		*at, news = &said, true
	}
	if !news {
		return b
	}
	next.Keep = len(b.Plies)
	was := next
	said := b.succeeded(&next, e.At, false)
	if b.looksLike(said) { // nothing of it is on a board's page: that is told no news
		was.Keep = b.Keep
		return &was
	}
	return said
}
