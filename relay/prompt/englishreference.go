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

func (english) Opening(code, name string) Words {
	return Words{Text: "The opening is the " + name + ".", Evidence: "code " + code + " of the table of openings", Ends: "three moves later"}
}

func (e english) SeldomPlayed(move int, san string, games, of int, usual string) Words {
	return Words{
		Text: speakable(fmt.Sprintf("A rare choice: only %s of %s games here went %s.", e.Count(games), e.Count(of), e.Spoken(san)),
			fmt.Sprintf("A rare choice: only %s of %s games went so.", e.Count(games), e.Count(of))),
		Evidence: joined(fmt.Sprintf("%d of %d games on move %d", games, of, move), some(usual != "", "most played: "+usual)),
		Ends:     "a move later",
	}
}

func (e english) KnownScore(move, games, percent int) Words {
	return Words{
		Text:     fmt.Sprintf("White scored %s percent in the %s games that came to this position.", e.Number(percent), e.Count(games)),
		Evidence: fmt.Sprintf("%d games after move %d, draws counted as half", games, move),
		Ends:     "a move later",
	}
}
