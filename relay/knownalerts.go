package relay

import (
	"fmt"
	"strings"
	"time"

	"clocktell/relay/prompt"
)

const (
	noveltyPlies = 6 // how long a new move stays worth saying
	rareGames    = 5 // so few games, and each is worth naming
)

// referenceConditions lists what the reference has to say about the last moves.
func (b *Board) referenceConditions(t time.Time) []Alert {
	if i := b.Novelty(); i >= 0 {
		if len(b.Plies)-i > noveltyPlies || b.Plies[i].Within == unknownWithin {
			return nil
		}
		return []Alert{b.noveltyAlert(i, t)}
	}
	if i := b.firstRare(); i >= 0 && len(b.Plies)-i <= noveltyPlies && b.Plies[i].Within != unknownWithin {
		return []Alert{b.rareAlert(i, t)}
	}
	return nil
}

// firstRare returns the index of the ply with which the game entered a position that
// only a few games reached, coming from one that more did; -1: none.
func (b *Board) firstRare() int {
	for i := range b.Plies {
		known, before := b.Plies[i].Known, b.KnownAt(i)
		if known != nil && before != nil && known.Games > 0 && known.Games <= rareGames && before.Games > rareGames {
			return i
		}
	}
	return -1
}

func (b *Board) noveltyAlert(i int, t time.Time) Alert {
	number, side := b.MoveNumber(i)
	before, known := b.KnownAt(i), b.Plies[i].Known
	usual := usualMove(before)
	say := prompt.Novelty(b.in, prompt.New{
		Move: number, SAN: b.Plies[i].SAN, Reached: before.Games, Elsewhere: known.All,
		Usual: usual.SAN, UsualGames: usual.Games, Last: gameWords(before.Last), Went: before.Last.Went,
	})
	return b.alertAt(i, b.alert(AlertNovelty, side, 0, t, say))
}

func (b *Board) rareAlert(i int, t time.Time) Alert {
	number, side := b.MoveNumber(i)
	known := b.Plies[i].Known
	say := prompt.Rare(b.in, prompt.Few{
		Move: number, SAN: b.Plies[i].SAN, Games: known.Games, Last: gameWords(known.Last), Went: known.Last.Went,
	})
	return b.alertAt(i, b.alert(AlertRare, side, 0, t, say))
}

// alertAt ties an alert to the ply at index i.
func (b *Board) alertAt(i int, a Alert) Alert {
	a.ID, a.Ply = fmt.Sprintf("%s-%d", a.ID, i+1), i+1
	return a
}

// usualMove returns what was played most in a position; zero: nothing.
func usualMove(k *Known) KnownMove {
	if len(k.Moves) == 0 {
		return KnownMove{}
	}
	return k.Moves[0]
}

// gameWords names a game: "Verran – Okoye, Harbour Open 2019".
func gameWords(g KnownGame) string {
	if g.White == "" && g.Black == "" {
		return ""
	}
	text := fmt.Sprintf("%s – %s", orUnknown(g.White), orUnknown(g.Black))
	if g.Event != "" {
		text += ", " + g.Event
	}
	if year := fmt.Sprint(g.Year); g.Year > 0 && !strings.Contains(g.Event, year) {
		text += " " + year
	}
	return text
}
