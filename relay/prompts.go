package relay

import (
	"maps"
	"slices"
	"time"

	"clocktell/relay/prompt"
)

const (
	promptsMost  = 40               // kept, withdrawn ones among them
	promptsFade  = 10 * time.Second // how long a withdrawn prompt is still listed, so that nobody starts it
	promptsCrowd = 3                // fresh prompts of one board within promptsSpell, or within a full move
	promptsSpell = 20 * time.Second
	promptsAgain = 5 * time.Minute // how long an urgent sentence is not said again of the same game; others never are
)

// Prompts is the panel's list, newest first.
type Prompts struct {
	Rev   uint64
	Items []BoardPrompt
	Shown map[PromptKey]uint64 // how many were ever listed, for the metrics; one that comes back is not counted again
	said  [][]saidOnce         // of the game on each board, the oldest first
	gone  []BoardPrompt        // no longer listed, the newest last
}

// BoardPrompt is a prompt with its place in the show.
type BoardPrompt struct {
	prompt.Prompt
	Alert     Alert
	Board     int       // 0: the whole show
	Withdrawn time.Time // when it stopped being true; zero while it holds
	Use       Use       // what the co-hosts did with it
}

// PromptKey is one sort of prompt.
type PromptKey struct {
	Kind     prompt.Kind
	Priority prompt.Priority
}

// juncture is when something is said: the board, the plies it has, and the full moves of the
// last of them and of the next. Zero is for the whole show.
type juncture struct{ board, plies, move, next int }

// moveOf returns the full move in which an alert is told: that of the last ply, unless it is
// of the think on the next.
func (j juncture) moveOf(a Alert) int {
	if a.Ply > j.plies {
		return j.next
	}
	return j.move
}

// juncture returns how far the board's game has come: a move that is not answered yet is its
// full move's still.
func (b *Board) juncture() juncture {
	move, _ := b.MoveNumber(max(0, len(b.Plies)-1))
	next, _ := b.MoveNumber(len(b.Plies))
	return juncture{b.Number, len(b.Plies), move, next}
}

// follow takes the alerts of one board, or of a feed, from before to now: what is raised becomes a prompt, what is cleared withdraws its
// prompt. It returns how many were raised.
func (p Prompts) follow(was, now []Alert, of juncture, at time.Time) (Prompts, int) {
	next, raised := p, 0
	for _, alert := range was {
		if !hasAlert(now, alert.ID) {
			next = next.withdrawn(alert.ID, at)
		}
	}
	urgent := 0 // still to come
	for _, alert := range now {
		if !hasAlert(was, alert.ID) {
			raised++
			urgent += next.urgency(of, alert, at)
		}
	}
	for _, alert := range now {
		if hasAlert(was, alert.ID) || alert.Say.Priority == prompt.Silent {
			continue
		}
		urgent -= next.urgency(of, alert, at)
		if back, ok := next.revived(alert); ok {
			next = back
		} else if !next.crowded(of, alert, urgent, at) && !next.repeats(of.board, alert, at) && !next.stands(alert) {
			next = next.with(BoardPrompt{Prompt: alert.Say, Alert: alert, Board: of.board}).noted(of, alert, at)
		}
	}
	return next, raised
}

// urgency returns 1 for an alert that will be said whatever else is, else 0.
func (p Prompts) urgency(of juncture, a Alert, at time.Time) int {
	if a.pressing() && !p.repeats(of.board, a, at) && !p.stands(a) {
		return 1
	}
	return 0
}

// pressing reports whether an alert is said however much else is: it is urgent, or of the
// match, of which there is little to say and never again.
func (a Alert) pressing() bool {
	return a.Say.Priority == prompt.Now || a.Say.Kind == prompt.KindMatch && a.Say.Priority != prompt.Silent
}

func hasAlert(alerts []Alert, id string) bool {
	return slices.ContainsFunc(alerts, func(a Alert) bool { return a.ID == id })
}

// crowded keeps the panel readable: past a few new prompts of a board in a short time only
// the urgent ones still come, and past a few in a full move none but of the match and the feeds. Urgent
// counts those that will, of what is raised at the same moment.
func (p Prompts) crowded(of juncture, alert Alert, urgent int, at time.Time) bool {
	if alert.pressing() {
		return of.board > 0 && alert.Say.Kind != prompt.KindMatch && p.inMove(of, alert) >= promptsCrowd // nobody can say a fourth
	}
	fresh := 0
	for _, item := range p.Items {
		if item.Board == of.board && at.Sub(item.Alert.At) < promptsSpell {
			fresh++
		}
	}
	room := promptsCrowd
	if alert.Say.Priority == prompt.Background || alert.Say.Kind == prompt.KindFacts {
		room-- // the reference may have something urgent to say of the same move a little later, and clocks come first
	}
	return fresh >= promptsCrowd || p.inMove(of, alert)+urgent >= room
}

func (p Prompts) with(item BoardPrompt) Prompts {
	p.Rev, p.Items = p.Rev+1, append([]BoardPrompt{item}, p.Items...)
	shown := make(map[PromptKey]uint64, len(p.Shown)+1)
	maps.Copy(shown, p.Shown)
	shown[PromptKey{item.Kind, item.Priority}]++
	p.Shown = shown
	if len(p.Items) > promptsMost {
		p = p.without(leastMissed(p.Items))
	}
	return p
}

// leastMissed returns the index of the prompt to leave out of a full list: the
// oldest that is no longer true, else the oldest in the background, else the oldest;
// one that somebody has a hand on only if there are no others.
func leastMissed(items []BoardPrompt) int {
	for _, gone := range []func(BoardPrompt) bool{
		func(i BoardPrompt) bool { return !i.Use.kept() && !i.Withdrawn.IsZero() },
		func(i BoardPrompt) bool { return !i.Use.kept() && i.Priority == prompt.Background },
		func(i BoardPrompt) bool { return !i.Use.kept() },
		func(i BoardPrompt) bool { return i.Use.State == UseSaid },
	} {
		for i := len(items) - 1; i > 0; i-- {
			if gone(items[i]) {
				return i
			}
		}
	}
	return len(items) - 1
}

func (p Prompts) withdrawn(id string, at time.Time) Prompts {
	items := slices.Clone(p.Items)
	for i := range items {
		if items[i].Alert.ID == id && items[i].Withdrawn.IsZero() {
			items[i].Withdrawn = at
			p.Rev, p.Items = p.Rev+1, items
			return p
		}
	}
	return p
}

// faded drops what was withdrawn long enough ago, unless somebody has a hand on it.
func (p Prompts) faded(t time.Time) Prompts {
	for i := len(p.Items) - 1; i >= 0; i-- {
		if due := p.Items[i].fades(); !due.IsZero() && !due.After(t) {
			p = p.without(i)
			p.Rev++
		}
	}
	return p
}

// fades returns when a prompt leaves the list; zero: it stays.
func (b *BoardPrompt) fades() time.Time {
	if b.Withdrawn.IsZero() || b.Use.kept() {
		return time.Time{}
	}
	return b.Withdrawn.Add(promptsFade)
}

func (p Prompts) due() time.Time {
	var due time.Time
	for i := range p.Items {
		due = earlier(due, p.Items[i].fades())
	}
	return due
}
