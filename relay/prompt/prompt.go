// Package prompt turns what the relay knows into sentences that a person can
// read aloud: one idea, at most about fifteen words, figures rounded the way
// people say them. The exact figures stand in the evidence. Each sentence there
// is in every Language.
package prompt

// Kind groups prompts for the panel's filter.
type Kind string

// The kinds.
const (
	KindTell  Kind = "tell"
	KindClock Kind = "clock"
	KindFeed  Kind = "feed"

	KindReference Kind = "reference"
	KindFacts     Kind = "facts"  // what stands on the board
	KindEngine    Kind = "engine" // what an engine says of it
)

// Kinds lists every Kind, for counters that start at zero.
var Kinds = []Kind{KindTell, KindClock, KindFeed, KindReference, KindFacts, KindMatch, KindEngine}

// Priority says how soon a prompt should be said.
type Priority string

// The priorities, most urgent first.
const (
	Now        Priority = "now"
	Soon       Priority = "soon"
	Background Priority = "background"
	Silent     Priority = "" // true, but not worth a prompt
)

// Priorities lists every Priority that a listed prompt may have, most urgent first.
var Priorities = []Priority{Now, Soon, Background}

// Prompt is one sentence with what stands behind it.
type Prompt struct {
	Kind     Kind
	Priority Priority
	Text     string
	Evidence string
	Ends     string // what withdraws it, in words
	Marks    []Mark // what to point at on the board
}

// said makes a prompt of words.
func (w Words) said(kind Kind, priority Priority) Prompt {
	return Prompt{Kind: kind, Priority: priority, Text: w.Text, Evidence: w.Evidence, Ends: w.Ends}
}
