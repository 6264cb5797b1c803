package prompt

import (
	"fmt"
	"strings"

	"clocktell/relay/opinion"
)

// standing says how somebody stands, behind "laut Engine".
func (g german) standing(j Judgement) string {
	name, halves := j.better()
	switch {
	case name == "":
		return "ist es ausgeglichen"
	case j.mate() > 0:
		return fmt.Sprintf("hat %s Matt in %s", name, g.dative(j.mate()))
	case j.outlook() == opinion.Won:
		return "steht " + name + " auf Gewinn"
	}
	return fmt.Sprintf("steht %s %s besser", name, g.ahead(halves))
}

// dative counts moves behind "in".
func (g german) dative(n int) string {
	if n == 1 {
		return "einem Zug"
	}
	return g.Number(n) + " Zügen"
}

// scored is a score as a figure from White's view: "+1,35", "−0,40", "Matt in 3 für Schwarz".
func (german) scored(s opinion.Score) string {
	bound := map[opinion.Bound]string{opinion.AtLeast: "mindestens ", opinion.AtMost: "höchstens "}[s.Bound]
	switch {
	case s.Mate > 0:
		return fmt.Sprintf("%sMatt in %d für Weiß", bound, s.Mate)
	case s.Mate < 0:
		return fmt.Sprintf("%sMatt in %d für Schwarz", bound, -s.Mate)
	}
	return bound + strings.Replace(pawnFigure(s.Centipawns), ".", ",", 1)
}

const germanView = "aus Sicht von Weiß: "

var germanTurns = [...][2]string{
	turnOver:  {"kippt die Partie", "Das kippt die Partie"},
	winGone:   {"gibt den Gewinn weg", "Das gibt den Gewinn weg"},
	winLess:   {"gibt viel vom Gewinn weg", "Das gibt viel weg"},
	edgeGone:  {"gibt den Vorteil weg", "Das gibt den Vorteil weg"},
	turnLoses: {"verliert", "Das verliert"},
}

func (g german) Turned(t Turn) Words {
	turn := germanTurns[t.turn()]
	end := ": Laut Engine " + g.standing(t.Is) + "."
	return Words{
		Text: speakable(g.move(t.SAN)+" "+turn[0]+end, turn[1]+end),
		Evidence: fmt.Sprintf("%svorher %s mit %s (Tiefe %d), jetzt %s nach %s (Tiefe %d)",
			germanView, g.scored(t.Was.Score), t.Best, t.Depths[0], g.scored(t.Is.Score), t.Answer, t.Depths[1]),
		Ends: germanTwoPlies,
	}
}

const germanTwoPlies = "einen Zug später"

func (g german) MissedMate(m Missed) Words {
	return Words{
		Text:     fmt.Sprintf("%s hat laut Engine ein Matt in %s ausgelassen.", m.Name, g.dative(m.In)),
		Evidence: fmt.Sprintf("%s (Tiefe %d); nach dem gespielten Zug %s%s", m.Line, m.Depth, germanView, g.scored(m.Is.Score)),
		Ends:     germanTwoPlies,
	}
}

func (g german) OnlyMove(o Only) Words {
	text := fmt.Sprintf("Laut Engine hält für %s nur ein Zug", o.Name)
	switch {
	case o.Wins:
		text = fmt.Sprintf("Laut Engine gewinnt für %s nur ein Zug", o.Name)
	case o.Ahead:
		text = fmt.Sprintf("Laut Engine behält %s nur mit einem Zug den Vorteil", o.Name)
	}
	other := map[opinion.Natural]string{
		opinion.Recapture: ", und es ist nicht das Zurückschlagen", opinion.TakesFree: ", und es ist nicht das Schlagen", opinion.MostPlayed: ", und es ist nicht der übliche",
	}[o.NotNatural]
	return Words{
		Text: speakable(text+other+".", text+"."),
		Evidence: fmt.Sprintf("%s%s mit %s, %s mit %s (Tiefe %d)",
			germanView, g.scored(o.Best.Score), o.Line, g.scored(o.Second.Score), o.SecondLine, o.Depth),
		Ends: "mit dem nächsten Zug",
	}
}

var germanTaking = map[byte]string{'K': "des Königs", 'Q': "der Dame", 'R': "des Turms", 'B': "des Läufers", 'N': "des Springers", 0: "des Bauern"}

func (g german) Refuted(r Refuted) Words {
	what := fmt.Sprintf("Das Zurückschlagen auf %s scheitert laut Engine", r.Square)
	switch r.Why {
	case opinion.TakesFree:
		what = fmt.Sprintf("Das Schlagen %s auf %s scheitert laut Engine", germanTaking[r.Man], r.Square)
	case opinion.MostPlayed:
		what = "Der übliche Zug scheitert hier laut Engine"
	}
	return Words{
		Text: speakable(what+" an "+g.Spoken(r.Answer)+".", what+"."),
		Evidence: fmt.Sprintf("%s%s mit %s, %s mit %s (Tiefe %d)",
			germanView, g.scored(r.Was.Score), r.Best, g.scored(r.Is.Score), r.Line, r.Depth),
		Ends: "mit dem nächsten Zug",
	}
}

func (g german) FirstChoice(f First) Words {
	w := Words{
		Evidence: fmt.Sprintf("%s%s, mit %s (Tiefe %d)", germanView, g.scored(f.Is.Score), f.Line, f.Depth),
		Ends:     germanTwoPlies,
	}
	switch {
	case f.Only:
		w.Text = fmt.Sprintf("%s hat laut Engine den einzigen Zug gefunden.", f.Name)
	case f.Square != "":
		w.Text = fmt.Sprintf("Das Opfer auf %s ist auch die erste Wahl der Engine.", f.Square)
	case f.Think:
		w.Text = fmt.Sprintf("Nach langer Überlegung hat %s die erste Wahl der Engine gefunden.", f.Name)
	default:
		w.Text = speakable(fmt.Sprintf("Der neue Zug, %s, ist auch die erste Wahl der Engine.", g.Spoken(f.SAN)),
			"Der neue Zug ist auch die erste Wahl der Engine.")
	}
	return w
}

func (g german) HardThink(h Hardness) Words {
	good := "nur einen guten Zug"
	if h.Good > 1 {
		good = fmt.Sprintf("nur %s gute Züge", g.Number(h.Good))
	}
	return Words{
		Text:     fmt.Sprintf("%s überlegt lange, und es ist schwer: Die Engine sieht %s.", h.Name, good),
		Evidence: joined(h.Clock, g.choice(h.Choice)),
		Ends:     "sobald der Zug kommt",
	}
}

func (g german) EasyThink(h Hardness) Words {
	return Words{
		Text:     fmt.Sprintf("%s überlegt lange, obwohl die Engine mindestens %s gleich gute Züge sieht.", h.Name, g.Number(h.Good)),
		Evidence: joined(h.Clock, g.choice(h.Choice)),
		Ends:     "sobald der Zug kommt",
	}
}

func (g german) QuietPosition(moves int, c opinion.Choice, best Judgement) Words {
	return Words{
		Text:     fmt.Sprintf("Ruhige Phase: Seit %s Zügen sieht die Engine ein Gleichgewicht.", g.Number(moves)),
		Evidence: fmt.Sprintf("%s%s; %s", germanView, g.scored(best.Score), g.choice(c)),
		Ends:     "mit dem nächsten Zug",
	}
}

// choice says how hard a choice is in figures.
func (german) choice(c opinion.Choice) string {
	return fmt.Sprintf("%d von %d Varianten sind gut; die zweite vergibt %s eines Punktes; erste Wahl dieselbe seit Tiefe %d von %d",
		c.Good, c.Lines, strings.Replace(fmt.Sprintf("%.2f", c.Gap), ".", ",", 1), c.Settled, c.Depth) + some(c.Changes > 1, fmt.Sprintf(", nach %d Wechseln", c.Changes))
}

// move begins a sentence with a move: "Springer d3", "Der Zug c4".
func (g german) move(san string) string {
	if m := apart(san); m.man == 0 && m.castles == "" {
		return "Der Zug " + g.Spoken(san)
	}
	return capital(g.Spoken(san))
}
