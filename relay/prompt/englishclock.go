package prompt

import (
	"fmt"
	"strings"
	"time"

	"clocktell/relay/clock"
)

func (e english) LongThink(name string, move int, limit, usual time.Duration) Words {
	w := Words{
		Text:     fmt.Sprintf("%s is in a long think on move %s.", name, e.Number(move)),
		Evidence: fmt.Sprintf("past %s on move %d, the first think", clock.Format(limit), move),
		Ends:     "when the move comes",
	}
	if usual > 0 {
		w.Evidence = fmt.Sprintf("past %s on move %d, usual think %s", clock.Format(limit), move, clock.Format(usual))
	}
	return w
}

const englishRecovers = "when the clock recovers"

func (e english) TimeTrouble(name string, level int, limit time.Duration, b Budget) Words {
	w := Words{Evidence: e.budget(b), Ends: englishRecovers}
	switch level {
	case 1:
		w.Text = fmt.Sprintf("%s is spending faster than the clock allows.", name)
	case 2:
		w.Text = fmt.Sprintf("%s is in time trouble, down to the last %s.", name, e.last(limit))
	default:
		w.Text = fmt.Sprintf("%s is down to the last %s.", name, e.last(limit))
	}
	return w
}

func (e english) OnIncrement(name string, delay bool, b Budget) Words {
	what := "increment"
	if delay {
		what = "delay"
	}
	return Words{Text: fmt.Sprintf("%s lives on the %s now.", name, what), Evidence: e.budget(b), Ends: englishRecovers}
}

func (english) FlagNear(name string, limit time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("The flag of %s is about to fall.", name),
		Evidence: fmt.Sprintf("below %s on the clock", clock.Format(limit)),
		Ends:     englishRecovers,
	}
}

func (e english) ToControl(name string, move int, b Budget) Words {
	return Words{
		Text:     fmt.Sprintf("%s is running short of time for the control at move %s.", name, e.Number(move)),
		Evidence: e.budget(b),
		Ends:     "at the control",
	}
}

func (english) ClockLead(name string, l Lead) Words {
	return Words{
		Text: fmt.Sprintf("%s is well ahead on the clock.", name),
		Evidence: joined(
			fmt.Sprintf("by %s when it was first seen", clock.Format(l.By)),
			fmt.Sprintf("budget %s a move against %s", figure(l.Mine), figure(l.Yours)),
			some(l.Moves > 0, "worth "+englishMoves(l.Moves)),
		),
		Ends: "when the lead shrinks",
	}
}

func (english) CatchingUp(name string, move int, most, by time.Duration) Words {
	w := Words{Text: fmt.Sprintf("%s has halved the gap on the clock.", name), Ends: "when it falls behind again"}
	stood := clock.Format(by.Abs()) + " behind"
	if by <= 0 {
		w.Text = fmt.Sprintf("%s has caught up on the clock.", name)
		stood = clock.Format(by.Abs()) + " ahead"
	}
	if by < -overtaken {
		w.Text = fmt.Sprintf("%s was behind on the clock and is now ahead.", name)
	}
	w.Evidence = fmt.Sprintf("%s behind after move %d; %s when it was first seen", clock.Format(most), move, stood)
	return w
}

func (english) ClockDoubtful(name, move, doubt string) Words {
	return Words{
		Text:     fmt.Sprintf("The clock of %s may be wrong: its readings contradict each other.", name),
		Evidence: move + ": " + doubt,
		Ends:     "after two readings that agree",
	}
}

func (e english) TimeAdded(name, move string, by time.Duration, doubt string, again bool) Words {
	begin := "Time was added to the clock of"
	if again {
		begin = "Time was added again for"
	}
	return Words{
		Text:     fmt.Sprintf("%s %s: at least %s.", begin, name, e.Span(atLeast(by))),
		Evidence: move + ": " + doubt,
		Ends:     "one move later",
	}
}

func (e english) budget(b Budget) string { return strings.Join(e.Outlook(b), "; ") }

func (english) Outlook(b Budget) []string {
	list := []string{"budget " + figure(b.Move) + " a move"}
	if b.Usual > 0 {
		list = append(list, "usual think "+figure(b.Usual))
	}
	if b.ToControl > 0 {
		list = append(list, englishMoves(b.ToControl)+" to the control")
	}
	switch {
	case b.AtMove > 0 && b.To > 0:
		list = append(list, fmt.Sprintf("below %s about move %d (likely %d to %d)", figure(b.Below), b.AtMove, b.From, b.To))
	case b.AtMove > 0:
		list = append(list, fmt.Sprintf("below %s about move %d (%d at the earliest)", figure(b.Below), b.AtMove, b.From))
	case b.NoTrouble:
		list = append(list, "no trouble at this pace")
	}
	return list
}

func (english) Ahead(a Ahead) string {
	return fmt.Sprintf("about %s after move %d at this pace (likely %s to %s)", clock.Format(a.Middle), a.Move, clock.Format(a.Low), clock.Format(a.High))
}

func (english) Estimated() string { return "estimated from when moves arrived" }

func englishMoves(n int) string {
	if n == 1 {
		return "1 move"
	}
	return fmt.Sprintf("%d moves", n)
}
