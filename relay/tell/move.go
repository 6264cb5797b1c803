package tell

import (
	"time"

	"clocktell/relay/clock"
)

// Reply is what kind of answer a move is to the opponent's last.
type Reply uint8

// The replies, each move the first that fits.
const (
	Quiet        Reply = iota // none of the others
	Recapture                 // takes back on the square just captured on
	EvadesCheck               // the mover was in check
	AfterCapture              // the opponent had just captured, and this does not take back
	replies
)

// Knowledge is what the reference games know of a move.
type Knowledge uint8

// The states of knowledge.
const (
	NoReference  Knowledge = iota // no reference is attached
	InReference                   // the position after the move is in the reference
	FirstOutside                  // the first of the game that is not, by either side
	Outside                       // a later one that is not
)

// Move is one move as the tell sees it.
type Move struct {
	Ply        int        // from 1
	Side       clock.Side // the mover
	Spent      time.Duration
	Quality    clock.Quality // of Spent; QualityNone: no usable time
	Resolution time.Duration // smallest step of the readings; 0: a second
	Left       time.Duration // on the mover's clock after the move, 0 if unknown
	Reply      Reply
	Legal      int  // legal moves the mover had, 0 if unknown
	Rescued    bool // the man moved, not the king, stood attacked by a lesser one or attacked and undefended; false if unknown
	Known      Knowledge
}

// own returns the mover's own move number.
func own(ply int) int { return (ply + 1) / 2 }

// sane returns m with every field inside what the model can take.
func (m Move) sane(p *params) Move {
	const plies, longest = 12000, 1000 * time.Hour // above any game
	m.Ply = min(max(m.Ply, 1), plies)
	m.Side &= 1
	if m.Spent < 0 || m.Spent > longest {
		m.Quality = clock.QualityNone
	}
	if m.Resolution <= 0 {
		m.Resolution = p.resolution
		if m.Quality == clock.QualityEstimated {
			m.Resolution = p.estimatedResolution
		}
	}
	m.Resolution = min(m.Resolution, time.Hour)
	m.Left = min(max(m.Left, 0), longest)
	m.Legal = max(m.Legal, 0)
	if m.Reply >= replies {
		m.Reply = Quiet
	}
	if m.Known > Outside {
		m.Known = NoReference
	}
	return m
}
