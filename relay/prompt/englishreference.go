package prompt

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

func (e english) Novelty(n New) Words {
	w := Words{Ends: "three moves later"}
	move := e.Number(n.Move)
	switch {
	case n.Elsewhere > 0:
		w.Text = speakable(fmt.Sprintf("Move %s, %s, is new among the games counted.", move, e.Spoken(n.SAN)),
			fmt.Sprintf("Move %s is new among the games counted.", move))
	case n.Reached == 1 && n.Went != "":
		w.Text = speakable(fmt.Sprintf("A new position: the only game here went %s on move %s.", e.Spoken(n.Went), move),
			fmt.Sprintf("A new position: the only game here went %s.", e.Spoken(n.Went)))
	case n.Reached == 1:
		w.Text = fmt.Sprintf("A new position: the only game to get here ended before move %s.", move)
	default:
		w.Text = speakable(fmt.Sprintf("Move %s is new: of %s games here, none played %s.", move, e.Count(n.Reached), e.Spoken(n.SAN)),
			fmt.Sprintf("Move %s is new: of %s games here, none played it.", move, e.Count(n.Reached)))
	}
	w.Evidence = joined(
		some(n.Usual != "", fmt.Sprintf("most played: %s %d of %d", n.Usual, n.UsualGames, n.Reached)),
		some(n.Last != "", "last game: "+n.Last+some(n.Went != "", ", "+n.Went)),
		some(n.Elsewhere == 1, "1 game that is not counted has it"),
		some(n.Elsewhere > 1, fmt.Sprintf("%d games that are not counted have it", n.Elsewhere)),
	)
	return w
}

func (e english) Rare(f Few) Words {
	w := Words{
		Text:     fmt.Sprintf("Only %s games have come to this position.", e.Number(f.Games)),
		Evidence: joined(fmt.Sprintf("after move %d, %s", f.Move, f.SAN), some(f.Last != "", "last: "+f.Last+some(f.Went != "", ", "+f.Went))),
		Ends:     "three moves later",
	}
	if f.Games == 1 {
		w.Text = "Only one game has come to this position."
	}
	return w
}

func (english) FeedStale(feed string, silence time.Duration) Words {
	return Words{
		Text:     "No news from the hall: clocks and moves may be behind.",
		Evidence: fmt.Sprintf("feed %s: no good answer for more than %s", feed, clock.Format(silence)),
		Ends:     "when the feed answers",
	}
}
