package prompt

import (
	"fmt"

	"clocktell/relay/opinion"
)

// standing says how somebody stands, behind "the engine has".
func (e english) standing(j Judgement) string {
	name, halves := j.better()
	switch {
	case name == "":
		return "it level"
	case j.mate() > 0:
		return fmt.Sprintf("mate in %s for %s", e.Number(j.mate()), name)
	case j.outlook() == opinion.Won:
		return name + " winning"
	}
	return fmt.Sprintf("%s %s better", name, e.ahead(halves))
}

// scored is a score as a figure from White's view: "+1.35", "−0.40", "mate in 3 for Black".
func (english) scored(s opinion.Score) string {
	bound := map[opinion.Bound]string{opinion.AtLeast: "at least ", opinion.AtMost: "at most "}[s.Bound]
	switch {
	case s.Mate > 0:
		return fmt.Sprintf("%smate in %d for White", bound, s.Mate)
	case s.Mate < 0:
		return fmt.Sprintf("%smate in %d for Black", bound, -s.Mate)
	}
	return bound + pawnFigure(s.Centipawns)
}

const englishView = "from White's view: "

var englishTurns = [...][2]string{ // behind the move, and behind "that"
	turnOver:  {"turns it", "That turns it"},
	winGone:   {"lets the win go", "That lets the win go"},
	winLess:   {"lets much of the win slip", "That lets much slip"},
	edgeGone:  {"gives the edge away", "That gives the edge away"},
	turnLoses: {"loses", "That loses"},
}

func (e english) Turned(t Turn) Words {
	turn := englishTurns[t.turn()]
	end := ": the engine has " + e.standing(t.Is) + "."
	return Words{
		Text: speakable(e.move(t.SAN)+" "+turn[0]+end, turn[1]+end),
		Evidence: fmt.Sprintf("%s%s before with %s (depth %d), %s after %s (depth %d)",
			englishView, e.scored(t.Was.Score), t.Best, t.Depths[0], e.scored(t.Is.Score), t.Answer, t.Depths[1]),
		Ends: englishTwoPlies,
	}
}

const englishTwoPlies = "a move later"

func (e english) MissedMate(m Missed) Words {
	return Words{
		Text:     fmt.Sprintf("%s has missed a mate in %s, says the engine.", m.Name, e.Number(m.In)),
		Evidence: fmt.Sprintf("%s (depth %d); %s%s after the move played", m.Line, m.Depth, englishView, e.scored(m.Is.Score)),
		Ends:     englishTwoPlies,
	}
}

func (e english) OnlyMove(o Only) Words {
	text := fmt.Sprintf("Only one move holds for %s, says the engine", o.Name)
	switch {
	case o.Wins:
		text = fmt.Sprintf("Only one move wins for %s, says the engine", o.Name)
	case o.Ahead:
		text = fmt.Sprintf("Only one move keeps %s ahead, says the engine", o.Name)
	}
	other := map[opinion.Natural]string{
		opinion.Recapture: ", and it is not the recapture", opinion.TakesFree: ", and it is not the capture", opinion.MostPlayed: ", and it is not the usual one",
	}[o.NotNatural]
	return Words{
		Text: speakable(text+other+".", text+"."),
		Evidence: fmt.Sprintf("%s%s with %s, %s with %s (depth %d)",
			englishView, e.scored(o.Best.Score), o.Line, e.scored(o.Second.Score), o.SecondLine, o.Depth),
		Ends: "with the next move",
	}
}

func (e english) Refuted(r Refuted) Words {
	what := fmt.Sprintf("Taking back on %s fails", r.Square)
	switch r.Why {
	case opinion.TakesFree:
		what = fmt.Sprintf("Taking the %s on %s fails", englishMen[r.Man], r.Square)
	case opinion.MostPlayed:
		what = "The usual move here fails"
	}
	return Words{
		Text: speakable(fmt.Sprintf("%s to %s, says the engine.", what, e.Spoken(r.Answer)), what+", says the engine."),
		Evidence: fmt.Sprintf("%s%s with %s, %s with %s (depth %d)",
			englishView, e.scored(r.Was.Score), r.Best, e.scored(r.Is.Score), r.Line, r.Depth),
		Ends: "with the next move",
	}
}

func (e english) FirstChoice(f First) Words {
	w := Words{
		Evidence: fmt.Sprintf("%s%s, with %s (depth %d)", englishView, e.scored(f.Is.Score), f.Line, f.Depth),
		Ends:     englishTwoPlies,
	}
	switch {
	case f.Only:
		w.Text = fmt.Sprintf("%s has found the only move, says the engine.", f.Name)
	case f.Square != "":
		w.Text = fmt.Sprintf("The sacrifice on %s is the engine's first choice too.", f.Square)
	case f.Think:
		w.Text = fmt.Sprintf("After the long think %s has found the engine's first choice.", f.Name)
	default:
		w.Text = speakable(fmt.Sprintf("The new move, %s, is the engine's first choice too.", e.Spoken(f.SAN)),
			"The new move is the engine's first choice too.")
	}
	return w
}

func (e english) HardThink(h Hardness) Words {
	good := "only one good move"
	if h.Good > 1 {
		good = fmt.Sprintf("only %s good moves", e.Number(h.Good))
	}
	return Words{
		Text:     fmt.Sprintf("%s thinks long, and it is hard: the engine sees %s.", h.Name, good),
		Evidence: joined(h.Clock, e.choice(h.Choice)),
		Ends:     "when the move comes",
	}
}

func (e english) EasyThink(h Hardness) Words {
	return Words{
		Text:     fmt.Sprintf("%s thinks long, though the engine has at least %s moves as good.", h.Name, e.Number(h.Good)),
		Evidence: joined(h.Clock, e.choice(h.Choice)),
		Ends:     "when the move comes",
	}
}

func (e english) QuietPosition(moves int, c opinion.Choice, best Judgement) Words {
	return Words{
		Text:     fmt.Sprintf("A quiet stretch: the engine has had it level for %s moves.", e.Number(moves)),
		Evidence: fmt.Sprintf("%s%s; %s", englishView, e.scored(best.Score), e.choice(c)),
		Ends:     "with the next move",
	}
}

// choice says how hard a choice is in figures.
func (english) choice(c opinion.Choice) string {
	return fmt.Sprintf("%d of %d lines are good; the second gives away %.2f of a point; first choice the same since depth %d of %d",
		c.Good, c.Lines, c.Gap, c.Settled, c.Depth) + some(c.Changes > 1, fmt.Sprintf(", after %d changes", c.Changes))
}

// move begins a sentence with a move: "Knight d3", "The move c4".
func (e english) move(san string) string {
	if m := apart(san); m.man == 0 && m.castles == "" {
		return "The move " + e.Spoken(san)
	}
	return capital(e.Spoken(san))
}
