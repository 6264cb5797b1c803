package tell

import (
	"fmt"
	"strings"
	"time"

	"clocktell/relay/clock"
)

// troubleReason says why a level holds. In the band in which a level is kept but
// would not be raised, it is the limit that says so.
func (f *Filter) troubleReason(s *side, t Trouble, left time.Duration) string {
	switch {
	case t.Level == 0:
		return ""
	case t.FlagNear:
		return fmt.Sprintf("flag near: %s on the clock", clock.Format(left))
	case t.OnIncrement && left >= t.Limit:
		return f.incrementReason(s, left)
	case t.Level > 1 && left < t.Limit:
		return fmt.Sprintf("%s on the clock, below %s", clock.Format(left), span(t.Limit))
	case t.Level > 1:
		return fmt.Sprintf("%s on the clock, hardly above %s", clock.Format(left), span(t.Limit))
	case t.Forecast && t.Chance >= troubleChance:
		return fmt.Sprintf("below %s within %d moves: %d in 100", span(t.Below), troubleMoves, inHundred(t.Chance))
	}
	meant := f.p.pace(f.of(s), own(s.ply)+1)
	return fmt.Sprintf("%s a move, where the control is meant for %s", span(t.Budget), span(inSeconds(meant)))
}

// incrementReason says on what a side lives.
func (f *Filter) incrementReason(s *side, left time.Duration) string {
	c, move := f.of(s), own(s.ply)+1
	if c.Increment(move) == 0 {
		return fmt.Sprintf("on the delay: %s on the clock, %s free a move", clock.Format(left), span(free(c)))
	}
	return fmt.Sprintf("on the increment: %s on the clock, %s more a move", clock.Format(left), span(allowance(c, move)))
}

// figures returns what to show beside the level, whatever it is.
func (t Trouble) figures() string {
	list := []string{"budget " + span(t.Budget) + " a move"}
	if t.Usual > 0 {
		list = append(list, "usual think "+span(t.Usual))
	}
	if t.ToControl > 0 {
		list = append(list, moves(t.ToControl)+" to the control")
	}
	switch {
	case t.AtMove > 0:
		list = append(list, fmt.Sprintf("below %s about move %d (%s)", span(t.Below), t.AtMove, t.between()))
	case t.Forecast && t.Level == 0:
		list = append(list, "no trouble at this pace")
	}
	return strings.Join(list, "; ")
}

// between returns the range of the date. Where it is wider than a game, only its
// near end says something.
func (t Trouble) between() string {
	const longGame = 60 // own moves
	if t.To > max(longGame, t.AtMove) {
		return fmt.Sprintf("%d at the earliest", t.From)
	}
	return fmt.Sprintf("likely %d to %d", t.From, t.To)
}

// words returns the lead in words.
func (l Lead) words() (reason, evidence string) {
	reason = fmt.Sprintf("%s is %s ahead on the clock", l.Side, clock.Format(l.By))
	evidence = fmt.Sprintf("budget %s a move against %s", span(l.Budgets[l.Side]), span(l.Budgets[l.Side.Other()]))
	if l.Moves > 0 {
		evidence += "; worth " + moves(l.Moves)
	}
	return reason, evidence
}

// InShort says the trouble in a few words, for the air.
func (t Trouble) InShort() string {
	if t.ToControl > 0 {
		return fmt.Sprintf("%s to the control", moves(t.ToControl))
	}
	return fmt.Sprintf("%d s a move left", int(t.Budget.Seconds()))
}
