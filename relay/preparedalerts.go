package relay

import (
	"fmt"
	"time"

	"clocktell/relay/bitboard"
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
	other := side.Other()
	if opponent == "" && b.gained(other) > 0 && b.Calls[other].Verdict == tell.InPreparation {
		say = prompt.BothPrepared(b.in, call.Timed, min(b.gained(side), b.gained(other)))
		if side == clock.Black {
			say.Priority = prompt.Silent // it is told with White
		}
	}
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
	case b.start.text != "" || b.behindBy(side) >= preparedLoss:
		return false // nobody prepares a position that was set up, or to lose a piece
	case !alone && b.gained(side.Other()) > 0 && b.Calls[side.Other()].Verdict != tell.InPreparation:
		return false // the other clock stands as well
	case alone && !stands && b.Turn() == side:
		return false // it is not the other who thinks just now, and this think may end it
	case !stands && (other || side == clock.Black && b.Calls[clock.White].Verdict == tell.InPreparation && b.preparedIsNews(filter, clock.White)):
		return false
	}
	return b.Calls[side].Timed >= least && !b.justLeft(side.Other()) && !b.hosts(side) &&
		b.slowest(side) < b.slow(side) && !b.risen(side, 0, len(b.Plies)) && b.gained(side) >= gainedShows
}

// preparedLoss is by how much a side may be behind, in centipawns, and still play what it prepared: less
// is a gambit. Judgement.
const preparedLoss = 2 * bitboard.PawnValue

// behindBy returns by how much a side is behind in material, in centipawns; negative if it is ahead.
func (b *Board) behindBy(side clock.Side) int {
	p, n := b.Place(len(b.Plies)), 0
	for t := bitboard.Pawn; t <= bitboard.Queen; t++ {
		more := p.Pieces(bitboard.Colour(side.Other()), t).Count() - p.Pieces(bitboard.Colour(side), t).Count()
		n += more * bitboard.Value(t)
	}
	return n
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
// side has left preparation: in the opening, by a think beside which all of its moves before
// were quick.
func (b *Board) leavingShows(i int, longest bool) bool {
	side, spent := b.moverOf(i), b.Plies[i].Timed.Spent
	if !longest || b.start.text != "" || b.hosts(side) || ownMove(i) > leavesMost {
		return false
	}
	before := time.Duration(0)
	for j := i - 2; j >= 0; j -= 2 {
		if slow := b.Plies[j].Timed.Spent; j < i-2 || slow < b.slow(side) {
			before = max(before, slow) // the tell may have waited for a second think
		}
	}
	if b.Control.For(side).Start() >= longGameFrom && spent < leaveLeast {
		return false
	}
	return spent >= b.slow(side) && before <= scaled(spent, breakShare)
}

// leavesMost is the last own move with which a side is said to leave preparation, breakShare the part of
// that think that every move before may have taken at most. Judgement, by the same readers.
const (
	leavesMost = 15
	breakShare = .5
	leaveLeast = 25 * time.Second // in games that begin with longGameFrom or more
)

// justLeft reports whether it is still being said of a side that it left preparation:
// to say then how its opponent stands would be the same news in other words.
func (b *Board) justLeft(side clock.Side) bool {
	since := b.Calls[side].Since
	return since > len(b.Plies)-leftPreparationPlies && since > 0 && b.Plies[since-1].leaves
}
