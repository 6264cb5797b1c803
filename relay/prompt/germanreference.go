package prompt

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

const germanThreeMoves = "drei Züge später"

func (g german) Novelty(n New) Words {
	w := Words{Ends: germanThreeMoves}
	move := g.Number(n.Move)
	switch {
	case n.Elsewhere > 0:
		w.Text = fmt.Sprintf("Zug %s, %s, ist unter den gezählten Partien neu.", move, g.Spoken(n.SAN))
	case n.Reached == 1 && n.Went != "":
		w.Text = fmt.Sprintf("Neue Stellung: In der einzigen Vorgängerpartie kam in Zug %s %s.", move, g.Spoken(n.Went))
	case n.Reached == 1:
		w.Text = fmt.Sprintf("Neue Stellung: Die einzige Vorgängerpartie endete vor Zug %s.", move)
	default:
		w.Text = speakable(fmt.Sprintf("Neuerung in Zug %s: Hier kam in %s Partien noch nie %s.", move, g.Count(n.Reached), g.Spoken(n.SAN)),
			fmt.Sprintf("Neuerung in Zug %s: Das kam hier in %s Partien noch nie.", move, g.Count(n.Reached)))
	}
	w.Evidence = joined(
		some(n.Usual != "", fmt.Sprintf("meistgespielt: %s in %d von %d", n.Usual, n.UsualGames, n.Reached)),
		some(n.Last != "", "letzte Partie: "+n.Last+some(n.Went != "", ", "+n.Went)),
		some(n.Elsewhere == 1, "1 nicht gezählte Partie hat ihn"),
		some(n.Elsewhere > 1, fmt.Sprintf("%d nicht gezählte Partien haben ihn", n.Elsewhere)),
	)
	return w
}

func (g german) Rare(f Few) Words {
	w := Words{
		Text:     fmt.Sprintf("Nur %s Partien haben diese Stellung erreicht.", g.Number(f.Games)),
		Evidence: joined(fmt.Sprintf("nach Zug %d, %s", f.Move, f.SAN), some(f.Last != "", "zuletzt: "+f.Last+some(f.Went != "", ", "+f.Went))),
		Ends:     germanThreeMoves,
	}
	if f.Games == 1 {
		w.Text = "Nur eine Partie hat diese Stellung erreicht."
	}
	return w
}

func (german) FeedStale(feed string, silence time.Duration) Words {
	return Words{
		Text:     "Keine Nachricht aus dem Saal: Uhren und Züge könnten hinterherhinken.",
		Evidence: fmt.Sprintf("Quelle %s: seit mehr als %s keine brauchbare Antwort", feed, clock.Format(silence)),
		Ends:     "sobald die Quelle antwortet",
	}
}

func (german) Opening(code, name string) Words {
	return Words{Text: "Die Eröffnung heißt " + name + ".", Evidence: "Schlüssel " + code + " in der Tabelle der Eröffnungen", Ends: "drei Züge später"}
}

func (g german) SeldomPlayed(move int, san string, games, of int, usual string) Words {
	return Words{
		Text: speakable(fmt.Sprintf("Selten: nur %s von %s Partien gingen hier so weiter, %s.", g.Count(games), g.Count(of), g.Spoken(san)),
			fmt.Sprintf("Selten: nur %s von %s Partien gingen hier so weiter.", g.Count(games), g.Count(of))),
		Evidence: joined(fmt.Sprintf("%d von %d Partien in Zug %d", games, of, move), some(usual != "", "meist "+usual)),
		Ends:     "einen Zug später",
	}
}

func (g german) KnownScore(move, games, percent int) Words {
	return Words{
		Text:     fmt.Sprintf("Weiß holte %s Prozent in den %s Partien mit dieser Stellung.", g.Number(percent), g.Count(games)),
		Evidence: fmt.Sprintf("%d Partien nach Zug %d, Remis halb gezählt", games, move),
		Ends:     "einen Zug später",
	}
}
