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
}

// InPreparation: the clock of a side shows that it still plays what it knows.
// Opponent names the other side if that is thinking already, else "".
func InPreparation(name, opponent string, moves int, gained time.Duration) Prompt {
	text := fmt.Sprintf("%s is still in preparation: %s quick moves.", name, Number(moves))
	evidence := fmt.Sprintf("%d timed moves, clock %s below its start", moves, clock.Format(-gained))
	if gained > 0 {
		text = fmt.Sprintf("%s's clock stands above its start: %s moves, %s gained.", name, Number(moves), Span(gained))
		evidence = fmt.Sprintf("%d timed moves, clock %s above its start", moves, clock.Format(gained))
	}
	if opponent != "" {
		text = fmt.Sprintf("%s is still in preparation while %s is thinking.", name, opponent)
	}
	return Prompt{Kind: KindTell, Priority: Soon, Text: text, Evidence: evidence, Ends: "when the tell changes"}
}

// LeftPreparation: the move on which a side began to think for itself.
func LeftPreparation(name string, move int, spent time.Duration) Prompt {
	return Prompt{
		Kind: KindTell, Priority: Now,
		Text:     fmt.Sprintf("%s is out of preparation: %s on move %s.", name, Span(spent), Number(move)),
		Evidence: fmt.Sprintf("%s on move %d", clock.Format(spent), move),
		Ends:     "two moves later",
	}
}

// LongThink: a side has thought on its move for longer than its pace explains.
// Usual is its usual think, 0 if it had none yet.
func LongThink(name string, move int, limit, usual time.Duration) Prompt {
	evidence := fmt.Sprintf("past %s on move %d, the first think", clock.Format(limit), move)
	if usual > 0 {
		evidence = fmt.Sprintf("past %s on move %d, its usual think %s", clock.Format(limit), move, clock.Format(usual))
	}
	return Prompt{
		Kind: KindClock, Priority: Soon,
		Text:     fmt.Sprintf("%s is in a long think on move %s.", name, Number(move)),
		Evidence: evidence,
		Ends:     "when the move comes",
	}
}

// TimeTrouble: what is left is too little for what is still to come.
func TimeTrouble(name string, level int, left time.Duration, evidence string) Prompt {
	p := Prompt{Kind: KindClock, Priority: Background, Evidence: evidence, Ends: "when the clock recovers"}
	switch level {
	case 1:
		p.Text = fmt.Sprintf("%s is spending faster than the clock allows: %s left.", name, Span(left))
	case 2:
		p.Priority = Soon
		p.Text = fmt.Sprintf("%s is in time trouble with %s left.", name, Span(left))
	default:
		p.Priority = Now
		p.Text = fmt.Sprintf("%s has %s left and lives on the increment.", name, Span(left))
	}
	return p
}

// ClockLead: one side has much more time than the other.
func ClockLead(name string, by time.Duration, budgets string) Prompt {
	return Prompt{
		Kind: KindClock, Priority: Background,
		Text:     fmt.Sprintf("%s is ahead on the clock by %s.", name, Span(by)),
		Evidence: fmt.Sprintf("lead %s, %s", clock.Format(by), budgets),
		Ends:     "when the lead shrinks",
	}
}

// FeedStale: nothing has come for so long that the picture may be behind.
func FeedStale(feed string, silence time.Duration) Prompt {
	return Prompt{
		Kind: KindFeed, Priority: Now,
		Text:     fmt.Sprintf("No news from the hall for %s; clocks and moves may be behind.", Span(silence)),
		Evidence: fmt.Sprintf("feed %s: last good answer %s ago", feed, clock.Format(silence)),
		Ends:     "when the feed answers",
	}
}
