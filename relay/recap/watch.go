package recap

import (
	"cmp"
	"maps"
	"slices"
	"time"

	"clocktell/relay"
	"clocktell/relay/desk"
)

// Limits of what is kept of one game. What comes after them is left out.
const (
	raisedMost = 4000
	saidMost   = 1000
	linesMost  = 200
)

// Watch gathers what a show leaves behind. It is for one goroutine.
type Watch struct {
	games []*Game // in the order in which they came to the show
	of    map[place]*Game
	last  *relay.Show
}

type place struct{ board, game int }

// Game is one game of a show, with what happened around it.
type Game struct {
	Board  *relay.Board // as it was seen last
	At     time.Time    // when it was seen last
	Raised []Raised
	Said   []Said
	Lines  []Line
	Marks  []Marked
	Asked  []*desk.Challenge // the newest state of each question put to the viewers, oldest first

	known map[alertKey]bool // of Raised
}

// alertKey tells alerts apart: the same condition may be raised again.
type alertKey struct {
	id string
	at int64
}

// Raised is an alert, with the move it was raised after.
type Raised struct {
	relay.Alert
	Plies int    // played when it was raised
	SAN   string // of the last of them; "" none
}

// Said is a sentence that somebody said, or that was on the air.
type Said struct {
	Key   string
	Text  string
	By    string
	At    time.Time
	Plies int
	OnAir bool
}

// Line is a side line that viewers saw.
type Line struct {
	desk.Shown
	From time.Time
}

// Marked is what was pointed at on the air.
type Marked struct {
	Plies int
	Marks []desk.Mark
}

// NewWatch returns a watch that has seen nothing.
func NewWatch() *Watch { return &Watch{of: make(map[place]*Game)} }

// Clone returns a watch that has seen the same, for somebody who takes long to write it while
// this one goes on seeing.
func (w *Watch) Clone() *Watch {
	out := &Watch{of: make(map[place]*Game), last: w.last}
	for _, g := range w.games {
		c := *g
		c.Raised, c.Said, c.Lines = slices.Clone(g.Raised), slices.Clone(g.Said), slices.Clone(g.Lines)
		c.Marks, c.Asked, c.known = slices.Clone(g.Marks), slices.Clone(g.Asked), maps.Clone(g.known)
		out.games = append(out.games, &c)
		out.of[place{c.Board.Number, c.Board.Game}] = &c
	}
	return out
}

// See takes the show as it is now. Shows come in the order in which they were.
func (w *Watch) See(s *relay.Show) {
	was := w.last
	w.last = s
	for i, b := range s.Boards {
		if was == nil || i >= len(was.Boards) || was.Boards[i] != b {
			w.seeBoard(b, s.At)
		}
	}
	if was == nil || was.Said.Rev != s.Said.Rev {
		w.seeSaid(s)
	}
	if was == nil || was.OnAir.Rev != s.OnAir.Rev {
		w.seeCaption(s)
	}
	if was == nil || was.Desk != s.Desk {
		w.seeDesk(s)
	}
}

// Show returns the show as it was seen last, nil before any.
func (w *Watch) Show() *relay.Show { return w.last }

// Games returns the games that were seen, by board and in the order in which they came to it. A
// board that never had anything to show is none.
func (w *Watch) Games() []*Game {
	out := slices.Clone(w.games)
	slices.SortStableFunc(out, func(a, b *Game) int { return a.Board.Number - b.Board.Number })
	return slices.DeleteFunc(out, func(g *Game) bool { return g.Board.Told() == nil && len(g.Board.Plies) == 0 })
}

// at returns the game on a board now, nil for none.
func (w *Watch) at(board int) *Game {
	if board < 1 || board > len(w.last.Boards) {
		return nil
	}
	return w.of[place{board, w.last.Boards[board-1].Game}]
}

func (w *Watch) seeBoard(b *relay.Board, at time.Time) {
	key := place{b.Number, b.Game}
	g := w.of[key]
	if g == nil {
		g = &Game{known: make(map[alertKey]bool)}
		if before := w.of[place{b.Number, b.Game - 1}]; before != nil {
			before.Board, before.known = before.Board.Kept(), nil // a day has thousands of games
		}
		w.of[key] = g
		w.games = append(w.games, g)
	}
	g.Board, g.At = b, at
	for _, a := range b.Alerts {
		if key := (alertKey{a.ID, a.At.UnixNano()}); len(g.Raised) < raisedMost && !g.known[key] {
			g.known[key] = true
			r := Raised{Alert: a, Plies: len(b.Plies)}
			if n := len(b.Plies); n > 0 {
				r.SAN = b.Plies[n-1].SAN
			}
			g.Raised = append(g.Raised, r)
		}
	}
}

// seeSaid takes what co-hosts have said; what they undid while it was listed is not said.
func (w *Watch) seeSaid(s *relay.Show) {
	for i := range s.Said.Items {
		item := &s.Said.Items[i]
		g := w.at(item.Board)
		if g == nil {
			continue
		}
		key := item.Key()
		if item.Use.State == relay.UseSaid {
			g.say(Said{Key: key, Text: item.Text, By: item.Use.By, At: item.Use.At})
			continue
		}
		g.Said = slices.DeleteFunc(g.Said, func(said Said) bool { return said.Key == key && !said.OnAir })
	}
}

func (w *Watch) seeCaption(s *relay.Show) {
	c := s.OnAir.Caption
	if c == nil {
		return
	}
	if g := w.at(c.Board); g != nil {
		g.say(Said{Key: c.Key + "@" + c.At.String(), Text: c.Text, By: c.By, At: c.At, OnAir: true})
	}
}

func (g *Game) say(said Said) {
	i := slices.IndexFunc(g.Said, func(o Said) bool { return o.Key == said.Key && o.OnAir == said.OnAir })
	switch {
	case i >= 0:
		said.Plies = g.Said[i].Plies
		g.Said[i] = said
	case len(g.Said) < saidMost:
		said.Plies = len(g.Board.Plies)
		g.Said = append(g.Said, said)
	}
}

// seeDesk takes what of the desk viewers see.
func (w *Watch) seeDesk(s *relay.Show) {
	if shown := s.Desk.Shown; shown != nil {
		if g := w.at(shown.Board); g != nil {
			g.show(shown, s.At)
		}
	}
	c := s.Desk.Challenge
	if c == nil || c.State == desk.ChallengeReady {
		return
	}
	g := w.at(c.Place.Board)
	if g == nil {
		return
	}
	if i := slices.IndexFunc(g.Asked, func(o *desk.Challenge) bool { return o.ID == c.ID }); i >= 0 {
		g.Asked[i] = c
	} else if len(g.Asked) < linesMost {
		g.Asked = append(g.Asked, c)
	}
}

// show takes a side line, or marks in the game. A line that goes on is one line, and one that
// is stepped back in too.
func (g *Game) show(shown *desk.Shown, at time.Time) {
	if len(shown.Moves) == 0 {
		if len(shown.Marks) > 0 && len(g.Marks) < linesMost {
			g.Marks = slices.DeleteFunc(g.Marks, func(m Marked) bool { return m.Plies == shown.Ply })
			g.Marks = append(g.Marks, Marked{shown.Ply, shown.Marks})
		}
		return
	}
	for i := range g.Lines {
		was := &g.Lines[i]
		if was.Ply != shown.Ply || was.FEN != shown.FEN {
			continue
		}
		switch n := min(len(was.Moves), len(shown.Moves)); {
		case !sameMoves(was.Moves[:n], shown.Moves[:n]):
		case n == len(shown.Moves):
			was.Name = cmp.Or(shown.Name, was.Name)
			return
		default:
			was.Shown = *shown
			return
		}
	}
	if len(g.Lines) < linesMost {
		g.Lines = append(g.Lines, Line{*shown, at})
	}
}

func sameMoves(a, b []desk.Step) bool {
	return slices.EqualFunc(a, b, func(x, y desk.Step) bool { return x.SAN == y.SAN })
}
