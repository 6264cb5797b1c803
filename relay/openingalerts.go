package relay

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

const (
	openingFrom  = 5  // plies after which the first name is looked at
	openingStood = 3  // plies for which the opening has had its name before it is told
	openingLife  = 9  // plies for which the name is news
	openingMost  = 24 // plies after which it is no more

	usualGames = 20  // that reached a position, for a move there to be rare
	rareShare  = .12 // of them that played it, at most
	scoreGames = 40  // that reached a position, for their results to tell something
	scoreFrom  = 7   // plies
)

// Opening is a name from the opening code table.
type Opening struct{ Code, Name string }

// openingConditions tells how the opening is called, once its name has stood for a while, and how the
// reference has it.
func (b *Board) openingConditions(t time.Time) []Alert {
	n := len(b.Plies)
	if n == 0 || n > openingMost+openingLife || b.start.text != "" || b.Plies[n-1].Within == unknownWithin {
		return nil
	}
	out := b.knownWay(t)
	if b.Opening.Name == "" || n > openingMost || n < openingFrom {
		return out
	}
	named := b.alert(AlertOpening, clock.White, 0, t, prompt.Opening(b.in, b.Opening.Code, b.Opening.Name))
	named.Side, named.Say.Priority = "", prompt.Silent
	named.ID = fmt.Sprintf("%s-%s-%s", named.ID, b.Opening.Code, b.Opening.Name)
	out = append(out, named)
	i := slices.IndexFunc(b.Alerts, func(a Alert) bool { return a.ID == named.ID })
	if i < 0 {
		return out
	}
	if since := n - b.Alerts[i].Ply; since >= openingStood && since < openingLife {
		told := named
		told.ID, told.Say = named.ID+"-told", prompt.Opening(b.in, b.Opening.Code, b.Opening.Name)
		if hasAlert(b.Alerts, told.ID) || b.nameIsNews(b.Alerts[i].Ply) {
			b.named = b.Opening.Name
			out = append(out, told)
		}
	}
	return out
}

// nameIsNews reports whether the name that the opening got with a ply says more than the one told before, and
// is still what it is called for: no pawn has gone since, and one that a gambit gives is not back.
func (b *Board) nameIsNews(since int) bool {
	name, before := b.Opening.Name, b.named
	if before != "" && parts(name) <= parts(before) && !(strings.HasPrefix(name, before) && len(name) > len(before)) {
		return false
	}
	given := b.behindBy(clock.White) != 0
	if strings.Contains(name, "Gambit") && !strings.Contains(name, "Declined") && !given {
		return false
	}
	if bitMove(b.Plies[since].Move).To() == bitMove(b.Plies[since-1].Move).To() {
		since++ // what was taken back at once belongs to it
	}
	return b.Place(since).Types(bitboard.Pawn).Count() == b.Place(len(b.Plies)).Types(bitboard.Pawn).Count()
}

// parts is how exact the name of an opening is.
func parts(name string) int { return strings.Count(name, ":") + strings.Count(name, ",") }

// knownWay tells of a move that few games of the reference played where many came, and how those ended that
// came to a position.
func (b *Board) knownWay(t time.Time) []Alert {
	n := len(b.Plies)
	for i := n - 1; i >= max(0, n-2); i-- {
		before, known := b.KnownAt(i), b.Plies[i].Known
		if before == nil || known == nil || known.Games == 0 {
			continue
		}
		number, side := b.MoveNumber(i)
		if before.Games >= usualGames && float64(known.Games) <= rareShare*float64(before.Games) && known.Games > rareGames {
			say := prompt.SeldomPlayed(b.in, number, b.Plies[i].SAN, known.Games, before.Games, usualMove(before).SAN)
			return []Alert{b.alertAt(i, b.alert(AlertSeldom, side, 0, t, say))}
		}
	}
	for i := scoreFrom; i < n && i < scoreFrom+2; i++ {
		known := b.Plies[i].Known
		if ended := known.ended(); n-i <= 2 && ended >= scoreGames {
			number, _ := b.MoveNumber(i)
			percent := (200*known.White + 100*known.Draws + ended) / (2 * ended)
			a := b.alert(AlertKnownScore, clock.White, 0, t, prompt.KnownScore(b.in, number, known.Games, percent))
			a.Side = ""
			return []Alert{b.alertAt(scoreFrom, a)}
		}
	}
	return nil
}

// ended is how many games that reached a position have a known result.
func (k *Known) ended() int {
	if k == nil {
		return 0
	}
	return k.White + k.Draws + k.Black
}
