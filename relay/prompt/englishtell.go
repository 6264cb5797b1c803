package prompt

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

func (english) InPreparation(name, opponent string, moves int, gained time.Duration) Words {
	w := Words{Ends: "when the tell changes"}
	stands := clock.Format(gained.Abs()) + " below"
	switch {
	case gained.Abs() < time.Second:
		stands = "at"
	case gained > 0:
		stands = clock.Format(gained) + " above"
	}
	w.Evidence = fmt.Sprintf("after %d timed moves the clock stood %s its start", moves, stands)
	switch {
	case opponent != "":
		w.Text = fmt.Sprintf("%s is still in preparation while %s is thinking.", name, opponent)
	case gained > 0:
		w.Text = fmt.Sprintf("%s still plays from preparation: the clock stands above its start.", name)
	default:
		w.Text = fmt.Sprintf("%s still plays from preparation.", name)
	}
	return w
}

func (english) BothPrepared(moves int, gained time.Duration) Words {
	return Words{
		Text:     "Both still play from preparation: their clocks stand above the start.",
		Evidence: fmt.Sprintf("after %s that were timed, both by %s or more", englishMoves(moves), clock.Format(gained)),
		Ends:     "when the tell changes",
	}
}

func (e english) LeftPreparation(name string, move int, spent, lately time.Duration, longest bool) Words {
	w := Words{
		Text:     fmt.Sprintf("%s is out of preparation by move %s.", name, e.Number(move)),
		Evidence: joined(e.onMove(spent, move), e.lately(lately)),
		Ends:     "two moves later",
	}
	if longest {
		w.Evidence = e.onMove(spent, move)
		w.Text = fmt.Sprintf("%s is out of preparation: %s on move %s.", name, e.Span(spent), e.Number(move))
	}
	return w
}

func (english) onMove(spent time.Duration, move int) string {
	return fmt.Sprintf("%s on move %d", clock.Format(spent), move)
}

func (english) lately(d time.Duration) string { return clock.Format(d) + " a move lately" }

func (english) Prepared(low, median, high, games int) string {
	return fmt.Sprintf("usually %d moves of preparation (%d to %d in half of %d games)", median, low, high, games)
}

func (e english) BackInPreparation(name string, move int, lately time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s seems to know the moves again, since move %s.", name, e.Number(move)),
		Evidence: e.lately(lately),
		Ends:     "two moves later",
	}
}

func (e english) FirstThink(name string, move int, spent time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("That was %s's first long think: %s on move %s.", name, e.Span(spent), e.Number(move)),
		Evidence: e.onMove(spent, move),
		Ends:     "two moves later",
	}
}

func (english) QuickUnknown(name string, spent time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s plays at once in a new position: deep preparation, or a bluff.", name),
		Evidence: fmt.Sprintf("%s for a move outside the reference games that nothing forced", clock.Format(spent)),
		Ends:     "when a slower move comes",
	}
}
