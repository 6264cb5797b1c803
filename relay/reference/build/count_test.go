package build

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"sort"
	"strconv"
	"testing"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/reference"
)

// TestCounts holds an index against the slow count: 500 random positions and the 100
// most frequent ones, every move from them, with several filters. All of the library's
// games when CLOCKTELL_TESTS=all, every twentieth otherwise.
func TestCounts(t *testing.T) {
	nth := 20
	if os.Getenv("CLOCKTELL_TESTS") == "all" {
		nth = 1
	}
	path := someGames(t, nth)
	slow := countSlowly(t, mustRead(t, path), DepthDefault)
	o := options(t, path)
	report := mustBuild(t, o)
	if report.Kept != len(slow.games) || report.Positions != len(slow.visits) {
		t.Errorf("%d games and %d positions, the slow count has %d and %d", report.Kept, report.Positions, len(slow.games), len(slow.visits))
	}
	index := mustOpen(t, o.Out)
	moves := 0
	for _, key := range slow.choose(500, 100) {
		for _, f := range slowFilters {
			moves += slow.compare(index, key, f)
		}
	}
	t.Logf("%d games with %d positions; %d moves compared", len(slow.games), len(slow.visits), moves)
	if moves < 1000 {
		t.Errorf("%d moves compared: the test shows too little", moves)
	}
}

// slowFilters are asked with.
var slowFilters = []reference.Filter{
	{}, {MinRating: 2400}, {FromYear: 2023}, {ToYear: 2022}, {Class: clock.ClassBlitz}, {OnlyOverTheBoard: true},
	{MinRating: 2300, FromYear: 2023, ToYear: 2023, Class: clock.ClassBlitz},
}

// choose returns random positions and the most frequent ones.
func (c *slowCount) choose(random, frequent int) []string {
	keys := slices.Sorted(maps.Keys(c.visits))
	rand.New(rand.NewPCG(1, 5)).Shuffle(len(keys), func(i, j int) { keys[i], keys[j] = keys[j], keys[i] })
	out := slices.Clone(keys[:random])
	sort.SliceStable(keys, func(i, j int) bool { return len(c.visits[keys[i]]) > len(c.visits[keys[j]]) })
	return append(out, keys[:frequent]...)
}

// passes is the filter once more.
func passes(tags map[string]string, f reference.Filter) bool {
	white, black, year := number(tags["WhiteElo"]), number(tags["BlackElo"]), number(tags["Date"][:4])
	class := clock.ClassUnknown
	if c, err := clock.ParseControl(tags["TimeControl"]); err == nil {
		class = c.Class()
	}
	return white >= f.MinRating && black >= f.MinRating &&
		(f.FromYear == 0 || year >= f.FromYear) && (f.ToYear == 0 || year <= f.ToYear && year > 0) &&
		(f.Class == clock.ClassUnknown || f.Class == class) && (!f.OnlyOverTheBoard || tags["Mode"] == "OTB")
}

func number(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}

// slowMove gathers one move from a position; "" gathers all games that were there.
type slowMove struct{ games, white, draws, black, best, sum, rated, last int }

func (m *slowMove) add(tags map[string]string, mover string) {
	m.games++
	switch tags["Result"] {
	case "1-0":
		m.white++
	case "0-1":
		m.black++
	case "1/2-1/2":
		m.draws++
	}
	if rating := number(tags[mover+"Elo"]); rating > 0 {
		m.best = max(m.best, rating)
		m.sum += rating
		m.rated++
	}
	m.last = max(m.last, number(tags["Date"][:4]))
}

// compare holds an answer against the count and returns how many moves it has.
func (c *slowCount) compare(index *reference.Index, key string, f reference.Filter) int {
	position, err := bitboard.ParseFEN(c.fens[key])
	if err != nil {
		c.t.Fatal(err)
	}
	mover := "White"
	if position.Turn() == bitboard.Black {
		mover = "Black"
	}
	want := map[string]*slowMove{"": {}}
	for _, v := range c.visits[key] {
		tags := c.games[v.game]
		if !passes(tags, f) {
			continue
		}
		if want[v.move] == nil {
			want[v.move] = &slowMove{}
		}
		want[""].add(tags, mover)
		if v.move != "" {
			want[v.move].add(tags, mover)
		}
	}
	var answer reference.Answer
	if err := index.Lookup(position.Hash(), f, &answer); err != nil {
		c.t.Fatal(err)
	}
	c.equal(position.FEN(), f, &answer, want, len(c.visits[key]))
	return len(answer.Moves)
}

func (c *slowCount) equal(fen string, f reference.Filter, answer *reference.Answer, want map[string]*slowMove, unfiltered int) {
	all := want[""]
	got := fmt.Sprint(answer.Games, answer.White, answer.Draws, answer.Black, answer.Unfiltered)
	if w := fmt.Sprint(all.games, all.white, all.draws, all.black, unfiltered); got != w {
		c.t.Errorf("%s with %+v: %s, want %s", fen, f, got, w)
	}
	if len(answer.Moves) != len(want)-1 {
		c.t.Errorf("%s with %+v: %d moves, want %d", fen, f, len(answer.Moves), len(want)-1)
	}
	for _, m := range answer.Moves {
		w := want[bitboard.Move(m.Move).String()]
		if w == nil {
			c.t.Errorf("%s with %+v: %v was never played", fen, f, bitboard.Move(m.Move))
			continue
		}
		mean := 0
		if w.rated > 0 {
			mean = (w.sum + w.rated/2) / w.rated
		}
		got := fmt.Sprint(m.Games, m.White, m.Draws, m.Black, m.BestRating, m.MeanRating, m.LastYear)
		if w := fmt.Sprint(w.games, w.white, w.draws, w.black, w.best, mean, w.last); got != w {
			c.t.Errorf("%s with %+v: %v: %s, want %s", fen, f, bitboard.Move(m.Move), got, w)
		}
	}
}
