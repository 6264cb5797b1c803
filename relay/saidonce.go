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
	about string // the game and the side
	text  string
	at    time.Time
	dull  bool // it was of the background
}

// again returns for how long it is not said again.
func (s saidOnce) again() time.Duration {
	if s.dull {
		return promptsDull
	}
	return promptsAgain
}

// aboutOf names the game and the side that an alert is about.
func aboutOf(a Alert) string {
	about, _, _ := strings.Cut(a.ID, string(a.Kind))
	return about + a.Side
}

// repeats reports whether the sentence of an alert was said of its game not long ago. A
// silent feed is told every time: what the panel shows of it is not news but a warning.
func (p Prompts) repeats(a Alert, at time.Time) bool {
	return a.Say.Kind != prompt.KindFeed && slices.ContainsFunc(p.said, func(s saidOnce) bool {
		return s.text == a.Say.Text && s.about == aboutOf(a) && at.Sub(s.at) < s.again()
	})
}

// noted keeps the sentence of an alert, and forgets those said long ago.
func (p Prompts) noted(a Alert, at time.Time) Prompts {
	old := func(s saidOnce) bool { return at.Sub(s.at) >= s.again() }
	s := saidOnce{about: aboutOf(a), text: a.Say.Text, at: at, dull: a.Say.Priority == prompt.Background}
	p.said = append(slices.DeleteFunc(slices.Clone(p.said), old), s)
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
