package relay_test

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay"
	"clocktell/relay/pgn"
)

// watched does something and holds what came of it to the rules.
func (w *world) watched(do func()) {
	before := w.stage.Show
	w.acted = 0
	do()
	w.stage.Wait(0)
	now := w.stage.Show
	if due := now.Due(); !due.IsZero() && !due.After(w.stage.Now) {
		w.fail("due at %v, it is %v: time would stand still", due, w.stage.Now)
	}
	if now.At.Before(before.At) {
		w.fail("it was %v, and is %v: time went back", before.At, now.At)
	}
	for _, b := range now.Boards {
		w.playable(b)
	}
	if len(now.Boards) > w.pairs {
		w.fail("%d boards for %d games: %v", len(now.Boards), w.pairs, titles(now))
	}
	for i, was := range before.Boards {
		w.takenBack(was, now.Boards[i])
	}
}

// compared holds the show to its twins, and shows of before to what they were.
func (w *world) compared() {
	text := dump(w.stage.Show)
	w.same("made of the parts alone", text, w.again.follow(w.stage, nil))
	w.same("with other steps of time", text, w.often.follow(w.stage, w.r))
	w.unchanged(w.stage.Show, text)
}

func (w *world) fail(format string, values ...any) {
	w.t.Helper()
	w.t.Errorf("seed %d, step %d, %+v: %s", w.seed, w.step, w.is, fmt.Sprintf(format, values...))
}

func titles(s *relay.Show) []string {
	var out []string
	for _, b := range s.Boards {
		out = append(out, fmt.Sprintf("%d: %s, round %s", b.Number, players(b), b.Key.Round))
	}
	return out
}

// playable plays a board's plies with the library's own reading of SAN.
func (w *world) playable(b *relay.Board) {
	if b.Rev == w.heard.checked[b.Number] {
		return
	}
	w.heard.checked[b.Number] = b.Rev
	position := chess.StartingPosition()
	for i := range b.Plies {
		move, err := chess.AlgebraicNotation{}.Decode(position, b.Plies[i].SAN)
		if err != nil {
			w.fail("board %d, ply %d: %v", b.Number, i+1, err)
			return
		}
		position = position.Update(move)
	}
	if position.String() != b.FEN {
		w.fail("board %d: position %s, its plies lead to %s", b.Number, b.FEN, position)
	}
}

// takenBack finds plies that are gone although nobody said so.
func (w *world) takenBack(was, now *relay.Board) {
	i := 0
	for i < min(len(was.Plies), len(now.Plies)) && was.Plies[i].SAN == now.Plies[i].SAN {
		i++
	}
	if i == len(was.Plies) || now.Game != was.Game || w.acted == now.Number {
		return
	}
	entered := slices.IndexFunc(was.Hand.Moves, func(m relay.HandMove) bool { return m.Ply == i+1 })
	switch why := w.heard.denied(now.Feed, now.Players[1].Name, was, i, w.stage.Now); {
	case entered >= 0 && was.Hand.Moves[entered].SAN != was.Plies[i].SAN: // it stood against the ply
	case entered >= 0:
		w.fail("board %d: %s, entered by hand, is gone", was.Number, was.Plies[i].SAN)
	case why != "":
		w.fail("board %d: ply %d of %d, %s, is gone, follows %s: %s", was.Number, i+1, len(was.Plies), was.Plies[i].SAN, now.Feed, why)
	}
}

// unchanged holds shows of before to what they were.
func (w *world) unchanged(s *relay.Show, text string) {
	const kept = 3
	w.older = append(w.older, dumped{s, text})
	if len(w.older) > kept {
		w.same("a show of before", w.older[0].text, dump(w.older[0].show))
		w.older = w.older[1:]
	}
}

type dumped struct {
	show *relay.Show
	text string
}

func (w *world) same(what, want, got string) {
	if want == got {
		return
	}
	x, y := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			w.fail("%s: another show\n%s\n%s", what, y[i], x[i])
			return
		}
	}
	w.fail("%s: %d lines, want %d", what, len(y), len(x))
}

// hearing is what the feeds have said of each game, known by its black player.
type hearing struct {
	said    map[string][]telling
	checked map[int]uint64 // revision of a board that was played through
}

type telling struct {
	at     time.Time
	text   string
	sans   []string
	whole  bool
	before bool // the feed had told this very text
}

func newHearing() *hearing {
	return &hearing{said: make(map[string][]telling), checked: make(map[int]uint64)}
}

func (h *hearing) take(feed, text string, at time.Time) {
	games := pgn.Read([]byte(text))
	for _, g := range games {
		key := feed + " " + g.Tag("Black")
		said := h.said[key]
		next := telling{at: at, whole: g.Result != ""}
		for _, m := range g.Moves {
			next.sans = append(next.sans, signs.Replace(m.SAN))
		}
		next.text = fmt.Sprint(next.sans, g.Result, g.Tags, clocksOf(&g))
		next.before = slices.ContainsFunc(said, func(t telling) bool { return t.text == next.text })
		if n := len(said); n > 0 && said[n-1].text == next.text {
			continue
		}
		h.said[key] = append(said, next)
	}
}

func clocksOf(g *pgn.Game) (out []string) {
	for i := range g.Moves {
		operands, _ := g.Moves[i].Command("clk")
		out = append(out, strings.Join(operands, ","))
	}
	return out
}

const forAWhile = 10 * time.Second

// denied says why a feed cannot have taken back the ply of a board at index i; "": it
// has. It goes back through what the feed has told and what all denies that ply, until
// something is new or was told for a while. What it has just told may have come after.
func (h *hearing) denied(feed, black string, b *relay.Board, i int, now time.Time) string {
	said := h.said[feed+" "+black]
	line := make([]string, i+1)
	for j := range line {
		line[j] = signs.Replace(b.Plies[j].SAN)
	}
	for _, m := range b.Hand.Moves {
		if m.Ply <= i {
			line[m.Ply-1] = signs.Replace(m.Over) // kept against the feed
		}
	}
	why := "it never had the game"
	for n := len(said) - 1; n >= 0; n-- {
		last := &said[n]
		other := len(last.sans) > i && last.sans[i] != line[i]
		less := len(last.sans) <= i && last.whole
		switch long := now.Sub(last.at) >= forAWhile; {
		case !other && !less && last.whole && !last.at.Equal(now):
			return cmp.Or(why, "it says so itself")
		case !other && !less: // it broke off, or has just told it again
		case less && !long && !toldMore(said[:n], line):
			why = "it has never come so far"
		case !last.before || long:
			return ""
		default:
			why = "it had told that before, and tells it again only since " + last.at.Format(time.TimeOnly)
		}
	}
	return why
}

// toldMore reports whether a feed has told a line.
func toldMore(said []telling, line []string) bool {
	return slices.ContainsFunc(said, func(t telling) bool {
		return len(t.sans) >= len(line) && slices.Equal(t.sans[:len(line)], line)
	})
}
