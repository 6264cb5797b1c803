package relay

import (
	"slices"
	"strings"
	"time"

	"clocktell/relay/prompt"
)

// saidOnce is a sentence that was put on the panel. Conditions near their limit come and
// go, with every move for a side that lives on its increment; the sentence is news once.
type saidOnce struct {
	game   string
	side   string
	move   int // full move in which it was said
	text   string
	at     time.Time
	urgent bool
}

// saidMostOf is how many sentences of one game are remembered.
const saidMostOf = 400

// saidOf returns what was said of the game on a board.
func (p Prompts) saidOf(board int) []saidOnce {
	if board < len(p.said) {
		return p.said[board]
	}
	return nil
}

// gameOf names the game that an alert is about.
func gameOf(a Alert) string {
	game, _, _ := strings.Cut(a.ID, string(a.Kind))
	return game
}

// repeats reports whether the sentence of an alert was said of its game before; one that is
// urgent, not long ago. A silent feed is told every time: what the panel shows of it is not
// news but a warning. So is the match: what a result had made untrue, and a correction
// makes true again.
func (p Prompts) repeats(board int, a Alert, at time.Time) bool {
	return a.Say.Kind != prompt.KindFeed && a.Say.Kind != prompt.KindMatch && slices.ContainsFunc(p.saidOf(board), func(s saidOnce) bool {
		return s.text == a.Say.Text && s.game == gameOf(a) && s.side == a.Side && (!s.urgent || at.Sub(s.at) < promptsAgain)
	})
}

// stands reports whether another board has the sentence of an alert on the panel: what
// each of two games means for a match may be the same.
func (p Prompts) stands(a Alert) bool {
	return a.Say.Kind == prompt.KindMatch && slices.ContainsFunc(p.Items, func(i BoardPrompt) bool {
		return i.Kind == prompt.KindMatch && i.Text == a.Say.Text && i.Withdrawn.IsZero()
	})
}

// noted keeps the sentence of an alert, and forgets those of the game before.
func (p Prompts) noted(of juncture, a Alert, at time.Time) Prompts {
	s := saidOnce{game: gameOf(a), side: a.Side, move: of.moveOf(a), text: a.Say.Text, at: at, urgent: a.Say.Priority == prompt.Now}
	game := slices.DeleteFunc(slices.Clone(p.saidOf(of.board)), func(old saidOnce) bool { return old.game != s.game })
	game = append(game[max(0, len(game)-saidMostOf+1):], s)
	said := make([][]saidOnce, max(len(p.said), of.board+1))
	copy(said, p.said)
	said[of.board], p.said = game, said
	return p
}

// revived returns the list with the prompt of an alert standing again that was withdrawn
// but is still listed with the same words, and false if there is none.
func (p Prompts) revived(a Alert) (Prompts, bool) {
	for i := range p.Items {
		item := &p.Items[i]
		if item.Alert.ID == a.ID && item.Text == a.Say.Text && item.Kind != prompt.KindFeed && !item.Withdrawn.IsZero() {
			p.Rev, p.Items = p.Rev+1, slices.Clone(p.Items)
			p.Items[i].Withdrawn = time.Time{}
			return p, true
		}
	}
	return p, false
}

// inMove counts what was said in the same full move of the game of an alert.
func (p Prompts) inMove(of juncture, a Alert) int {
	n := 0
	for _, s := range p.saidOf(of.board) {
		if s.game == gameOf(a) && s.move == of.moveOf(a) {
			n++
		}
	}
	return n
}
