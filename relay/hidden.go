package relay

import (
	"fmt"
	"slices"
	"time"

	"clocktell/relay/desk"
	"clocktell/relay/tell"
)

// hidden is what scenes are shown of a board while viewers are asked for its next move,
// and of what follows from it.
type hidden struct {
	challenge int // its ID
	board     *Board
	headRev   uint64
	heads     string // of all other boards, and what is of the whole show
	match     *Match
	show      *Show // as scenes are sent it
}

// hide works out what scenes must not be sent.
func (s *Show) hide() {
	c := s.Desk.Hiding()
	if c == nil {
		s.hidden = nil
		return
	}
	next := hidden{challenge: c.ID}
	if s.hidden != nil && s.hidden.challenge == c.ID {
		next = *s.hidden
	} else {
		next.board = s.Boards[c.Place.Board-1].upTo(c, s.At, s.defaults)
		next.match = s.Match
	}
	if heads := s.heads(c.Place.Board); heads != next.heads {
		next.heads, next.headRev = heads, s.HeadRev
	}
	next.show = s.without(&next)
	s.hidden = &next
}

// heads is all that the list of boards says but for one of them.
func (s *Show) heads(but int) string {
	out := fmt.Sprintf("%s %v %+v", s.Title, s.Quiet, s.Reference)
	for _, b := range s.Boards {
		if b.Number != but {
			out += fmt.Sprintf(" %+v %s", b.Players, b.Result)
		}
	}
	return out
}

func (s *Show) without(h *hidden) *Show {
	next := *s
	next.hidden = nil
	next.Boards = slices.Clone(s.Boards)
	next.Boards[h.board.Number-1] = h.board
	next.HeadRev, next.Match = h.headRev, h.match
	if caption := s.OnAir.Caption; caption != nil && caption.Board == h.board.Number {
		next.OnAir.Caption = nil
	}
	return &next
}

// ForScenes returns the show as scenes may be sent it, and the ID of the challenge that
// keeps something from them, 0 for none.
func (s *Show) ForScenes() (*Show, int) {
	if s.hidden == nil {
		return s, 0
	}
	return s.hidden.show, s.hidden.challenge
}

// upTo returns the board as it was at the question of a challenge, its clocks stopped.
// Nothing of what came later is in it, nor what the reference knows of the next move.
func (b *Board) upTo(c *desk.Challenge, at time.Time, defaults Defaults) *Board {
	next := *b
	ply := min(c.Place.Ply, len(b.Plies))
	next.Plies = b.Plies[:ply:ply]
	next.FEN, next.Result, next.EndedAt = next.position().String(), "*", time.Time{}
	next.HeldAt, next.Secret = at, true
	next.Alerts, next.Correction, next.Fault = nil, nil, ""
	next.Silent, next.Frozen = time.Time{}, time.Time{}
	next.Opening = defaults.opening(&next)
	next.Keep = 0
	next.Calls, next.Levels, next.Ahead = [2]tell.Call{}, [2]tell.Trouble{}, [2]Ahead{}
	return &next
}
