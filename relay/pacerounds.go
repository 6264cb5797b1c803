package relay

import (
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

// What is told after a round number of moves of both sides. Judgement.
const (
	fiveMoves, fiveMore = 5, 2.5
	averageMore         = 1.3
	averageAgain        = 1.5 // times the ratio told before, or less than one by as much
	averageFrom         = 15  // own moves, and every ten from there on
	levelWithin         = 5 * time.Second
	unspentPart         = .8
)

// roundPaces are made worth a word by the number of moves, and told of those up to the moment.
func (b *Board) roundPaces(i int, t time.Time, add addPace) {
	own, side := ownMove(i), b.moverOf(i)
	if n := b.minutes(i); n > 0 && n%minuteMoves == 0 && i >= len(b.Plies)-2 {
		add("minute", side, false, func() (prompt.Prompt, bool) { return prompt.MinuteMoves(b.in, b.Called(side), n), true })
	}
	if i%2 == 0 || own%5 != 0 || own < 10 {
		return
	}
	if own%10 == 0 {
		add("five", side, true, b.fiveLately)
		add("level", side, true, func() (prompt.Prompt, bool) { return b.levelNow(t) })
	}
	if own == 10 {
		add("above", side, false, func() (prompt.Prompt, bool) { return b.aboveStart(t) })
	}
	if own%20 == 0 {
		add("unspent", side, true, func() (prompt.Prompt, bool) { return b.unspent(t) })
	}
	if own%10 == averageFrom%10 {
		add("average", side, true, b.averageNow)
	}
	b.sumPaces(i, i-1, add)
	b.sumPaces(i, i, add)
}

// rounds returns how many moves both sides have made.
func (b *Board) rounds() int { return min(b.OwnMoves(clock.White), b.OwnMoves(clock.Black)) }

// fiveLately compares what the last five moves took each side: of a slow one, not of two that both play fast.
func (b *Board) fiveLately() (prompt.Prompt, bool) {
	slow, quick := clock.White, clock.Black
	long, short := b.tookLately(b.lastOf(slow)), b.tookLately(b.lastOf(quick))
	if short > long {
		slow, quick, long, short = quick, slow, short, long
	}
	even := b.evenPlies(b.lastOf(slow), fiveMoves) && b.evenPlies(b.lastOf(quick), fiveMoves)
	if !even || short < time.Second || long < fiveMoves*sumsLeast || long < scaled(short, fiveMore) || b.troubled() {
		return prompt.Prompt{}, false
	}
	return prompt.FiveMoves(b.in, b.Called(slow), b.Called(quick), long, short), true
}

// levelNow: the clocks show the same.
func (b *Board) levelNow(t time.Time) (prompt.Prompt, bool) {
	between := (b.Left(clock.White, t) - b.Left(clock.Black, t)).Abs()
	return prompt.LevelClocks(b.in, b.rounds(), between), b.rounds() >= 20 && between <= levelWithin
}

// aboveStart: both sides have more time than they began with.
func (b *Board) aboveStart(t time.Time) (prompt.Prompt, bool) {
	above := b.Left(clock.White, t) - b.Control.For(clock.White).Start()
	above = min(above, b.Left(clock.Black, t)-b.Control.For(clock.Black).Start())
	ok := len(b.Control.Periods) == 1 && above > 0 && !b.stood(AlertInPreparation) && !b.added(clock.White) && !b.added(clock.Black)
	return prompt.AboveStart(b.in, b.rounds(), above), ok
}

// unspent: the side with more time has nearly all it began with.
func (b *Board) unspent(t time.Time) (prompt.Prompt, bool) {
	rich := clock.White
	if b.Left(clock.Black, t) > b.Left(clock.White, t) {
		rich = clock.Black
	}
	left, start := b.Left(rich, t), b.Control.For(rich).Start()
	ok := len(b.Control.Periods) == 1 && left < start && left >= scaled(start, unspentPart) && start >= belowStart && !b.added(rich)
	return prompt.Unspent(b.in, b.Called(rich), b.rounds(), left, start), ok
}

// added reports whether time was added to a side's clock in the game.
func (b *Board) added(side clock.Side) bool {
	for i := range b.Plies {
		if b.moverOf(i) == side && b.rise(i) > 0 {
			return true
		}
	}
	return false
}

// averageNow compares what a move has taken each side: once of a game, and again when that has changed by half.
func (b *Board) averageNow() (prompt.Prompt, bool) {
	slow, quick := clock.White, clock.Black
	own, n := b.rounds(), len(b.Plies)
	now := b.ratio(n)
	if now < 1 {
		slow, quick, now = quick, slow, 1/now
	}
	if now < averageMore || b.troubled() || b.added(clock.White) || b.added(clock.Black) {
		return prompt.Prompt{}, false
	}
	for before := averageFrom; before < own-1; before += 10 {
		was := b.ratio(2*before + n%2)
		if slow == clock.Black {
			was = 1 / was
		}
		if was >= averageMore && now < was*averageAgain && now*averageAgain > was {
			return prompt.Prompt{}, false
		}
	}
	mean := func(side clock.Side) time.Duration {
		i := b.lastOf(side)
		return (b.Plies[i].Timed.Used / time.Duration(ownMove(i))).Round(time.Second)
	}
	short, long := mean(quick), mean(slow)
	return prompt.Average(b.in, b.Called(quick), b.Called(slow), short, long, own), short >= time.Second && long >= sumsLeast
}

// ratio is how many times as long as Black's a move of White's has taken in the first n plies; 1 if that
// is not known.
func (b *Board) ratio(n int) float64 {
	var mean [2]float64
	for _, i := range []int{n - 1, n - 2} {
		if i < 0 || b.Plies[i].Timed.Gaps || b.Plies[i].Timed.Used <= 0 {
			return 1
		}
		mean[b.moverOf(i)] = float64(b.Plies[i].Timed.Used) / float64(ownMove(i))
	}
	return mean[clock.White] / mean[clock.Black]
}
