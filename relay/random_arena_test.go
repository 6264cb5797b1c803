package relay_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay/relaytest"
)

// truth is a game as it stands at an arena that never was.
type truth struct {
	relaytest.Game
	family       string
	sans, clocks []string
	at           []*chess.Position // before the first ply, and after each
	was          map[int]string    // by ply: what was taken back there last
}

const pliesMost = 50

func newTruth(family, black string, table int) *truth {
	t := &truth{family: family, at: []*chess.Position{chess.StartingPosition()}, was: make(map[int]string)}
	t.Game = relaytest.Game{White: family + ", A", Black: black, Control: "600+5"}
	if table > 0 {
		t.Table = fmt.Sprint(table)
	}
	return t
}

// anyMove returns a random legal move as SAN that is none of others and ends no game.
func anyMove(r *rand.Rand, position *chess.Position, others ...string) (string, *chess.Position) {
	legal := position.ValidMoves()
	for _, i := range r.Perm(len(legal)) {
		san := chess.AlgebraicNotation{}.Encode(position, legal[i])
		if after := position.Update(legal[i]); after.Status() == chess.NoMethod && !slices.Contains(others, san) {
			return san, after
		}
	}
	return "", nil
}

// play adds a ply: another one than was taken back there last.
func (t *truth) play(r *rand.Rand) {
	n := len(t.sans)
	if n >= pliesMost || t.Result != "" {
		return
	}
	if san, after := anyMove(r, t.at[n], t.was[n]); san != "" {
		t.sans, t.at = append(slices.Clip(t.sans), san), append(slices.Clip(t.at), after)
		t.clocks = append(slices.Clip(t.clocks), fmt.Sprintf("0:%02d:%02d", 9-n/6, 59-r.IntN(60)))
	}
}

func (t *truth) takeBack(plies int) {
	for ; plies > 0 && len(t.sans) > 0 && t.Result == ""; plies-- {
		n := len(t.sans) - 1
		t.was[n] = t.sans[n]
		t.sans, t.clocks, t.at = t.sans[:n], t.clocks[:n], t.at[:n+1]
	}
}

// change lets something happen at the arena.
func (t *truth) change(r *rand.Rand, renames bool) {
	switch n := r.IntN(30); {
	case n < 20:
		t.play(r)
	case n < 22:
		t.takeBack(1 + r.IntN(3))
	case n < 25: // the last ply was another
		t.takeBack(1)
		t.play(r)
	case n < 27 && len(t.clocks) > 0:
		t.clocks = slices.Clone(t.clocks)
		t.clocks[r.IntN(len(t.clocks))] = fmt.Sprintf("0:%02d:%02d", r.IntN(10), r.IntN(60))
	case n == 27 && t.Result != "":
		t.Result = "" // it was entered by mistake
	case n == 27 && len(t.sans) > 20:
		t.Result = []string{"1-0", "0-1", "1/2-1/2"}[r.IntN(3)]
	case n == 28 && renames:
		t.White = t.family + []string{", A", ", Anna", ", Anna M."}[r.IntN(3)]
	}
}

// moment is what an arena could have told at a time.
type moment struct {
	at    time.Time
	games []truth
}

// source is a feed of the arena with all that may be wrong with one.
type source struct {
	name  string
	plain bool          // writes moves without signs of check and capture
	delay time.Duration // of what it tells
	past  []moment
	wrong [2]int // game and ply from 0 of a ply that it has otherwise
	order []int  // of games in its packets
	faults
}

// faults of a source last until a time.
type faults struct {
	silent, stale, gone, restart, wrongly, illegal time.Time
	age                                            time.Duration // of what is told while it is stale
	lost                                           int           // the game that is gone
}

// trouble begins a fault now and then.
func (s *source) trouble(r *rand.Rand, now time.Time, w *traits) {
	until := now.Add(time.Duration(2+r.IntN(40)) * time.Second)
	switch r.IntN(150) {
	case 0, 1:
		s.silent = until
	case 2, 3:
		s.stale, s.age = until, time.Duration(3+r.IntN(40))*time.Second
	case 4:
		s.gone, s.lost = until, r.IntN(len(s.order))
	case 5:
		s.restart = until
	case 6:
		s.wrongly, s.wrong = until, [2]int{r.IntN(3), -1}
	case 7:
		s.illegal = until
	case 8:
		if w.swaps {
			r.Shuffle(len(s.order), func(i, j int) { s.order[i], s.order[j] = s.order[j], s.order[i] })
		}
	case 9:
		s.delay = time.Duration(r.IntN(8)) * time.Second
	}
}

// told returns the moment that the source tells of.
func (s *source) told(now time.Time) []truth {
	limit := now.Add(-s.delay)
	if now.Before(s.stale) {
		limit = limit.Add(-s.age)
	}
	i, _ := slices.BinarySearchFunc(s.past, limit, func(m moment, t time.Time) int { return m.at.Compare(t) })
	return slices.Clone(s.past[min(i, len(s.past)-1)].games)
}

// packet returns what the source answers now; "" nothing.
func (s *source) packet(r *rand.Rand, now time.Time) string {
	if now.Before(s.silent) {
		return ""
	}
	text := s.whole(now)
	if r.IntN(40) == 0 {
		return text[:r.IntN(len(text))]
	}
	return text
}

// whole returns what the source tells, unless it is broken off.
func (s *source) whole(now time.Time) string {
	games := s.told(now)
	var out strings.Builder
	for _, i := range s.order {
		if now.Before(s.gone) && i == s.lost {
			continue
		}
		out.WriteString(s.text(games[i], i, now) + "\n")
	}
	return out.String()
}

func (s *source) text(g truth, i int, now time.Time) string {
	sans := slices.Clone(g.sans)
	if now.Before(s.restart) {
		sans, g.Result = nil, ""
	}
	if now.Before(s.wrongly) && s.wrong[0] == i && len(sans) > 0 {
		if s.wrong[1] < 0 || s.wrong[1] >= len(sans) {
			s.wrong[1] = len(sans) - 1
		}
		at := s.wrong[1]
		san, _ := anyMove(rand.New(rand.NewPCG(uint64(at), 7)), g.at[at], sans[at])
		sans, g.Result = append(sans[:at], san), ""
	}
	g.Clocks = g.clocks[:min(len(sans), len(g.clocks))]
	if now.Before(s.illegal) && i == 0 {
		sans = append(sans, "Kh8h1")
	}
	g.Moves = strings.Join(sans, " ")
	if s.plain {
		g.Moves = signs.Replace(g.Moves)
	}
	return g.PGN()
}

var signs = strings.NewReplacer("+", "", "x", "")
