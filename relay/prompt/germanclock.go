package prompt

import (
	"fmt"
	"strings"
	"time"

	"clocktell/relay/clock"
)

func (g german) LongThink(name string, move int, limit, usual time.Duration) Words {
	w := Words{
		Text:     fmt.Sprintf("%s denkt lange über Zug %s nach.", name, g.Number(move)),
		Evidence: fmt.Sprintf("mehr als %s für Zug %d, das erste Nachdenken", clock.Format(limit), move),
		Ends:     "sobald der Zug kommt",
	}
	if usual > 0 {
		w.Evidence = fmt.Sprintf("mehr als %s für Zug %d, sonst meist %s", clock.Format(limit), move, clock.Format(usual))
	}
	return w
}

const germanRecovers = "wenn sich die Uhr erholt"

func (g german) TimeTrouble(name string, level int, limit time.Duration, b Budget) Words {
	w := Words{Evidence: g.budget(b), Ends: germanRecovers}
	switch level {
	case 1:
		w.Text = fmt.Sprintf("%s verbraucht mehr Zeit, als die Uhr hergibt.", name)
	case 2:
		w.Text = fmt.Sprintf("%s ist in Zeitnot: %s auf der Uhr.", name, g.lessThan(limit))
	default:
		w.Text = fmt.Sprintf("%s hat %s auf der Uhr.", name, g.lessThan(limit))
	}
	return w
}

func (g german) OnIncrement(name string, delay bool, b Budget) Words {
	what := "vom Inkrement"
	if delay {
		what = "vom Zeitaufschub"
	}
	return Words{Text: fmt.Sprintf("%s lebt jetzt nur noch %s.", name, what), Evidence: g.budget(b), Ends: germanRecovers}
}

func (german) FlagNear(name string, limit time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("Bei %s fällt gleich das Blättchen.", name),
		Evidence: fmt.Sprintf("unter %s auf der Uhr", clock.Format(limit)),
		Ends:     germanRecovers,
	}
}

func (g german) ToControl(name string, move int, b Budget) Words {
	return Words{
		Text:     fmt.Sprintf("Für %s wird die Zeit bis zur Kontrolle in Zug %s knapp.", name, g.Number(move)),
		Evidence: g.budget(b),
		Ends:     "mit der Zeitkontrolle",
	}
}

func (german) ClockLead(name string, l Lead) Words {
	return Words{
		Text: fmt.Sprintf("%s liegt auf der Uhr klar vorn.", name),
		Evidence: joined(
			fmt.Sprintf("%s Vorsprung, als es auffiel", clock.Format(l.By)),
			fmt.Sprintf("Budget %s pro Zug gegen %s", figure(l.Mine), figure(l.Yours)),
			some(l.Moves > 0, "das sind "+germanMoves(l.Moves, "1 Zug")),
		),
		Ends: "wenn der Vorsprung schrumpft",
	}
}

func (german) CatchingUp(name string, move int, most, by time.Duration) Words {
	w := Words{Text: fmt.Sprintf("%s hat den Rückstand auf der Uhr halbiert.", name), Ends: "wenn der Rückstand wieder wächst"}
	stood := clock.Format(by.Abs()) + " zurück"
	if by <= 0 {
		w.Text = fmt.Sprintf("%s hat den Rückstand auf der Uhr aufgeholt.", name)
		stood = clock.Format(by.Abs()) + " vorn"
	}
	if by < -overtaken {
		w.Text = fmt.Sprintf("%s lag auf der Uhr zurück und liegt jetzt vorn.", name)
	}
	w.Evidence = fmt.Sprintf("nach Zug %d %s zurück; %s, als es auffiel", move, clock.Format(most), stood)
	return w
}

func (german) ClockDoubtful(name, move, doubt string) Words {
	return Words{
		Text:     fmt.Sprintf("Die Uhr von %s geht vielleicht falsch: Ihre Angaben widersprechen sich.", name),
		Evidence: move + ": " + doubt,
		Ends:     "nach zwei Angaben, die zueinander passen",
	}
}

func (g german) TimeAdded(name, move string, by time.Duration, doubt string, again bool) Words {
	came := "kam"
	if again {
		came = "kam wieder"
	}
	return Words{
		Text:     fmt.Sprintf("Auf der Uhr von %s %s Zeit dazu: mindestens %s.", name, came, g.Span(atLeast(by))),
		Evidence: move + ": " + doubt,
		Ends:     "einen Zug später",
	}
}

func (g german) budget(b Budget) string { return strings.Join(g.Outlook(b), "; ") }

func (german) Outlook(b Budget) []string {
	list := []string{"Budget " + figure(b.Move) + " pro Zug"}
	if b.Usual > 0 {
		list = append(list, "denkt sonst meist "+figure(b.Usual))
	}
	if b.ToControl > 0 {
		list = append(list, "noch "+germanMoves(b.ToControl, "1 Zug")+" bis zur Kontrolle")
	}
	switch {
	case b.AtMove > 0 && b.To > 0:
		list = append(list, fmt.Sprintf("unter %s etwa mit Zug %d (wohl %d bis %d)", figure(b.Below), b.AtMove, b.From, b.To))
	case b.AtMove > 0:
		list = append(list, fmt.Sprintf("unter %s etwa mit Zug %d (frühestens %d)", figure(b.Below), b.AtMove, b.From))
	case b.NoTrouble:
		list = append(list, "keine Zeitnot bei diesem Tempo")
	}
	return list
}

func (german) Ahead(a Ahead) string {
	return fmt.Sprintf("bei diesem Tempo etwa %s nach Zug %d (wohl %s bis %s)", clock.Format(a.Middle), a.Move, clock.Format(a.Low), clock.Format(a.High))
}

func (german) Estimated() string { return "geschätzt nach der Ankunft der Züge" }
