package prompt

import "clocktell/relay/opinion"

// Judgement is a score as it is spoken of. White and Black are how the sides are called.
type Judgement struct {
	opinion.Score
	White, Black string
}

// better returns who stands better and by how many half pawns, "" where it is level. A
// bound is taken for its figure: what is said rests on the side it proves.
func (j Judgement) better() (name string, halves int) {
	const half = 50 // centipawns
	name, cp := j.White, j.Centipawns
	if cp < 0 || j.Mate < 0 {
		name, cp = j.Black, -cp
	}
	switch j.outlook() {
	case opinion.Level:
		return "", 0
	default:
		return name, max(1, (cp+half/2)/half)
	}
}

// outlook is that of whoever stands better.
func (j Judgement) outlook() opinion.Outlook {
	exact := j.Score
	exact.Bound = opinion.Exact
	white, _ := exact.Outlooks(true)
	return max(white, -white)
}

// mate returns in how many moves somebody mates, 0 if nobody does.
func (j Judgement) mate() int { return max(j.Mate, -j.Mate) }

// Turn is a move that changed the outlook.
type Turn struct {
	Name         string // whose move it was
	SAN          string // the move
	Was, Is      Judgement
	From, To     opinion.Outlook // of the mover
	Great        bool
	Best, Answer string // lines with numbers: what should have been played, and the move with the answer to it
	Depths       [2]int // plies, before and after
}

// Missed is a mate that was not played.
type Missed struct {
	Name  string
	In    int // moves
	Is    Judgement
	Line  string
	Depth int
}

// Only is a move without which the game, or the win, is gone. The sentence does not name it.
type Only struct {
	Name             string
	Wins, Ahead      bool            // with the move it wins, or it is better and does not win
	NotNatural       opinion.Natural // the natural move is another, and why it is natural; NotNatural: there is none
	Best, Second     Judgement
	Line, SecondLine string
	Depth            int
}

// Refuted is a natural move that fails.
type Refuted struct {
	Why        opinion.Natural
	Square     string // where it goes
	Man        byte   // what it takes, 0 for a pawn
	Answer     string // its reply, in SAN
	Was, Is    Judgement
	Best, Line string
	Depth      int
}

// First is a move that was the engine's first choice. Why it is worth a word is one of these.
type First struct {
	Name   string
	SAN    string
	Only   bool
	Square string // where something was offered; "" nothing was
	Think  bool   // it came after a long think
	New    bool   // no game of the reference has it
	Is     Judgement
	Line   string
	Depth  int
}

// Hardness is a choice that somebody thinks about.
type Hardness struct {
	Name  string
	Clock string // the evidence of the long think
	opinion.Choice
}

// engineWords are what a language has to say of what the engine thinks. The functions of the same names
// say what each is.
type engineWords interface {
	Turned(t Turn) Words
	MissedMate(m Missed) Words
	OnlyMove(o Only) Words
	Refuted(r Refuted) Words
	FirstChoice(f First) Words
	HardThink(h Hardness) Words
	EasyThink(h Hardness) Words
	QuietPosition(moves int, c opinion.Choice, best Judgement) Words
}

// Turned: the move just played changed the outlook.
func Turned(in Language, t Turn) Prompt {
	priority := Soon
	if t.Great {
		priority = Now
	}
	return in.Turned(t).said(KindEngine, priority)
}

// MissedMate: a short mate was there and was not played.
func MissedMate(in Language, m Missed) Prompt { return in.MissedMate(m).said(KindEngine, Soon) }

// OnlyMove: all moves but one lose, or give a win away. It is of use only until the move comes.
func OnlyMove(in Language, o Only) Prompt { return in.OnlyMove(o).said(KindEngine, Now) }

// RefutedMove: the natural move fails, and to what.
func RefutedMove(in Language, r Refuted) Prompt { return in.Refuted(r).said(KindEngine, Now) }

// FirstChoice: the move just played is the engine's own, although it did not look like it.
func FirstChoice(in Language, f First) Prompt { return in.FirstChoice(f).said(KindEngine, Soon) }

// HardThink: a side thinks long, and the choice is hard.
func HardThink(in Language, h Hardness) Prompt { return in.HardThink(h).said(KindEngine, Soon) }

// EasyThink: a side thinks long, although several moves are as good as each other.
func EasyThink(in Language, h Hardness) Prompt { return in.EasyThink(h).said(KindEngine, Soon) }

// QuietPosition: the engine has had it level for so many moves, and nothing is at stake for the moment.
func QuietPosition(in Language, moves int, c opinion.Choice, best Judgement) Prompt {
	return in.QuietPosition(moves, c, best).said(KindEngine, Background)
}

// turnCase is how a swing is told, by how the mover stood and stands.
type turnCase uint8

const (
	turnOver  turnCase = iota // from one side to the other, or worse and not lost yet
	winGone                   // won, now level
	winLess                   // won, now only better
	edgeGone                  // better, now level
	turnLoses                 // lost now
)

func (t Turn) turn() turnCase {
	switch {
	case t.To == opinion.Lost:
		return turnLoses
	case t.From == opinion.Won && t.To == opinion.Level:
		return winGone
	case t.From == opinion.Won && t.To == opinion.Better:
		return winLess
	case t.From == opinion.Better && t.To == opinion.Level:
		return edgeGone
	}
	return turnOver
}
