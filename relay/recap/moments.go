package recap

import (
	"cmp"
	"slices"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

// How many key moments a game has, and how near two may be, in plies.
const (
	momentsLeast = 3
	momentsMost  = 6
	momentsApart = 3
	besidesMost  = 3
)

// Moment is a point of a game that is worth a diagram.
type Moment struct {
	Plies   int // played: the diagram shows the position after them
	Kind    string
	Text    string   // what there is to say, in a sentence
	Besides []string // what else there is to say of it
	Marks   []diagramMark
	worth   int
	side    string // whose it is; "" nobody's
}

type diagramMark = prompt.Mark

// worths of alerts as key moments; those that are not here are none. What is worth less than
// worthFill only serves where a game has few moments.
var worths = map[relay.AlertKind]int{
	relay.AlertNovelty:         100,
	relay.AlertLeftPreparation: 74,
	relay.AlertFirstThink:      40,
	relay.AlertFlagNear:        66,
	relay.AlertTimeTrouble:     60,
	relay.AlertOnIncrement:     48,
	relay.AlertClockLead:       46,
	relay.AlertCatchingUp:      44,
	relay.AlertRare:            42,
	relay.AlertTimeAdded:       38,
	relay.AlertInPreparation:   34,
	relay.AlertPosition:        30,
}

const (
	worthLongest  = 90 // the longest think of the game
	worthOther    = 56 // the longest of the other side
	worthAsked    = 78
	worthLine     = 64
	worthNow      = 68 // a fact of the position that had to be said at once
	worthSoon     = 50
	worthEnd      = 45 // the last position of a game with a winner
	worthFill     = 46
	thinkLeast    = 20 * time.Second // a shorter one is no think
	openingFacts  = 8                // plies in which facts of the position are no news
	troubleLevels = relay.TroubleShows
)

// Moments chooses the key moments of a game, in their order.
func (g *Game) Moments(in *Words) []Moment {
	all := g.candidates(in)
	slices.SortStableFunc(all, func(a, b Moment) int { return cmp.Compare(b.worth, a.worth) })
	var chosen []Moment
	for _, m := range all {
		if len(chosen) == momentsMost || m.worth < worthFill && len(chosen) >= momentsLeast {
			break
		}
		if i := slices.IndexFunc(chosen, func(o Moment) bool { return abs(o.Plies-m.Plies) < momentsApart }); i >= 0 {
			chosen[i].join(&m)
			continue
		}
		if m.alike(chosen) < most(m.Kind) {
			chosen = append(chosen, m)
		}
	}
	slices.SortFunc(chosen, func(a, b Moment) int { return a.Plies - b.Plies })
	return chosen
}

// alike counts the moments of the same kind and side.
func (m *Moment) alike(chosen []Moment) int {
	n := 0
	for _, o := range chosen {
		if o.Kind == m.Kind && o.side == m.side {
			n++
		}
	}
	return n
}

// most is how many moments of a kind a game has, of each side.
func most(kind string) int {
	switch kind {
	case string(relay.AlertPosition), "swing":
		return 2
	case "line", "asked":
		return 3
	}
	return 1
}

// group is what alerts have in common that tell of one thing.
func group(kind relay.AlertKind) string {
	switch kind {
	case relay.AlertTimeTrouble, relay.AlertFlagNear, relay.AlertOnIncrement:
		return "trouble"
	case relay.AlertLeftPreparation, relay.AlertFirstThink, relay.AlertInPreparation:
		return "preparation"
	case relay.AlertClockLead, relay.AlertCatchingUp:
		return "lead"
	}
	return string(kind)
}

// words is a list of what there is.
func words(text string) []string {
	if text == "" {
		return nil
	}
	return []string{text}
}

// join takes over what another moment of the same position says besides.
func (m *Moment) join(o *Moment) {
	if m.Plies != o.Plies || m.Text == o.Text || slices.Contains(m.Besides, o.Text) {
		return
	}
	m.Besides = slices.Insert(slices.Clone(m.Besides), max(0, len(m.Besides)-1), o.Text) // evidence stays behind
	m.Besides = m.Besides[:min(len(m.Besides), besidesMost)]
	if len(m.Marks) == 0 {
		m.Marks = o.Marks
	}
}

func abs(n int) int { return max(n, -n) }

// candidates returns all that might be a key moment.
func (g *Game) candidates(in *Words) []Moment {
	var out []Moment
	said := make(map[string]bool)
	for i := range g.Raised {
		r := &g.Raised[i]
		if m, ok := g.ofAlert(r); ok && !said[m.Text] {
			said[m.Text] = true
			out = append(out, m)
		}
	}
	out = append(append(out, g.thinks(in)...), g.swings(in)...)
	for _, l := range g.Lines {
		if l.Ply > 0 && g.Board.FENAfter(l.Ply) == l.FEN {
			out = append(out, Moment{Plies: l.Ply, Kind: "line", Text: fill(in.ShownThen, spell(in, l.Moves)), Besides: words(l.Name), worth: worthLine})
		}
	}
	for _, c := range g.Asked {
		if c.Place.Move == 0 && g.Board.FENAfter(c.Place.Ply) == c.FEN {
			m := Moment{Plies: c.Place.Ply, Kind: "asked", Text: c.Question, worth: worthAsked}
			if len(c.Answer) > 0 {
				m.Besides = words(in.Answer + ": " + spell(in, c.Answer))
			}
			out = append(out, m)
		}
	}
	return append(out, g.end(in)...)
}

// ofAlert returns an alert as a moment, unless its move has been corrected since.
func (g *Game) ofAlert(r *Raised) (Moment, bool) {
	m := Moment{Plies: min(r.Plies, len(g.Board.Plies)), Kind: group(r.Kind), side: r.Side, Text: r.Say.Text, Besides: words(r.Say.Evidence), Marks: r.Say.Marks, worth: worths[r.Kind]}
	if m.worth == 0 || m.Text == "" || m.Plies == 0 || !g.fits(r) {
		return m, false
	}
	switch r.Kind {
	case relay.AlertNovelty:
		m.Plies = max(1, min(r.Ply, len(g.Board.Plies))) // it may have been looked up later
	case relay.AlertTimeTrouble:
		if r.Level < troubleLevels {
			return m, false // a forecast
		}
	case relay.AlertPosition:
		switch {
		case r.Plies <= openingFacts:
			return m, false
		case r.Say.Priority == prompt.Now:
			m.worth = worthNow
		case r.Say.Priority == prompt.Soon:
			m.worth = worthSoon
		}
	}
	return m, true
}

// thinks returns the longest think of each side.
func (g *Game) thinks(in *Words) []Moment {
	var out []Moment
	for _, side := range []clock.Side{clock.White, clock.Black} {
		if i := g.longest(side); i >= 0 && g.Board.Plies[i].Timed.Spent >= thinkLeast {
			ply := &g.Board.Plies[i]
			text := fill(in.OwnThink, g.Board.Called(side), clock.Format(ply.Timed.Spent), g.spell(in, i))
			out = append(out, Moment{Plies: i + 1, Kind: "think", side: side.String(), Text: text, worth: worthOther})
		}
	}
	slices.SortFunc(out, func(a, b Moment) int {
		return cmp.Compare(g.Board.Plies[b.Plies-1].Timed.Spent, g.Board.Plies[a.Plies-1].Timed.Spent)
	})
	if len(out) > 0 {
		i := out[0].Plies - 1
		out[0].worth = worthLongest
		out[0].Text = fill(in.LongestThink, clock.Format(g.Board.Plies[i].Timed.Spent), g.spell(in, i))
	}
	return out
}

// longest returns the index of a side's longest think, -1 where no time is known.
func (g *Game) longest(side clock.Side) int {
	best := -1
	for i := range g.Board.Plies {
		_, mover := g.Board.MoveNumber(i)
		timed := &g.Board.Plies[i].Timed
		if mover == side && timed.SpentQuality != clock.QualityNone && timed.Spent > 0 && (best < 0 || timed.Spent > g.Board.Plies[best].Timed.Spent) {
			best = i
		}
	}
	return best
}

// end returns the last position of a game that was won.
func (g *Game) end(in *Words) []Moment {
	n := len(g.Board.Plies)
	if n == 0 || g.Board.Result != "1-0" && g.Board.Result != "0-1" {
		return nil
	}
	return []Moment{{Plies: n, Kind: "end", Text: in.resultWords(g.Board), worth: worthEnd}}
}
