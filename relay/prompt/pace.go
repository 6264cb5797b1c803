package prompt

import "time"

// paceWords are what a language has to say of how two clocks go, when little else happens. The
// functions of the same names say what each is.
type paceWords interface {
	HalfTime(name string, move int, left time.Duration) Words
	Below(name, other string, limit, left time.Duration) Words
	BothBelow(limit time.Duration) Words
	UnderHalf(name, other string, mine, yours time.Duration) Words
	FiveMoves(slow, quick string, long, short time.Duration) Words
	Longest(name string, move int, spent time.Duration) Words
	AtOnce(name, other string, spent time.Duration) Words
	AboveStart(moves int, least time.Duration) Words
	QuickMoves(name string, moves int, most time.Duration) Words
	SlowMoves(name string, moves int, least time.Duration) Words
	Average(quick, slow string, short, long time.Duration, moves int) Words
	LevelClocks(moves int, by time.Duration) Words
	Unspent(name string, moves int, left, start time.Duration) Words
	AheadNow(name, other string, by time.Duration) Words
	Surge(name string, moves, before int, lately, earlier time.Duration) Words
	Regained(name string, moves int, by time.Duration) Words
	Recall(name string, move int, spent time.Duration) Words
	MinuteMoves(name string, moves int) Words
}

func (w Words) ofPace() Prompt { return w.said(KindClock, Background) }

// HalfTime: with a move a clock has come down to half of what it started with.
func HalfTime(in Language, name string, move int, left time.Duration) Prompt {
	return in.HalfTime(name, move, left).ofPace()
}

// Below: a clock has come below a limit, in whole minutes, and the other has left, some minutes more.
func Below(in Language, name, other string, limit, left time.Duration) Prompt {
	return in.Below(name, other, limit, left).ofPace()
}

// BothBelow: the second clock has come below a limit in whole minutes.
func BothBelow(in Language, limit time.Duration) Prompt { return in.BothBelow(limit).ofPace() }

// UnderHalf: a side has less than half the time of the other.
func UnderHalf(in Language, name, other string, mine, yours time.Duration) Prompt {
	return in.UnderHalf(name, other, mine, yours).ofPace()
}

// FiveMoves: what the last five moves of each side took, of the slower one first.
func FiveMoves(in Language, slow, quick string, long, short time.Duration) Prompt {
	return in.FiveMoves(slow, quick, long, short).ofPace()
}

// Longest: no move of the game has taken longer, by either side.
func Longest(in Language, name string, move int, spent time.Duration) Prompt {
	return in.Longest(name, move, spent).ofPace()
}

// AtOnce: a side has answered at once a move for which the other took so long.
func AtOnce(in Language, name, other string, spent time.Duration) Prompt {
	return in.AtOnce(name, other, spent).ofPace()
}

// AboveStart: after so many moves of each both clocks show more than at the start, by at least so much.
func AboveStart(in Language, moves int, least time.Duration) Prompt {
	return in.AboveStart(moves, least).ofPace()
}

// QuickMoves: none of the last moves of a side took longer than most.
func QuickMoves(in Language, name string, moves int, most time.Duration) Prompt {
	return in.QuickMoves(name, moves, most).ofPace()
}

// SlowMoves: each of the last moves of a side took at least so long.
func SlowMoves(in Language, name string, moves int, least time.Duration) Prompt {
	return in.SlowMoves(name, moves, least).ofPace()
}

// Average: what a move takes each side, over so many, of the quicker one first.
func Average(in Language, quick, slow string, short, long time.Duration, moves int) Prompt {
	return in.Average(quick, slow, short, long, moves).ofPace()
}

// LevelClocks: after so many moves the clocks show the same, but for a few seconds.
func LevelClocks(in Language, moves int, by time.Duration) Prompt {
	return in.LevelClocks(moves, by).ofPace()
}

// Unspent: after so many moves a side has nearly all of its time.
func Unspent(in Language, name string, moves int, left, start time.Duration) Prompt {
	return in.Unspent(name, moves, left, start).ofPace()
}

// AheadNow: a side has more time than the other for the first time since the opening.
func AheadNow(in Language, name, other string, by time.Duration) Prompt {
	return in.AheadNow(name, other, by).ofPace()
}

// Surge: the last moves of a side took longer than all before.
func Surge(in Language, name string, moves, before int, lately, earlier time.Duration) Prompt {
	return in.Surge(name, moves, before, lately, earlier).ofPace()
}

// Regained: over the last moves a clock has gone up.
func Regained(in Language, name string, moves int, by time.Duration) Prompt {
	return in.Regained(name, moves, by).ofPace()
}

// Recall: which move of a side took longest so far.
func Recall(in Language, name string, move int, spent time.Duration) Prompt {
	return in.Recall(name, move, spent).ofPace()
}

// MinuteMoves: a side has made so many moves in a row with less than a minute on its clock.
func MinuteMoves(in Language, name string, moves int) Prompt {
	return in.MinuteMoves(name, moves).ofPace()
}

// meanMinutes is from where on a move is said to take minutes.
const meanMinutes = 100 * time.Second

// wholeMinutes is how many minutes there are in a time, at least.
func wholeMinutes(d time.Duration) int { return int(d / time.Minute) }
