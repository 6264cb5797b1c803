package tell

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// generator draws games in which it is known when each side leaves its preparation.
// Games are of ownMoves own moves a side at 15 min + 10 s, the first of each untimed.
type generator struct {
	p      *params // times by this model, apart from what follows
	slope  float64 // of the hazard of leaving, per 10 plies
	stays  float64 // share of sides that never leave
	tempo  float64 // deviation of a side's tempo, log
	tail   float64 // shape of a Weibull distribution for thinking, 0: log-normal
	pauses float64 // share of prepared moves that are a pause to remember
	lost   float64 // share of readings lost
	late   float64 // share of readings that show the clock as it was
	reads  time.Duration
}

// The shares of replies are about those of the real games (TestReplyShares); the
// other numbers are ours.
const (
	ownMoves       = 30
	recaptures     = .10
	checks         = .02
	captures       = .13
	rescues        = .13
	legalSpread    = .45 // deviation of the number of legal moves, log
	pauseOf        = 12.0
	pauseSpread    = .4
	neverLeaves    = ownMoves + 2 // no own move
	matchedSlope   = 1.0
	sideTempo      = .35
	weibullShape   = .9
	recallPauses   = .08
	staysPrepared  = .15
	lostReadings   = .10
	lateReadings   = .05
	matchedReading = time.Second
)

func generatorA(p *params) generator {
	return generator{p: p, slope: matchedSlope, reads: matchedReading}
}

// generatorB is misspecified: tempo, tail and pauses that the model knows nothing of.
func generatorB(p *params) generator {
	g := generatorA(p)
	g.tempo, g.tail, g.pauses = sideTempo, weibullShape, recallPauses
	return g
}

// generatorC is B with a feed that loses readings and shows them late, in these
// steps, and with sides that never leave.
func generatorC(p *params, reads time.Duration) generator {
	g := generatorB(p)
	g.stays, g.lost, g.late, g.reads = staysPrepared, lostReadings, lateReadings, reads
	return g
}

// played is a drawn game: moves in order, and the own move with which each side's
// thinking began, neverLeaves if it did not.
type played struct {
	moves  []Move
	leaves [2]int
}

// hand is what a side's clock does and shows.
type hand struct {
	stays, thinking bool
	tempo           float64
	left, shown     time.Duration
	blind           bool // the reading before was lost
}

// draw draws one game.
func (g *generator) draw(rnd *rand.Rand, c clock.Control) played {
	truth := *g.p
	truth.tempoMost, truth.hazardSlope, truth.hazardMost = 0, g.slope, 1
	f := newFilter(c, &truth) // knows what the past pulls
	out := played{leaves: [2]int{neverLeaves, neverLeaves}}
	var hands [2]hand
	for i := range hands {
		hands[i] = hand{stays: rnd.Float64() < g.stays, tempo: g.tempo * rnd.NormFloat64(), left: c.Start(), shown: c.Start()}
	}
	for ply := 1; ply <= 2*(ownMoves+1); ply++ {
		side := clock.Side((ply + 1) % 2)
		h := &hands[side]
		m := Move{Ply: ply, Side: side, Left: h.shown}
		if ply > 2 {
			g.leave(rnd, &truth, h, ply)
			if h.thinking {
				out.leaves[side] = min(out.leaves[side], own(ply))
			}
			m = g.place(rnd, m)
			spent := g.spend(rnd, h, f.emission(m.sane(&truth)))
			exact := m
			exact.Spent, exact.Quality = spent, clock.QualityRead
			f = f.Next(exact)
			m = g.read(rnd, h, m, spent, c.Increment(own(ply)))
		} else {
			f = f.Next(m)
		}
		out.moves = append(out.moves, m)
	}
	return out
}

// leave draws whether a side is on its own with the move at ply; there is no way back.
func (g *generator) leave(rnd *rand.Rand, p *params, h *hand, ply int) {
	chance := p.hazard(ply, 0)
	if own(ply) == 2 {
		chance = 1 - p.startPrepared
	}
	h.thinking = h.thinking || rnd.Float64() < chance && !h.stays
}

// place draws what the board says of a move.
func (g *generator) place(rnd *rand.Rand, m Move) Move {
	switch x := rnd.Float64(); {
	case x < recaptures:
		m.Reply = Recapture
	case x < recaptures+checks:
		m.Reply = EvadesCheck
	case x < recaptures+checks+captures:
		m.Reply = AfterCapture
	}
	m.Legal = max(2, int(choiceUsual*math.Exp(legalSpread*rnd.NormFloat64())))
	m.Rescued = rnd.Float64() < rescues
	return m
}

// spend draws the time of a move.
func (g *generator) spend(rnd *rand.Rand, h *hand, e emission) time.Duration {
	of := e.prepared
	if h.thinking {
		of = e.thinking
	}
	log := of.mean + h.tempo + of.sd*rnd.NormFloat64()
	switch {
	case h.thinking && g.tail > 0: // Weibull with the same median
		log = of.mean + h.tempo + math.Log(rnd.ExpFloat64()/math.Ln2)/g.tail
	case !h.thinking && rnd.Float64() < g.pauses:
		log = math.Log(pauseOf) + pauseSpread*rnd.NormFloat64()
	}
	return inSeconds(math.Round(math.Exp(log)))
}

// read makes of a move what a feed tells of it. The clock of these games never
// runs out: what is left is kept above a tenth of an hour.
func (g *generator) read(rnd *rand.Rand, h *hand, m Move, spent, inc time.Duration) Move {
	h.left = max(h.left+inc-spent, 6*time.Minute)
	was, wasBlind := h.shown, h.blind
	h.blind = rnd.Float64() < g.lost
	late := rnd.Float64() < g.late
	if h.blind {
		return m
	}
	if !late {
		h.shown = h.left.Truncate(g.reads)
	}
	m.Left, m.Resolution = h.shown, g.reads
	if g.reads == time.Second && g.late == 0 && g.lost == 0 {
		m.Spent, m.Quality = spent, clock.QualityRead
		return m
	}
	if !wasBlind {
		m.Spent, m.Quality = was+inc-h.shown, clock.QualityRead
	}
	return m
}

// drawnGames draws games of one class for the fit.
func drawnGames(t testing.TB, p *params, n int) map[string][]realGame {
	t.Helper()
	c := control(t, ordinary900)
	rnd, g := rand.New(rand.NewPCG(5, 8)), generatorA(p)
	g.slope = p.hazardSlope
	var list []realGame
	for range n {
		game := realGame{class: ordinary900, control: c}
		for i, m := range g.draw(rnd, c).moves {
			m.Legal = max(m.Legal, 1)
			game.plies = append(game.plies, realPly{move: m, scored: i >= 2})
		}
		list = append(list, game)
	}
	return map[string][]realGame{ordinary900: list}
}
