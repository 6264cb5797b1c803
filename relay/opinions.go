package relay

import (
	"slices"

	"clocktell/relay/bitboard"
)

// noteOpinions counts a revision of the opinions where any that pages are told of, or the
// position it is on, is another than in the show before.
func (s *Show) noteOpinions(was *Show) {
	if s.sameOpinions(was) {
		return
	}
	s.OpinionsRev++
}

func (s *Show) sameOpinions(was *Show) bool {
	if !s.Engine.same(was.Engine) || len(s.Boards) != len(was.Boards) || s.EngineHides() != was.EngineHides() {
		return false
	}
	for i, b := range s.Boards {
		if o := was.Boards[i]; b != o && !b.sameOpinion(o) {
			return false
		}
	}
	if s.OpinionAtDesk() != was.OpinionAtDesk() || s.SecondAtDesk() != was.SecondAtDesk() {
		return false
	}
	is, _, _ := s.atDesk()
	before, _, _ := was.atDesk()
	return s.Desk == was.Desk || is == before
}

// sameOpinion reports whether the newest position is the same, and what is thought of it.
func (b *Board) sameOpinion(o *Board) bool {
	n := len(b.Plies)
	return b.Game == o.Game && n == len(o.Plies) && b.OpinionAt(n) == o.OpinionAt(n) && b.FEN == o.FEN && b.Over() == o.Over()
}

// Hidden says of which board an engine's opinion is kept from everyone but one person.
type Hidden struct {
	Board int    // 0: of none
	By    string // who asked the viewers, and knows it all the same; "" nobody does
}

// EngineHides returns of which board, while viewers are asked for its next move, what the
// engine says is kept back, and from whom it is not.
func (s *Show) EngineHides() Hidden {
	c := s.Desk.Hiding()
	if c == nil {
		return Hidden{}
	}
	return Hidden{c.Place.Board, c.By}
}

// Knows reports whether who sits at a desk is told what the engine says of every board.
func (h Hidden) Knows(atDesk bool, who string) bool {
	return h.Board == 0 || atDesk && h.By != "" && who == h.By
}

// keeps reports whether a sentence is among what is kept back.
func (h Hidden) keeps(item *BoardPrompt) bool {
	return h.Board != 0 && item.Board == h.Board && ofEngine(item.Kind)
}

// PlaceAtDesk returns the position that the desk looks at; false where there is none.
func (s *Show) PlaceAtDesk() (bitboard.Position, bool) {
	_, p, ok := s.atDesk()
	return p, ok
}

// WithoutEngine returns the show as those are told of it who must not know what the
// engine says of a board: no sentence and no suggestion is the engine's.
func (s *Show) WithoutEngine(board int) *Show {
	next := *s
	next.Said.Items = nil
	for i := range s.Said.Items {
		if item := &s.Said.Items[i]; !(Hidden{Board: board}).keeps(item) {
			next.Said.Items = append(next.Said.Items, *item)
		}
	}
	state := *s.Desk
	state.Hot = nil
	for _, hot := range s.Desk.Hot {
		if hot.Board != board || !s.Boards[board-1].engineSays(AlertKind(hot.Kind)) {
			state.Hot = append(state.Hot, hot)
		}
	}
	next.Desk, next.kept = &state, board
	if c := s.OnAir.Caption; c != nil && c.Board == board && ofEngine(c.Kind) {
		next.OnAir.Caption = nil
	}
	return &next
}

// engineSays reports whether an alert that is raised is the engine's.
func (b *Board) engineSays(kind AlertKind) bool {
	return slices.ContainsFunc(b.Alerts, func(a Alert) bool { return a.Kind == kind && a.OfEngine() })
}

// OfEngine reports whether an engine says so. Then it is for working surfaces only: no
// scene is sent it, nor is anybody else while it is kept back.
func (a Alert) OfEngine() bool { return ofEngine(a.Say.Kind) }

// EngineKept returns the board of which this show, made by WithoutEngine, keeps back what
// the engine says; 0: of none.
func (s *Show) EngineKept() int { return s.kept }
