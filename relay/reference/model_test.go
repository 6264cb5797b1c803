package reference

import (
	"cmp"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"testing"

	"clocktell/relay/clock"
)

// world is a collection of games and what they reached, in the obvious form.
type world struct {
	games       []Game
	occurrences []Occurrence // sorted
}

var names5 = []string{"Ada Quill", "Bo Marsh", "Cy Tarn", "Dee Holt", "Эва Лунь", ""}

func randomGame(r *rand.Rand) Game {
	rating := func() int {
		if r.IntN(6) == 0 {
			return 0
		}
		return 1000 + r.IntN(1900)
	}
	year := 0
	if r.IntN(8) > 0 {
		year = 2000 + r.IntN(12)
	}
	return Game{
		White: names5[r.IntN(len(names5))], Black: names5[r.IntN(len(names5))], Event: names5[r.IntN(len(names5))],
		WhiteRating: rating(), BlackRating: rating(), Year: year,
		Result: Result(r.IntN(4)), Class: clock.Class(r.IntN(4)), Venue: Venue(r.IntN(3)),
	}
}

// randomWorld makes games that go on from few positions by few moves, the first
// of them most often, so that all ways of writing a move are used.
func randomWorld(r *rand.Rand, games, positions, moves int) *world {
	w := &world{}
	keys := make([]uint64, positions)
	for i := range keys {
		keys[i] = r.Uint64()
		if i > 0 && r.IntN(4) == 0 {
			keys[i] = keys[i-1] + uint64(r.IntN(3)) // neighbours
		}
	}
	for id := range games {
		w.games = append(w.games, randomGame(r))
		seen := make(map[uint64]bool)
		for range 1 + r.IntN(4) {
			i := int(float64(positions) * r.Float64() * r.Float64() * r.Float64())
			if seen[keys[i]] {
				continue
			}
			seen[keys[i]] = true
			move := uint16(0) // the end
			if r.IntN(8) > 0 {
				move = 1 + uint16(float64(moves)*r.Float64()*r.Float64()*r.Float64())
			}
			if i%2 == 1 {
				move |= BlackMoves
			}
			w.occurrences = append(w.occurrences, Occurrence{keys[i], move, GameID(id)})
		}
		if key := r.Uint64(); !seen[key] {
			w.occurrences = append(w.occurrences, Occurrence{key, uint16(r.IntN(1 << 15)), GameID(id)})
		}
	}
	w.sort()
	// Neighbours may have made one position of two: a side is on move.
	w.occurrences = slices.CompactFunc(w.occurrences, func(a, b Occurrence) bool { return a.Position == b.Position && a.Game == b.Game })
	w.oneSide()
	return w
}

func (w *world) sort() { slices.SortFunc(w.occurrences, Occurrence.Compare) }

// oneSide leaves a position to the side that its first occurrence has on move.
func (w *world) oneSide() {
	side := make(map[uint64]uint16)
	seen := make(map[[2]uint64]bool)
	w.occurrences = slices.DeleteFunc(w.occurrences, func(o Occurrence) bool {
		of, ok := side[o.Position]
		if !ok {
			of = o.Move & BlackMoves
			side[o.Position] = of
		}
		key := [2]uint64{o.Position, uint64(o.Game)}
		if seen[key] || of != o.Move&BlackMoves {
			return true
		}
		seen[key] = true
		return false
	})
}

func (w *world) write(t testing.TB, path string) {
	t.Helper()
	out, err := Create(path, Head{Depth: 60, Hashing: 7})
	if err != nil {
		t.Fatal(err)
	}
	for i, g := range w.games {
		if id, err := out.AddGame(g); err != nil || int(id) != i {
			t.Fatal(id, err)
		}
	}
	for _, o := range w.occurrences {
		if err := out.Add(o); err != nil {
			t.Fatal(err)
		}
	}
	if err := out.Commit(); err != nil {
		t.Fatal(err)
	}
}

func (w *world) index(t testing.TB) *Index {
	t.Helper()
	path := filepath.Join(t.TempDir(), "index")
	w.write(t, path)
	x, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { x.Close() })
	return x
}

// byPosition groups the occurrences.
func (w *world) byPosition() map[uint64][]Occurrence {
	out := make(map[uint64][]Occurrence)
	for _, o := range w.occurrences {
		out[o.Position] = append(out[o.Position], o)
	}
	return out
}

// passes is Filter in other words, as its comments state it.
func passes(f Filter, g Game) bool {
	if f.MinRating > 0 && (g.WhiteRating < f.MinRating || g.BlackRating < f.MinRating) {
		return false
	}
	if (f.FromYear > 0 || f.ToYear > 0) && g.Year == 0 {
		return false
	}
	if f.FromYear > 0 && g.Year < f.FromYear || f.ToYear > 0 && g.Year > f.ToYear {
		return false
	}
	if f.OnlyOverTheBoard && g.Venue != OverTheBoard {
		return false
	}
	return f.Class == clock.ClassUnknown || g.Class == f.Class
}

// answer is the slow and obvious count.
func (w *world) answer(here []Occurrence, f Filter) Answer {
	out := Answer{Unfiltered: len(here)}
	byMove := make(map[uint16][]GameID)
	for _, o := range here {
		g := w.games[o.Game]
		if !passes(f, g) {
			continue
		}
		count(&out.Games, &out.White, &out.Draws, &out.Black, g.Result)
		if last := w.games[out.Last]; out.Games == 1 || g.Year > last.Year || g.Year == last.Year && o.Game > out.Last {
			out.Last, out.LastMove = o.Game, o.Move&^BlackMoves
		}
		if o.Move&^BlackMoves != 0 {
			byMove[o.Move] = append(byMove[o.Move], o.Game)
		}
	}
	for move, games := range byMove {
		out.Moves = append(out.Moves, w.move(move, games))
	}
	slices.SortFunc(out.Moves, func(a, b MoveAnswer) int {
		return cmp.Or(cmp.Compare(b.Games, a.Games), cmp.Compare(a.Move, b.Move))
	})
	return out
}

func count(games, white, draws, black *int, r Result) {
	*games++
	switch r {
	case WhiteWon:
		*white++
	case Drawn:
		*draws++
	case BlackWon:
		*black++
	}
}

func (w *world) move(move uint16, games []GameID) MoveAnswer {
	m := MoveAnswer{Move: move &^ BlackMoves}
	var rated, sum float64
	for _, id := range games {
		g := w.games[id]
		count(&m.Games, &m.White, &m.Draws, &m.Black, g.Result)
		rating := g.WhiteRating
		if move&BlackMoves != 0 {
			rating = g.BlackRating
		}
		m.BestRating = max(m.BestRating, rating)
		m.LastYear = max(m.LastYear, g.Year)
		if rating > 0 {
			rated, sum = rated+1, sum+float64(rating)
		}
	}
	if rated > 0 {
		m.MeanRating = int(sum/rated + 0.5)
	}
	rated1 := slices.Clone(games)
	slices.SortFunc(rated1, func(a, b GameID) int {
		g, h := w.games[a], w.games[b]
		return -cmp.Or(cmp.Compare(min(g.WhiteRating, g.BlackRating), min(h.WhiteRating, h.BlackRating)), cmp.Compare(g.Year, h.Year), cmp.Compare(a, b))
	})
	latest := slices.MaxFunc(games, func(a, b GameID) int {
		return cmp.Or(cmp.Compare(w.games[a].Year, w.games[b].Year), cmp.Compare(a, b))
	})
	for _, id := range []GameID{rated1[0], latest, rated1[min(1, len(rated1)-1)]} {
		if !slices.Contains(m.Examples, id) {
			m.Examples = append(m.Examples, id)
		}
	}
	return m
}
