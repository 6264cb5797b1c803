package build

import (
	"cmp"
	"context"
	"encoding/binary"
	"slices"
	"strings"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/reference"
)

// Bounds of the habits.
const (
	habitLeast   = 10     // games with clocks before a player's habit is kept
	habitGames   = 32     // the last so many of them make it
	habitPlayers = 50_000 // players and classes at most; the least number of games rises until they fit
)

// timesBytes is a side's times as they are spilled, little-endian.
const timesBytes = 2 * (1 + len(leftMoves) + spentMoves)

func (t *sideTimes) append(b []byte) []byte {
	b = binary.LittleEndian.AppendUint16(b, t.prepared)
	for _, s := range append(t.left[:], t.spent[:]...) {
		b = binary.LittleEndian.AppendUint16(b, s)
	}
	return b
}

func readTimes(b []byte) sideTimes {
	next := func() uint16 {
		v := binary.LittleEndian.Uint16(b)
		b = b[2:]
		return v
	}
	t := sideTimes{prepared: next()}
	for i := range t.left {
		t.left[i] = next()
	}
	for i := range t.spent {
		t.spent[i] = next()
	}
	return t
}

// whose is a player, as the reference finds them, in a class.
type whose struct {
	player string // in lower case
	class  clock.Class
}

// habitual gathers the habits of the players of all runs.
type habitual struct {
	games map[whose]int
	times map[whose]*lastTimes
}

// lastTimes are those of a player's last games, in the order of the files.
type lastTimes struct {
	name  string
	games []string // spilled times, the newest habitGames
}

// eachSide tells every side of a run's games that has times.
func eachSide(r *row, take func(who whose, name string, times []byte)) {
	if len(r.times) == 0 || r.Class == clock.ClassUnknown {
		return
	}
	for side, name := range [...]string{r.White, r.Black} {
		if name != "" {
			take(whose{strings.ToLower(name), r.Class}, name, r.times[side*timesBytes:(side+1)*timesBytes])
		}
	}
}

// addHabits works out the habits and writes them. It reads the games of all runs twice:
// who has enough games, and what those say.
func addHabits(ctx context.Context, w *work, out *reference.Writer) error {
	h := habitual{games: make(map[whose]int), times: make(map[whose]*lastTimes)}
	if err := h.each(ctx, w, func(who whose, _ string, _ []byte) { h.games[who]++ }); err != nil {
		return err
	}
	least := h.least()
	err := h.each(ctx, w, func(who whose, name string, times []byte) {
		if h.games[who] >= least {
			h.take(who, name, times)
		}
	})
	if err != nil {
		return err
	}
	for _, habit := range h.habits() {
		if err := out.AddHabit(habit); err != nil {
			return err
		}
	}
	return nil
}

func (h *habitual) each(ctx context.Context, w *work, take func(whose, string, []byte)) error {
	for i := range w.manifest.Runs {
		if err := ctx.Err(); err != nil {
			return err
		}
		err := w.eachGame(&w.manifest.Runs[i], func(r *row) error {
			eachSide(r, take)
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// least returns the number of games from which on a habit is kept.
func (h *habitual) least() int {
	var enough []int
	for _, n := range h.games {
		if n >= habitLeast {
			enough = append(enough, n)
		}
	}
	if len(enough) <= habitPlayers {
		return habitLeast
	}
	slices.SortFunc(enough, func(x, y int) int { return cmp.Compare(y, x) })
	return enough[habitPlayers-1] + 1
}

func (h *habitual) take(who whose, name string, times []byte) {
	last := h.times[who]
	if last == nil {
		last = &lastTimes{name: name}
		h.times[who] = last
	}
	if len(last.games) == habitGames {
		last.games = slices.Delete(last.games, 0, 1)
	}
	last.games = append(last.games, string(times))
}

// habits returns them in the order of the file.
func (h *habitual) habits() []reference.Habit {
	var out []reference.Habit
	for who, last := range h.times {
		out = append(out, habitOf(last, who.class))
	}
	slices.SortFunc(out, reference.Habit.Compare)
	return out
}

func habitOf(last *lastTimes, class clock.Class) reference.Habit {
	habit := reference.Habit{Player: last.name, Class: class, Games: len(last.games)}
	games := make([]sideTimes, len(last.games))
	for i, text := range last.games {
		games[i] = readTimes([]byte(text))
	}
	prepared := column(games, func(t *sideTimes) uint16 { return t.prepared })
	for k := range habit.Prepared {
		habit.Prepared[k] = int(quantile(prepared, k+1, 4))
	}
	for move := range spentMoves {
		if c := column(games, func(t *sideTimes) uint16 { return t.spent[move] }); len(c) > 0 {
			habit.Spent = append(habit.Spent, reference.HabitMove{Move: move + 1, Median: inSeconds(quantile(c, 1, 2)), Games: len(c)})
		}
	}
	for k, move := range leftMoves {
		if c := column(games, func(t *sideTimes) uint16 { return t.left[k] }); len(c) > 0 {
			habit.Left = append(habit.Left, reference.HabitLeft{Move: move, Median: inSeconds(quantile(c, 1, 2)), Games: len(c)})
		}
	}
	return habit
}

// column returns the known values of one figure, sorted.
func column(games []sideTimes, of func(*sideTimes) uint16) []uint16 {
	var out []uint16
	for i := range games {
		if v := of(&games[i]); v != unknownTime {
			out = append(out, v)
		}
	}
	slices.Sort(out)
	return out
}

// quantile returns the smallest value that at least k of n parts do not exceed; 0 of
// none.
func quantile(sorted []uint16, k, n int) uint16 {
	if len(sorted) == 0 {
		return 0
	}
	return sorted[(len(sorted)*k+n-1)/n-1]
}

func inSeconds(s uint16) time.Duration { return time.Duration(s) * time.Second }
