package prompt

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

const germanTwoMoves = "zwei Züge später"

func (german) InPreparation(name, opponent string, moves int, gained time.Duration) Words {
	w := Words{Ends: "sobald die Uhr etwas anderes verrät"}
	stands := clock.Format(gained.Abs()) + " unter"
	switch {
	case gained.Abs() < time.Second:
		stands = "auf"
	case gained > 0:
		stands = clock.Format(gained) + " über"
	}
	after := fmt.Sprintf("nach %d Zügen", moves)
	if moves == 1 {
		after = "nach 1 Zug"
	}
	w.Evidence = fmt.Sprintf("%s mit bekannter Zeit stand die Uhr %s dem Anfangswert", after, stands)
	switch {
	case opponent != "":
		w.Text = fmt.Sprintf("%s spielt noch aus der Vorbereitung, während %s schon nachdenkt.", name, opponent)
	case gained > 0:
		w.Text = fmt.Sprintf("%s spielt noch aus der Vorbereitung: Die Uhr zeigt mehr als zu Beginn.", name)
	default:
		w.Text = fmt.Sprintf("%s spielt noch aus der Vorbereitung.", name)
	}
	return w
}

func (german) BothPrepared(moves int, gained time.Duration) Words {
	return Words{
		Text:     "Beide spielen noch aus der Vorbereitung: Die Uhren zeigen mehr als zu Beginn.",
		Evidence: fmt.Sprintf("nach %d gemessenen Zügen beide um mindestens %s", moves, clock.Format(gained)),
		Ends:     "sobald die Uhr etwas anderes verrät",
	}
}

func (g german) LeftPreparation(name string, move int, spent, lately time.Duration, longest bool) Words {
	w := Words{
		Text:     fmt.Sprintf("%s ist spätestens seit Zug %s aus der Vorbereitung.", name, g.Number(move)),
		Evidence: joined(g.forMove(spent, move), g.lately(lately)),
		Ends:     germanTwoMoves,
	}
	if longest {
		w.Evidence = g.forMove(spent, move)
		w.Text = fmt.Sprintf("%s ist aus der Vorbereitung: %s für Zug %s.", name, g.Span(spent), g.Number(move))
	}
	return w
}

func (german) forMove(spent time.Duration, move int) string {
	return fmt.Sprintf("%s für Zug %d", clock.Format(spent), move)
}

func (german) lately(d time.Duration) string { return "zuletzt " + clock.Format(d) + " pro Zug" }

func (german) Prepared(low, median, high, games int) string {
	return fmt.Sprintf("sonst meist %s Vorbereitung (%d bis %d in der Hälfte von %d Partien)", germanMoves(median, "1 Zug"), low, high, games)
}

func (g german) BackInPreparation(name string, move int, lately time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s scheint sich seit Zug %s wieder auszukennen.", name, g.Number(move)),
		Evidence: g.lately(lately),
		Ends:     germanTwoMoves,
	}
}

func (g german) FirstThink(name string, move int, spent time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("Das war das erste lange Nachdenken von %s: %s für Zug %s.", name, g.Span(spent), g.Number(move)),
		Evidence: g.forMove(spent, move),
		Ends:     germanTwoMoves,
	}
}

func (german) QuickUnknown(name string, spent time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s spielt in neuer Stellung sofort: tiefe Vorbereitung oder ein Bluff.", name),
		Evidence: fmt.Sprintf("%s für einen Zug, den keine Vergleichspartie kennt und den nichts erzwang", clock.Format(spent)),
		Ends:     "sobald ein langsamerer Zug kommt",
	}
}
