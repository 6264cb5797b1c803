package relay

import (
	"slices"
	"time"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/remark"
)

// What moves took. Judgement.
const (
	streakQuick, quickMost = 5, 4 * time.Second
	streakSlow, slowLeast  = 3, 40 * time.Second
	streakFrom             = 12 // own moves

	longestLeast = 40 * time.Second
	longestMore  = 1.3
	longestFrom  = 10 // own moves

	answerMost, answerAfter = 3 * time.Second, 45 * time.Second
	answerFrom              = 8

	mateLately = 6 // plies since a mate stood on the board
)

// thinkPaces are of what moves took.
func (b *Board) thinkPaces(i int, add addPace) {
	side, spent := b.moverOf(i), b.Plies[i].Timed.Spent
	name := b.Called(side)
	number, _ := b.MoveNumber(i)
	before := b.Plies[i-1].Timed.Spent
	if i == len(b.Plies)-1 && ownMove(i) >= answerFrom && spent <= answerMost && before >= answerAfter {
		add("answer", side, false, func() (prompt.Prompt, bool) {
			return prompt.AtOnce(b.in, name, b.Called(side.Other()), before), !b.obvious(i) && b.rise(i) == 0 && b.rise(i-1) == 0
		})
	}
	if i >= len(b.Plies)-2 && b.isLongest(i) {
		add("longest", side, false, func() (prompt.Prompt, bool) { return prompt.Longest(b.in, name, number, spent), b.isLongestYet(i) })
	}
	quick := func(d time.Duration) bool { return d <= quickMost }
	if ownMove(i) >= streakFrom && b.begins(i, streakQuick, quick) {
		add("quick", side, false, func() (prompt.Prompt, bool) {
			most, still := b.streak(b.lastOf(side), streakQuick, quick)
			return prompt.QuickMoves(b.in, name, streakQuick, most[1]), still && b.Levels[side].Level == 0 && !b.mating()
		})
	}
	slow := func(d time.Duration) bool { return d >= slowLeast }
	if b.begins(i, streakSlow, slow) {
		add("slow", side, true, func() (prompt.Prompt, bool) {
			least, still := b.streak(b.lastOf(side), streakSlow, slow)
			return prompt.SlowMoves(b.in, name, streakSlow, least[0]), still
		})
	}
}

// obvious reports whether anybody would have played the ply at an index at once: it captures, checks or answers
// a check, a mate stands, or a man of the mover was in danger.
func (b *Board) obvious(i int) bool {
	before, after := b.Place(i), b.Place(i+1)
	state := b.remarksAt(i)
	hung := state.Hung() & before.Side(bitboard.Colour(b.moverOf(i)))
	captured := before.Occupied().Count() != after.Occupied().Count()
	return captured || before.InCheck() || after.InCheck() || b.Plies[i].Rescued || hung != 0 || b.mating()
}

// mating reports whether a mate has been on the board lately.
func (b *Board) mating() bool {
	for i := max(0, len(b.Plies)-mateLately); i < len(b.Plies); i++ {
		if slices.ContainsFunc(b.Plies[i].remarks.Remarks(), func(r remark.Remark) bool {
			return r.Rule == remark.MateHere || r.Rule == remark.MateForced
		}) {
			return true
		}
	}
	return false
}

// isLongest reports whether no move took nearly as long as the ply at an index, of which nothing was said
// while it lasted.
func (b *Board) isLongest(i int) bool {
	spent := b.Plies[i].Timed.Spent
	if ownMove(i) < longestFrom || spent < longestLeast || b.isLong(i, thinkMissed) {
		return false
	}
	for j := range i {
		if b.Plies[j].Timed.SpentQuality == clock.QualityNone || scaled(b.Plies[j].Timed.Spent, longestMore) > spent {
			return false
		}
	}
	return true
}

// isLongestYet reports whether no think since the ply at an index has taken as long.
func (b *Board) isLongestYet(i int) bool {
	return !slices.ContainsFunc(b.Plies[i+1:], func(ply Ply) bool { return ply.Timed.Spent >= b.Plies[i].Timed.Spent })
}

// begins reports whether the ply at an index makes a streak of n, and the one before that many was not such.
func (b *Board) begins(i, n int, such func(time.Duration) bool) bool {
	if first := i - 2*n; first < 0 || such(b.Plies[first].Timed.Spent) {
		return false
	}
	_, ok := b.streak(i, n, such)
	return ok
}

// streak reports whether the last n own moves up to the ply at an index are such, and the least and most that
// one of them took.
func (b *Board) streak(i, n int, such func(time.Duration) bool) (bounds [2]time.Duration, ok bool) {
	if !such(b.Plies[i].Timed.Spent) || !b.evenPlies(i, n) {
		return bounds, false
	}
	bounds[0] = b.Plies[i].Timed.Spent
	for j := i; j > i-2*n; j -= 2 {
		d := b.Plies[j].Timed.Spent
		if !such(d) {
			return bounds, false
		}
		bounds = [2]time.Duration{min(bounds[0], d), max(bounds[1], d)}
	}
	return bounds, true
}
