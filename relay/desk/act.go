package desk

import "time"

// Act is an action done at a desk. It is done once: another of the same ID is taken for
// the same one, sent again. Which fields count is said by the action.
type Act struct {
	At     time.Time `json:"-"`
	ID     string    `json:"id"`
	Who    string    `json:"who,omitempty"` // "" acts for whoever leads
	Action string    `json:"action"`        // Action.Name
	Over   bool      `json:"over,omitempty"`
	Board  int       `json:"board,omitempty"`
	Ply    int       `json:"ply,omitempty"`
	Move   int       `json:"move,omitempty"`
	SAN    string    `json:"san,omitempty"`
	From   string    `json:"from,omitempty"`
	To     string    `json:"to,omitempty"`
	Text   string    `json:"text,omitempty"`
	On     *bool     `json:"on,omitempty"` // nil: the other way than now
	// Seconds of a challenge; 0: as many as usual.
	Seconds int      `json:"seconds,omitempty"`
	Hints   []string `json:"hints,omitempty"`
	Prompt  string   `json:"prompt,omitempty"`
	Steps   int      `json:"steps,omitempty"`
}

// When returns the time of the act.
func (a Act) When() time.Time { return a.At }
