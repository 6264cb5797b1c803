package prompt

import "time"

// A condition that lasts is said without figures that would grow old while the
// prompt waits; they stand in the evidence, with the moment they were read.

// InPreparation: the clock of a side shows that it still plays what it knows.
// Opponent names the other side if that is thinking already, else "".
func InPreparation(in Language, name, opponent string, moves int, gained time.Duration) Prompt {
	return in.InPreparation(name, opponent, moves, gained).said(KindTell, Soon)
}

// BothPrepared: both sides play what they know, after so many timed moves of one, and their clocks stand above
// their starts, by so much at least.
func BothPrepared(in Language, moves int, gained time.Duration) Prompt {
	return in.BothPrepared(moves, gained).said(KindTell, Soon)
}

// LeftPreparation: the move with which a side showed that it thinks for itself. The time
// it took is the reason only if no move before took longer; else it is all of the last
// ones, which took lately on average.
func LeftPreparation(in Language, name string, move int, spent, lately time.Duration, longest bool) Prompt {
	return in.LeftPreparation(name, move, spent, lately, longest).said(KindTell, Now)
}

// BackInPreparation: a side that was thinking plays from what it knows again.
func BackInPreparation(in Language, name string, move int, lately time.Duration) Prompt {
	return in.BackInPreparation(name, move, lately).said(KindTell, Soon)
}

// FirstThink: the first move that took a side as long as a long think does.
func FirstThink(in Language, name string, move int, spent time.Duration) Prompt {
	return in.FirstThink(name, move, spent).said(KindTell, Soon)
}

// QuickUnknown: a quick move where no reference game can have shown it.
func QuickUnknown(in Language, name string, spent time.Duration) Prompt {
	return in.QuickUnknown(name, spent).said(KindTell, Background)
}
