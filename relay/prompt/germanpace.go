package prompt

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

const germanThree = "drei Züge später"

func (german) HalfTime(name string, move int, left time.Duration) Words {
	return Words{Text: fmt.Sprintf("%s hat noch die Hälfte der Anfangszeit.", name), Evidence: fmt.Sprintf("%s nach Zug %d", clock.Format(left), move), Ends: germanThree}
}

func (g german) Below(name, other string, limit, left time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s hat weniger als %s, %s noch über %s.", name, g.Span(limit), other, g.Number(wholeMinutes(left))),
		Evidence: fmt.Sprintf("%s hat %s", other, clock.Format(left)), Ends: germanThree,
	}
}

func (g german) BothBelow(limit time.Duration) Words {
	return Words{Text: fmt.Sprintf("Beide Uhren zeigen jetzt weniger als %s.", g.Span(limit)), Evidence: "die zweite kam gerade unter " + clock.Format(limit), Ends: germanThree}
}

func (german) UnderHalf(name, other string, mine, yours time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s hat nicht einmal halb so viel Zeit wie %s.", name, other),
		Evidence: fmt.Sprintf("%s gegen %s", clock.Format(mine), clock.Format(yours)), Ends: germanThree,
	}
}

func (g german) FiveMoves(slow, quick string, long, short time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("Fünf Züge von %s dauerten mehr als %s so lange wie fünf von %s.", slow, g.times(int(long/short)), quick),
		Evidence: fmt.Sprintf("%s gegen %s für je fünf Züge", clock.Format(long), clock.Format(short)), Ends: germanThree,
	}
}

func (g german) Longest(name string, move int, spent time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("Das längste Nachdenken der Partie bisher: %s, %s.", name, g.Span(spent)),
		Evidence: g.forMove(spent, move), Ends: germanThree,
	}
}

func (g german) AtOnce(name, other string, spent time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s antwortet sofort, %s hatte %s nachgedacht.", name, other, g.Span(spent)),
		Evidence: clock.Format(spent) + " für den Zug davor, für diesen ein Augenblick", Ends: germanThree,
	}
}

func (g german) AboveStart(moves int, least time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("Nach Zug %s zeigen beide Uhren mehr als zu Beginn.", g.Number(moves)),
		Evidence: "beide um mindestens " + clock.Format(least), Ends: germanThree,
	}
}

func (g german) QuickMoves(name string, moves int, most time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s hat die letzten %s Züge fast sofort gespielt.", name, g.Number(moves)),
		Evidence: "keiner brauchte länger als " + clock.Format(most), Ends: germanThree,
	}
}

func (g german) SlowMoves(name string, moves int, least time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("Die letzten %s Züge kosteten %s jeweils mindestens %s.", g.Number(moves), name, g.Span(atLeast(least))),
		Evidence: clock.Format(least) + " für den schnellsten davon", Ends: germanThree,
	}
}

func (g german) Average(quick, slow string, short, long time.Duration, moves int) Words {
	return Words{
		Text:     fmt.Sprintf("%s braucht im Schnitt %s pro Zug, %s %s.", quick, g.mean(short), slow, g.mean(long)),
		Evidence: fmt.Sprintf("über %s: %s gegen %s", germanMoves(moves, "1 Zug"), clock.Format(short), clock.Format(long)), Ends: germanThree,
	}
}

// mean says what a move takes, in seconds as long as there are not too many.
func (g german) mean(d time.Duration) string {
	if d < meanMinutes {
		return g.Number(max(2, int(d.Round(time.Second)/time.Second))) + " Sekunden"
	}
	return "etwa " + g.Number(int(d.Round(time.Minute)/time.Minute)) + " Minuten"
}

func (g german) LevelClocks(moves int, by time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("Nach Zug %s stehen beide Uhren gleich.", g.Number(moves)),
		Evidence: clock.Format(by) + " Unterschied", Ends: germanThree,
	}
}

func (g german) Unspent(name string, moves int, left, start time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("Nach Zug %s hat %s noch %s von %s Minuten.", g.Number(moves), name, g.Number(wholeMinutes(left)), g.Number(wholeMinutes(start))),
		Evidence: fmt.Sprintf("%s von %s", clock.Format(left), clock.Format(start)), Ends: germanThree,
	}
}

func (german) AheadNow(name, other string, by time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s hat zum ersten Mal seit Langem mehr Zeit als %s.", name, other),
		Evidence: clock.Format(by) + " Vorsprung, zum ersten Mal seit der Eröffnung", Ends: germanThree,
	}
}

func (g german) Surge(name string, moves, before int, lately, earlier time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("Die letzten %s Züge von %s dauerten länger als die %s davor zusammen.", g.Number(moves), name, g.Number(before)),
		Evidence: fmt.Sprintf("%s gegen %s", clock.Format(lately), clock.Format(earlier)), Ends: germanThree,
	}
}

func (g german) Regained(name string, moves int, by time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s hat in %s Zügen %s auf der Uhr zurückgewonnen.", name, g.Number(moves), g.Span(by)),
		Evidence: "so viel zeigt die Uhr jetzt länger: " + clock.Format(by), Ends: germanThree,
	}
}

func (g german) Recall(name string, move int, spent time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("Am längsten dachte %s bisher über Zug %s nach: %s.", name, g.Number(move), g.Span(spent)),
		Evidence: g.forMove(spent, move), Ends: germanThree,
	}
}

func (g german) MinuteMoves(name string, moves int) Words {
	return Words{
		Text:     fmt.Sprintf("%s hat schon %s Züge hintereinander mit weniger als einer Minute gespielt.", name, g.Number(moves)),
		Evidence: "jedes Mal unter 1:00", Ends: germanThree,
	}
}
