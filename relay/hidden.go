package relay

import (
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
	match     *Match
	told      toldOfAll
	headRev   uint64 // of what is told
	show      *Show  // as scenes are sent it
}

// toldOfAll is what is told of all boards together during a challenge, but for the match: it
// stays as it stood, for its score would tell how the game went on.
type toldOfAll struct {
	boards    int
	title     string
	quiet     bool
	reference Reference
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
	if told := s.toldOfAll(); told != next.told {
		next.told, next.headRev = told, s.HeadRev
	}
	next.show = s.without(&next)
	s.hidden = &next
}

func (s *Show) toldOfAll() toldOfAll { return toldOfAll{len(s.Boards), s.Title, s.Quiet, s.Reference} }

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
