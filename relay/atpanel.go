package relay

import "time"

// AtPanel is something that a co-host did at the shared panel. It is done once: another
// of the same ID is taken for the same one, sent again.
type AtPanel struct {
	At     time.Time `json:"-"`
	ID     string    `json:"id"`
	Who    string    `json:"who"`
	Act    PanelAct  `json:"act"`
	Prompt string    `json:"prompt,omitempty"` // BoardPrompt.Key
	Over   bool      `json:"over,omitempty"`   // although somebody else has taken or said it
	Text   string    `json:"text,omitempty"`   // of a note; of a sentence of one's own for the air
	Note   string    `json:"note,omitempty"`   // of a wipe: the note's ID
}

// When returns the time of the act.
func (e AtPanel) When() time.Time { return e.At }

// PanelAct is what can be done at the panel.
type PanelAct string

// The acts.
const (
	PanelTake  PanelAct = "take"
	PanelSaid  PanelAct = "said"
	PanelDrop  PanelAct = "drop"
	PanelUndo  PanelAct = "undo" // takes any of these back
	PanelPin   PanelAct = "pin"
	PanelUnpin PanelAct = "unpin"
	PanelAir   PanelAct = "air" // puts a sentence on the air
	PanelOff   PanelAct = "off" // takes it off
	PanelNote  PanelAct = "note"
	PanelWipe  PanelAct = "wipe" // removes a note
)

// PanelActs lists every PanelAct.
var PanelActs = []PanelAct{
	PanelTake, PanelSaid, PanelDrop, PanelUndo, PanelPin, PanelUnpin, PanelAir, PanelOff, PanelNote, PanelWipe,
}

// Limits of what a co-host writes, in characters.
const (
	WhoMost       = 40
	PanelTextMost = 200
)

// Use is what the co-hosts did with a prompt.
type Use struct {
	State  UseState
	By     string // who brought it there; "" while it is open
	At     time.Time
	Pinned string // who pinned it; "" nobody
}

// UseState is what a co-host last did with a prompt.
type UseState string

// The states. A prompt that nobody has touched is open.
const (
	UseOpen    UseState = "open"
	UseTaken   UseState = "taken"
	UseSaid    UseState = "said"
	UseDropped UseState = "dropped"
)

// Is returns the state; the zero Use is open.
func (u Use) Is() UseState {
	if u.State == "" {
		return UseOpen
	}
	return u.State
}

// kept reports that a prompt stays listed although it is no longer true.
func (u Use) kept() bool { return u.State == UseTaken || u.State == UseSaid || u.Pinned != "" }

// Table is what co-hosts share besides the prompts.
type Table struct {
	Rev   uint64
	Notes []TableNote // oldest first
}

// TableNote is a note for the others at the table.
type TableNote struct {
	ID   string // of the act that left it
	By   string
	At   time.Time
	Text string
}
