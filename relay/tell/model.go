package tell

import (
	"math"
	"time"

	"clocktell/relay/clock"
)

// emission is how long a move would take from preparation and when thought out.
type emission struct{ prepared, thinking logNormal }

// evidence returns the log odds for thinking in a move of d, read in steps of
// resolution, before any cap.
func (e emission) evidence(d, resolution time.Duration) float64 {
	half := resolution.Seconds() / 2
	return e.thinking.logWithin(d.Seconds(), half) - e.prepared.logWithin(d.Seconds(), half)
}

// running returns the same for a move not yet made after e.
func (e emission) running(elapsed time.Duration) float64 {
	s := elapsed.Seconds()
	return e.thinking.logBeyond(s) - e.prepared.logBeyond(s)
}

// pace returns base/moves + increment, or delay, of the period of an own move, in
// seconds: the moves are the period's, or those a game is taken to last. The control is
// that of the mover.
func (p *params) pace(c clock.Control, move int) float64 {
	base, inc, moves := p.defaultBase, p.defaultIncrement, p.movesPerGame
	if c.Known() {
		base, moves = p.stage(c, move)
		inc = c.Period(move).Increment + free(c)
	}
	const least = .1 // keeps logarithms finite
	return max(least, base.Seconds()/moves+inc.Seconds())
}

// base returns the base time to scale by.
func (p *params) base(c clock.Control) time.Duration {
	if c.Known() {
		return c.Start()
	}
	return p.defaultBase
}

// class returns which covariate shifts hold.
func (p *params) class(c clock.Control) class {
	if p.base(c) > p.shortBase {
		return classLong
	}
	return classShort
}

// shift returns what the board says about how long a move takes to think out: what
// it replies to, between how many moves there was a choice, what stood in danger.
func (p *params) shift(c clock.Control, m Move) float64 {
	class := p.class(c)
	shift := p.replyShift[class][m.Reply]
	if m.Legal > 0 {
		shift += p.choiceShift[class] * math.Log(float64(min(m.Legal, choiceMost))/choiceUsual)
	}
	if m.Rescued {
		shift += p.rescueShift[class]
	}
	return shift
}

// emission returns the two distributions for a move that the board shifts by shift.
// Lag is the pull of the moves before on thinking, tempo the side's own on both, in
// log seconds.
func (p *params) emission(c clock.Control, move int, shift, lag, tempo float64) emission {
	pace, class := p.pace(c, move), p.class(c)
	median := p.preparedMedian * math.Pow(pace/p.preparedPace, p.preparedPower)
	median = min(max(median, p.preparedLeast), p.preparedMost)
	sd := p.thinkingSD
	if pace <= p.slowPace {
		sd = p.thinkingSDShort
	}
	return emission{
		prepared: logNormal{math.Log(median) + p.replyPrepare[class]*shift + tempo, p.preparedSD},
		thinking: logNormal{math.Log(p.thinkingShare*pace) + shift + lag + tempo, sd},
	}
}

// pull returns what the time of a move before pulls thinking by.
func (p *params) pull(weight float64, spent time.Duration, pace float64) float64 {
	return weight * (logSeconds(spent) - math.Log(p.lagPace*pace))
}

// logSeconds is the logarithm of a time of a second at the least, below which a
// clock cut to seconds says nothing.
func logSeconds(d time.Duration) float64 { return math.Log(max(1, d.Seconds())) }

// hazard returns the chance of leaving preparation with the own move at ply, with
// shift on its logit.
func (p *params) hazard(ply int, shift float64) float64 {
	return min(p.hazardMost, logistic(p.hazardAt+p.hazardSlope*(float64(ply)-p.hazardPly)/10+shift))
}

// predict carries the probability of thinking over to the own move at ply.
func (p *params) predict(thinking float64, ply int, shift float64) float64 {
	return certain(thinking*(1-p.returning) + (1-thinking)*p.hazard(ply, shift))
}

// update adds capped evidence to it.
func (p *params) update(thinking, evidence float64) float64 {
	return certain(logistic(logit(thinking) + clamp(evidence, p.evidenceMost)))
}

// reference returns the shift of the hazard when the mover has made so many own
// moves outside the reference, this one among them.
func (p *params) reference(known Knowledge, outside int) float64 {
	switch {
	case known == NoReference:
		return 0
	case known == InReference:
		return p.knownShift
	case outside >= p.outsideMoves:
		return p.outsideShift
	}
	return p.firstShift
}
