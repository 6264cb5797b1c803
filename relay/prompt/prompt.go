// Package prompt turns what the relay knows into sentences that a person can
// read aloud: one idea, at most about fifteen words, figures rounded the way
// people say them. The exact figures stand in the evidence.
package prompt

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

// Kind groups prompts for the panel's filter.
type Kind string

// The kinds.
const (
	KindTell  Kind = "tell"
	KindClock Kind = "clock"
	KindFeed  Kind = "feed"

	KindReference Kind = "reference"
)

// Priority says how soon a prompt should be said.
type Priority string

// The priorities, most urgent first.
const (
	Now        Priority = "now"
	Soon       Priority = "soon"
	Background Priority = "background"
	Silent     Priority = "" // true, but not worth a prompt
)

// Prompt is one sentence with what stands behind it.
type Prompt struct {
	Kind     Kind
	Priority Priority
	Text     string
	Evidence string
	Ends     string // what withdraws it, in words
	Marks    []Mark // what to point at on the board
}

// Mark points at something on a board: a square, or a way from one square to another.
type Mark struct {
	Kind     MarkKind
	From, To string // squares, "e4"; From is "" for a square alone
}

// MarkKind is what a mark means.
type MarkKind string

// The meanings.
const (
	MarkLook   MarkKind = "look"   // the man spoken of
	MarkDanger MarkKind = "danger" // what attacks it
	MarkGuard  MarkKind = "guard"  // what guards it
	MarkPlan   MarkKind = "plan"   // a move on offer
)

// A condition that lasts is said without figures that would grow old while the
// prompt waits; they stand in the evidence, with the moment they were read.

// InPreparation: the clock of a side shows that it still plays what it knows.
// Opponent names the other side if that is thinking already, else "".
func InPreparation(name, opponent string, moves int, gained time.Duration) Prompt {
	p := Prompt{Kind: KindTell, Priority: Soon, Ends: "when the tell changes"}
	stands := "below"
	if gained > 0 {
		stands = "above"
	}
	p.Evidence = fmt.Sprintf("after %d timed moves the clock stood %s %s its start", moves, clock.Format(gained.Abs()), stands)
	switch {
	case opponent != "":
		p.Text = fmt.Sprintf("%s is still in preparation while %s is thinking.", name, opponent)
	case gained > 0:
		p.Text = fmt.Sprintf("%s still plays from preparation: the clock stands above its start.", name)
	default:
		p.Text = fmt.Sprintf("%s still plays from preparation.", name)
	}
	return p
}

// LeftPreparation: the move with which a side showed that it thinks for itself. The time
// it took is the reason only if no move before took longer; else it is all of the last
// ones, which took lately on average.
func LeftPreparation(name string, move int, spent, lately time.Duration, longest bool) Prompt {
	p := Prompt{
		Kind: KindTell, Priority: Now, Ends: "two moves later",
		Text:     fmt.Sprintf("%s is out of preparation by move %s.", name, Number(move)),
		Evidence: fmt.Sprintf("%s on move %d; %s", clock.Format(spent), move, latelyWords(lately)),
	}
	if longest {
		p.Evidence = fmt.Sprintf("%s on move %d", clock.Format(spent), move)
		p.Text = fmt.Sprintf("%s is out of preparation: %s on move %s.", name, Span(spent), Number(move))
	}
	return p
}

func latelyWords(lately time.Duration) string { return clock.Format(lately) + " a move lately" }

// BackInPreparation: a side that was thinking plays from what it knows again.
func BackInPreparation(name string, move int, lately time.Duration) Prompt {
	return Prompt{
		Kind: KindTell, Priority: Soon, Evidence: latelyWords(lately), Ends: "two moves later",
		Text: fmt.Sprintf("%s seems to know the moves again, since move %s.", name, Number(move)),
	}
}

// FirstThink: the first move that took a side as long as a long think does.
func FirstThink(name string, move int, spent time.Duration) Prompt {
	return Prompt{
		Kind: KindTell, Priority: Soon, Ends: "two moves later",
		Text:     fmt.Sprintf("That was %s's first long think: %s on move %s.", name, Span(spent), Number(move)),
		Evidence: fmt.Sprintf("%s on move %d", clock.Format(spent), move),
	}
}

// QuickUnknown: a quick move where no reference game can have shown it.
func QuickUnknown(name string, spent time.Duration) Prompt {
	return Prompt{
		Kind: KindTell, Priority: Background, Ends: "when a slower move comes",
		Text:     fmt.Sprintf("%s plays at once in a new position: deep preparation, or a bluff.", name),
		Evidence: fmt.Sprintf("%s for a move outside the reference games that nothing forced", clock.Format(spent)),
	}
}

// LongThink: a side has thought on its move for longer than its pace explains.
// Usual is its usual think, 0 if it had none yet.
func LongThink(name string, move int, limit, usual time.Duration) Prompt {
	evidence := fmt.Sprintf("past %s on move %d, the first think", clock.Format(limit), move)
	if usual > 0 {
		evidence = fmt.Sprintf("past %s on move %d, usual think %s", clock.Format(limit), move, clock.Format(usual))
	}
	return Prompt{
		Kind: KindClock, Priority: Soon,
		Text:     fmt.Sprintf("%s is in a long think on move %s.", name, Number(move)),
		Evidence: evidence,
		Ends:     "when the move comes",
	}
}

// TimeTrouble: what is left is too little for what is still to come. Limit is the
// clock below which the level holds.
func TimeTrouble(name string, level int, limit time.Duration, evidence string) Prompt {
	p := Prompt{Kind: KindClock, Priority: Background, Evidence: evidence, Ends: "when the clock recovers"}
	switch level {
	case 1:
		p.Text = fmt.Sprintf("%s is spending faster than the clock allows.", name)
	case 2:
		p.Priority = Soon
		p.Text = fmt.Sprintf("%s is in time trouble, down to the last %s.", name, Last(limit))
	default:
		p.Priority = Now
		p.Text = fmt.Sprintf("%s is down to the last %s.", name, Last(limit))
	}
	return p
}

// OnIncrement: every move takes about what it brings, or with a delay what it leaves free.
func OnIncrement(name string, delay bool, evidence string) Prompt {
	what := "increment"
	if delay {
		what = "delay"
	}
	return Prompt{
		Kind: KindClock, Priority: Soon, Evidence: evidence, Ends: "when the clock recovers",
		Text: fmt.Sprintf("%s lives on the %s now.", name, what),
	}
}

// FlagNear: there is hardly the time for a quick move.
func FlagNear(name string, limit time.Duration) Prompt {
	return Prompt{
		Kind: KindClock, Priority: Now, Ends: "when the clock recovers",
		Text:     fmt.Sprintf("The flag of %s is about to fall.", name),
		Evidence: fmt.Sprintf("below %s on the clock", clock.Format(limit)),
	}
}

// ToControl: a side short of time nears the control, made with a move.
func ToControl(name string, move int, evidence string) Prompt {
	return Prompt{
		Kind: KindClock, Priority: Soon, Evidence: evidence, Ends: "at the control",
		Text: fmt.Sprintf("%s is running short of time for the control at move %s.", name, Number(move)),
	}
}

// ClockLead: one side has much more time than the other.
func ClockLead(name string, by time.Duration, budgets string) Prompt {
	return Prompt{
		Kind: KindClock, Priority: Background,
		Text:     fmt.Sprintf("%s is well ahead on the clock.", name),
		Evidence: fmt.Sprintf("by %s when it was first seen; %s", clock.Format(by), budgets),
		Ends:     "when the lead shrinks",
	}
}

// CatchingUp: the clock that was behind by most, after a move, is so by no more than half
// of it.
func CatchingUp(name string, move int, most, by time.Duration) Prompt {
	p := Prompt{
		Kind: KindClock, Priority: Background, Ends: "when it falls behind again",
		Text: fmt.Sprintf("%s has halved the gap on the clock.", name),
	}
	stood := clock.Format(by.Abs()) + " behind"
	if by <= 0 {
		p.Text = fmt.Sprintf("%s has caught up on the clock.", name)
		stood = clock.Format(by.Abs()) + " ahead"
	}
	p.Evidence = fmt.Sprintf("%s behind after move %d; %s when it was first seen", clock.Format(most), move, stood)
	return p
}

// ClockDoubtful: the readings of a clock contradict each other.
func ClockDoubtful(name, doubt string) Prompt {
	return Prompt{
		Kind: KindClock, Priority: Background,
		Text:     fmt.Sprintf("The clock of %s may be wrong: its readings contradict each other.", name),
		Evidence: doubt,
		Ends:     "after two readings that agree",
	}
}

// FeedStale: nothing has come for so long that the picture may be behind.
func FeedStale(feed string, silence time.Duration) Prompt {
	return Prompt{
		Kind: KindFeed, Priority: Now,
		Text:     "No news from the hall: clocks and moves may be behind.",
		Evidence: fmt.Sprintf("feed %s: no good answer for more than %s", feed, clock.Format(silence)),
		Ends:     "when the feed answers",
	}
}
