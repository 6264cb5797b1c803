package tellline

import (
	"cmp"
	"fmt"
	"strings"
	"time"
)

// Looks of a move, qualities of a time and marks of a reading, as the protocol has them.
const (
	LookPreparation = "preparation"
	LookThinking    = "thinking"
	LookUnsure      = "unsure"
	LookTrouble     = "trouble"
	LookNone        = "none"

	QualityEstimated = "estimated"
	QualityNone      = "none"

	MarkMended   = "mended"
	MarkDoubtful = "doubtful"
	MarkUnread   = "unread"
)

// Game is what of a game is drawn.
type Game struct {
	Plies   []Ply
	Step    time.Duration // in which the feed writes its clocks
	Novelty int           // number of the new move; 0: none is known
	New     string        // the word on its flag; "" new
	Top     Side          // whose lane is the upper one
	Head    Head
}

// Side is a side.
type Side uint8

// The sides.
const (
	White Side = iota
	Black
)

// Ply is one move with its time.
type Ply struct {
	Number  int // in half-moves from White's first
	SAN     string
	Spent   time.Duration // in whole milliseconds
	Quality string
	Look    string
	Mark    string
}

func (p *Ply) side() Side { return Side((p.Number + 1) % 2) }

func (p *Ply) ms() float64 { return float64(p.Spent.Milliseconds()) }

// Head is the present, behind the last move. The zero value: the game is over.
type Head struct {
	Runs bool          // Side's clock
	Side Side          // on move
	Look string        // of the running move
	Run  time.Duration // so far on this move
	Dots time.Duration // behind that, of which nobody knows whose it was
	Held bool          // nobody knows whose clock runs
}

func (h *Head) ms() float64 { return float64(h.Run.Milliseconds() + h.Dots.Milliseconds()) }

// lane returns the lane of a side, 0 the upper one.
func (g *Game) lane(side Side) int {
	if side == g.Top {
		return 0
	}
	return 1
}

// joint is how a move is written at its joint.
func (p *Ply) joint() string {
	dots := ""
	if p.side() == Black {
		dots = "…"
	}
	return fmt.Sprintf("%d%s %s", (p.Number+1)/2, dots, p.SAN)
}

// lasted is how long a think was, in seconds only where they are known.
func (g *Game) lasted(p *Ply) string {
	if p.Quality != QualityEstimated && g.Step < time.Minute {
		return seconds(p.Spent)
	}
	minutes := int64((max(0, p.Spent) + time.Minute/2) / time.Minute)
	switch hours := minutes / 60; {
	case minutes == 0:
		return "<1\u00a0min"
	case hours > 0:
		return fmt.Sprintf("%d\u00a0h\u00a0%d\u00a0min", hours, minutes%60)
	}
	return fmt.Sprintf("%d\u00a0min", minutes)
}

// seconds is a time as people read it off a clock.
func seconds(d time.Duration) string {
	s := int64(max(0, d) / time.Second)
	if s >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

func (g *Game) flagWord() string { return cmp.Or(strings.TrimSpace(g.New), "new") }
