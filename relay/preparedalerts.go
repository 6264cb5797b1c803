package relay

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/tell"
)

const (
	// newsworthyMoves is how many own moves from preparation are worth saying.
	newsworthyMoves = 8
	// besideAThink is how many are when the opponent is in a long think. Judgement.
	besideAThink = 5
	// slowMost and slowShare, of what the side started with, bound the time on a move that
	// listeners would take for more than a move from preparation: the less counts. Judgement,
	// by what readers of whole games found worth saying.
	slowMost, slowShare = 18 * time.Second, .03
	// gainedShows is how far above its start a clock stands that shows preparation to anybody.
	// Judgement, by the same readers.
	gainedShows = 15 * time.Second
)

// preparedCondition is of level 1 while it is no more than true, and of level 2
// when it is worth saying: it has lasted and the clock shows it.
func (b *Board) preparedCondition(filter tell.Filter, side clock.Side, t time.Time) Alert {
	call := b.Calls[side]
	var opponent string
	if b.alone(filter, side.Other()) {
		opponent = b.Called(side.Other())
	}
	level, say := 2, prompt.InPreparation(b.in, b.Called(side), opponent, call.Timed, b.gained(side))
	if !b.preparedIsNews(filter, side) {
		level, say.Priority = 1, prompt.Silent
	}
	alert := b.alert(AlertInPreparation, side, level, t, say)
	alert.ID = fmt.Sprintf("%s-%d", alert.ID, level)
	return alert
}

// alone reports whether a side is on its own, as anybody could see on its last move.
func (b *Board) alone(filter tell.Filter, side clock.Side) bool {
	verdict, _ := filter.Standing(side) // by moves made, not by a clock that still runs
	return verdict == tell.Thinking && !b.justLeft(side) && !b.hosts(side) && b.thought(side)
}

// preparedIsNews reports whether it is worth a word that a side plays from preparation.
// One sentence does for both: the one that stands, else White's.
func (b *Board) preparedIsNews(filter tell.Filter, side clock.Side) bool {
	alone, least := b.alone(filter, side.Other()), newsworthyMoves
	if alone && b.Calls[side.Other()].LastLong {
		least = besideAThink
	}
	_, stands := b.saying(AlertInPreparation, side)
	_, other := b.saying(AlertInPreparation, side.Other())
	switch {
	case alone && !stands && b.Turn() == side:
		return false // it is not the other who thinks just now, and this think may end it
	case !stands && (other || side == clock.Black && b.Calls[clock.White].Verdict == tell.InPreparation && b.preparedIsNews(filter, clock.White)):
		return false
	}
	return b.Calls[side].Timed >= least && !b.justLeft(side.Other()) && !b.hosts(side) &&
		b.slowest(side) < b.slow(side) && !b.risen(side, 0, len(b.Plies)) && b.gained(side) >= gainedShows
}

// thought reports whether anybody saw a side think, on its last move.
func (b *Board) thought(side clock.Side) bool {
	i := b.indexOf(side, b.OwnMoves(side))
	return i >= 0 && b.Plies[i].Timed.Spent >= b.slow(side)
}

// gained returns by how much a side's clock stands above its start; negative below.
func (b *Board) gained(side clock.Side) time.Duration {
	start := b.Control.For(side).Start()
	if last := b.Last(side); start > 0 && last.LeftQuality != clock.QualityNone && len(b.Control.Periods) == 1 {
		return last.Left - start // what anybody sees
	}
	return b.Calls[side].Gained
}

// slow returns the time on a move that nobody would take for preparation.
func (b *Board) slow(side clock.Side) time.Duration {
	if start := b.Control.For(side).Start(); start > 0 {
		return min(slowMost, scaled(start, slowShare))
	}
	return slowMost
}

// slowest returns the longest time that a side has taken on a move.
func (b *Board) slowest(side clock.Side) time.Duration {
	longest := time.Duration(0)
	for i := range b.Plies {
		if b.moverOf(i) == side {
			longest = max(longest, b.Plies[i].Timed.Spent)
		}
	}
	return longest
}

// leavingShows reports whether the clock shows anybody that with the ply at index i a
// side has left preparation: by the longest think so far, or by two moves that together
// cost it time, one of which was no move from preparation.
func (b *Board) leavingShows(i int, longest bool) bool {
	side, spent := b.moverOf(i), b.Plies[i].Timed.Spent
	switch {
	case b.hosts(side):
		return false
	case longest || i < 2:
		return spent >= b.slow(side)
	}
	control, before := b.Control.For(side), b.Plies[i-2].Timed.Spent
	given := control.Increment(ownMove(i)) + control.Increment(ownMove(i-2))
	return spent+before > given && max(spent, before) >= b.slow(side) && b.Plies[i].Timed.Left < control.Start()
}

// justLeft reports whether it is still being said of a side that it left preparation:
// to say then how its opponent stands would be the same news in other words.
func (b *Board) justLeft(side clock.Side) bool {
	since := b.Calls[side].Since
	return since > len(b.Plies)-leftPreparationPlies && since > 0 && b.Plies[since-1].leaves
}
