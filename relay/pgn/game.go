package pgn

// Game is one game as a text tells it. Nothing in it has been checked against
// the rules of chess: moves are words, and clocks are what somebody wrote.
type Game struct {
	Tags     []Tag
	Comments []Comment // before the first move
	Moves    []Move    // the main line, in order
	Result   string    // "1-0", "0-1", "1/2-1/2" or "*"; empty when the text ends before a result
	Faults   []Fault   // what was wrong with the text, in order; the rest was read all the same
	Line     int       // line of the packet where the game starts, from 1
}

// Tag is one tag pair, its value without quotes and escapes.
type Tag struct{ Name, Value string }

// Move is one move of the main line or of a variation.
type Move struct {
	SAN   string // as written, without move number and without ! and ?
	Line  int    // line of the packet, from 1
	Notes *Notes // what hangs on the move; nil for a bare one
}

// Notes is what hangs on a move.
type Notes struct {
	NAGs       []int       // numeric annotation glyphs, the suffixes ! and ? among them (PGN 8.2.3.8)
	Comments   []Comment   // behind this move and before the next
	Variations []Variation // what might have been played instead of this move
}

// Variation is a line that replaces the move it hangs on.
type Variation struct {
	Comments []Comment // before its first move
	Moves    []Move
}

// Comment is one comment, its embedded commands taken out of the text and kept.
type Comment struct {
	Text     string // white space folded, commands removed
	Commands []Command
}

// Command is an embedded command such as [%clk 0:09:58], known or not.
type Command struct {
	Name     string
	Operands []string // split at commas, quotes removed
}

// Fault names something in the text that could not be taken as it stands.
type Fault struct {
	Line   int    // line of the packet, from 1
	Reason string // one of the Fault… constants below
	Detail string // what stood there, cut to a readable length
}

// notes returns the notes, empty ones for a bare move.
func (m *Move) notes() Notes {
	if m.Notes == nil {
		return Notes{}
	}
	return *m.Notes
}

// Tag returns the value of the first tag pair of that name, or "".
func (g *Game) Tag(name string) string {
	for _, t := range g.Tags {
		if t.Name == name {
			return t.Value
		}
	}
	return ""
}
