package build

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/reference"
	"clocktell/relay/tell"
)

const habitMoves = "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Na5 Bc2 c5 d4 Qc7 Nbd2 cxd4 cxd4 Nc6"

// clockedGame is a game at 15 minutes and 10 seconds whose White spends so many seconds
// on each move; Black always five.
func clockedGame(white string, n int, spent func(own int) int) string {
	var out strings.Builder
	fmt.Fprintf(&out, "[White %q]\n[Black \"Other %d\"]\n[Date \"2020.01.01\"]\n[Result \"1-0\"]\n[TimeControl \"900+10\"]\n\n", white, n)
	left := [2]int{900, 900}
	for i, san := range strings.Fields(habitMoves) {
		took := 5
		if i%2 == 0 {
			took = spent(i/2 + 1)
		}
		left[i%2] += 10 - took
		fmt.Fprintf(&out, "%s {[%%clk 0:%02d:%02d]} ", san, left[i%2]/60, left[i%2]%60)
	}
	out.WriteString("1-0\n\n")
	return out.String()
}

func builtOf(t *testing.T, games string) *reference.Index {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "games.pgn"), filepath.Join(dir, "games.ref")
	if err := os.WriteFile(in, []byte(games), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Run(t.Context(), Options{Out: out, Inputs: []string{in}, Depth: DepthDefault}); err != nil {
		t.Fatal(err)
	}
	x, err := reference.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { x.Close() })
	return x
}

// TestHabits: medians by own move and of the clock are those of the last habitGames
// games, and preparation ends where thinking begins. The expected figures are counted
// here from the clocks the games were written with.
func TestHabits(t *testing.T) {
	var games strings.Builder
	last := make(map[int][]int) // spent on each own move in the games that count
	const all = habitGames + 9
	for n := range all {
		leaves := 6 + n%3 // own move of the first think
		spent := func(own int) int {
			if own < leaves {
				return 2
			}
			return 60 + (n*7+own*13)%40
		}
		games.WriteString(clockedGame("Vasarhely, Ilka", n, spent))
		if n >= all-habitGames {
			for own := 1; own <= 13; own++ {
				last[own] = append(last[own], spent(own))
			}
		}
	}
	got, ok := builtOf(t, games.String()).Habits("VASARHELY, Ilka", clock.ClassRapid)
	if !ok || got.Games != habitGames || len(got.Spent) != 13 {
		t.Fatalf("found %v: %+v", ok, got)
	}
	for _, m := range got.Spent {
		slices.Sort(last[m.Move])
		want := time.Duration(last[m.Move][(habitGames-1)/2]) * time.Second
		if m.Median != want || m.Games != habitGames {
			t.Errorf("move %d: %v in %d games, want %v", m.Move, m.Median, m.Games, want)
		}
	}
	if got.Prepared != [3]int{5, 6, 7} {
		t.Errorf("prepared %v, want quartiles of 5, 6 and 7 moves in equal parts", got.Prepared)
	}
	if len(got.Left) != 1 || got.Left[0].Move != 10 || got.Left[0].Games != habitGames {
		t.Errorf("left: %+v, want the clock at move 10 alone", got.Left)
	}
}

// TestHabitSample: nothing is told of a player with too few games, of another class, or
// of games without clocks.
func TestHabitSample(t *testing.T) {
	var games strings.Builder
	quick := func(int) int { return 3 }
	for n := range habitLeast {
		if n > 0 {
			games.WriteString(clockedGame("Few, A", n, quick))
		}
		games.WriteString(clockedGame("Enough, B", n, quick))
		games.WriteString(strings.ReplaceAll(clockedGame("Clockless, C", n, quick), "%clk", "%none"))
		games.WriteString(strings.ReplaceAll(clockedGame("Controlless, D", n, quick), "900+10", "?"))
	}
	x := builtOf(t, games.String())
	for _, test := range []struct {
		name  string
		class clock.Class
		want  bool
	}{
		{"Few, A", clock.ClassRapid, false}, {"Enough, B", clock.ClassRapid, true}, {"Enough, B", clock.ClassBlitz, false},
		{"Clockless, C", clock.ClassRapid, false}, {"Controlless, D", clock.ClassRapid, false}, {"Controlless, D", clock.ClassUnknown, false},
	} {
		if _, ok := x.Habits(test.name, test.class); ok != test.want {
			t.Errorf("%s, %v: found %v, want %v", test.name, test.class, ok, test.want)
		}
	}
}

// TestHabitRoom: with more players than there is room for, those with the most games
// stay.
func TestHabitRoom(t *testing.T) {
	h := habitual{games: make(map[whose]int)}
	for i := range habitPlayers {
		h.games[whose{fmt.Sprint(i), clock.ClassRapid}] = habitLeast + i%2
	}
	if got := h.least(); got != habitLeast {
		t.Errorf("least %d with room for all, want %d", got, habitLeast)
	}
	h.games[whose{"one more", clock.ClassRapid}] = habitLeast
	if got := h.least(); got != habitLeast+1 {
		t.Errorf("least %d with one too many, want %d", got, habitLeast+1)
	}
}

// TestTimesSpilled: what is spilled comes back, and what is cut is not taken.
func TestTimesSpilled(t *testing.T) {
	want := gameTimes{control: "40/5400+30:1800+30", sides: [2]sideTimes{noTimes(), noTimes()}, plies: 77}
	for i := range want.replies {
		want.replies[i] = tell.Reply(i * 7 % 4)
	}
	want.sides[0].spent[3], want.sides[1].left[2] = 161, 65_534
	text := want.append(nil)
	size, ok := timesSize(append(text, 1, 2, 3))
	if !ok || size != len(text) {
		t.Fatalf("%d bytes of %d, %v", size, len(text), ok)
	}
	if got := readTimes(text); got != want {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
	for n := range text {
		if _, ok := timesSize(text[:n]); ok {
			t.Errorf("%d of %d bytes are taken", n, len(text))
		}
	}
}
