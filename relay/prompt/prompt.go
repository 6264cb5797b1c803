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

// said makes a prompt of words.
func (w Words) said(kind Kind, priority Priority) Prompt {
	return Prompt{Kind: kind, Priority: priority, Text: w.Text, Evidence: w.Evidence, Ends: w.Ends}
}
