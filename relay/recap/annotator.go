package recap

import (
	"fmt"
	"strings"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/desk"
	"clocktell/relay/pgn"
)

// annotator hangs on the moves what was made of them.
type annotator struct {
	g     *Game
	in    *Words
	out   *pgn.Game
	notes []pgn.Notes
}

// comment hangs a comment behind so many plies. What was before the first move hangs on that:
// some readers take no comment before it.
func (a *annotator) comment(plies int, text string) {
	plies = min(max(1, plies), len(a.notes))
	if plies == 0 {
		a.out.Comments = append(a.out.Comments, comment(text))
		return
	}
	n := &a.notes[plies-1]
	n.Comments = append(n.Comments, comment(text))
}

// glyphs marks the new move, and where each side came into time trouble.
func (a *annotator) glyphs() {
	if i := a.g.novelty(); i >= 0 {
		a.notes[i].NAGs = append(a.notes[i].NAGs, glyphNew)
	}
	for _, side := range []clock.Side{clock.White, clock.Black} {
		if i := a.g.trouble(side); i >= 0 {
			a.notes[i].NAGs = append(a.notes[i].NAGs, glyphModerate+int(side))
		}
	}
	for _, side := range []clock.Side{clock.White, clock.Black} {
		for _, r := range a.g.raised(relay.AlertFlagNear) {
			if r.Side == side.String() && r.Plies > 0 {
				a.notes[r.Plies-1].NAGs = append(a.notes[r.Plies-1].NAGs, glyphSevere+int(side))
				break
			}
		}
	}
}

// said hangs sentences that were said behind the moves they were said after.
func (a *annotator) said() {
	for _, s := range a.g.Said {
		text := fmt.Sprintf("%s (%s)", s.Text, s.By)
		if s.By == "" {
			text = s.Text
		}
		a.comment(s.Plies, text)
	}
}

// shown hangs side lines on the moves that they replace; one that replaces none is written
// into a comment.
func (a *annotator) shown() {
	for _, l := range a.g.Lines {
		a.line(l.Ply, l.FEN, l.Moves, l.Name)
	}
}

func (a *annotator) line(ply int, fen string, moves []desk.Step, name string) {
	b := a.g.Board
	at, rest := ply, moves
	for len(rest) > 0 && at < len(b.Plies) && rest[0].SAN == b.Plies[at].SAN && b.FENAfter(at+1) == rest[0].FEN {
		at, rest = at+1, rest[1:]
	}
	switch {
	case len(rest) == 0: // the game went that way
	case at < len(b.Plies) && (at > ply || b.FENAfter(ply) == fen):
		n := &a.notes[at]
		n.Variations = append(n.Variations, linePGN(rest, name))
	default:
		a.comment(at, strings.TrimSpace(fmt.Sprintf("%s: %s %s", a.in.ShownAfter, plain(moves), name)))
	}
}

// asked tells of the questions put to the viewers, with their answers.
func (a *annotator) asked() {
	for _, c := range a.g.Asked {
		text := fmt.Sprintf("%s: %s", a.in.Question, c.Question)
		if len(c.Answer) > 0 {
			text += fmt.Sprintf(" %s: %s", a.in.Answer, plain(c.Answer))
		}
		a.comment(c.Place.Ply, text)
		if len(c.Answer) > 0 && c.Place.Move == 0 {
			a.line(c.Place.Ply, c.FEN, c.Answer, "")
		}
	}
}

// plain writes moves as text: 12.Nf3 Nc6 13.d4.
func plain(moves []desk.Step) string {
	var out []string
	for i, m := range moves {
		out = append(out, numbered(m.Number, i == 0)+m.SAN)
	}
	return strings.Join(out, " ")
}

// numbered is what stands before a move: its number, and of a Black one only at the start.
func numbered(halfMove int, first bool) string {
	switch {
	case halfMove%2 == 1:
		return fmt.Sprintf("%d.", (halfMove+1)/2)
	case first:
		return fmt.Sprintf("%d...", halfMove/2)
	}
	return ""
}

// raised returns the alerts of a kind that still fit the game as it is now, in their order.
func (g *Game) raised(kind relay.AlertKind) []Raised {
	var out []Raised
	for _, r := range g.Raised {
		if r.Kind == kind && g.fits(&r) {
			out = append(out, r)
		}
	}
	return out
}

// fits reports that the move an alert was raised after still stands.
func (g *Game) fits(r *Raised) bool {
	n := r.Plies
	return n == 0 || n <= len(g.Board.Plies) && g.Board.Plies[n-1].SAN == r.SAN
}

// novelty returns the index of the new move, -1 where the reference knows of none.
func (g *Game) novelty() int {
	if i := g.Board.Novelty(); i < len(g.Board.Plies) {
		return i
	}
	return -1
}
