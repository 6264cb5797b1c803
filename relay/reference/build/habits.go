package build

import (
	"cmp"
	"context"
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
	habitPlayers = 30_000 // players and classes at most; the least number of games rises until they fit
)

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
	games []playedTimes // the newest habitGames
}

// playedTimes are the times of a game, and which side the player had.
type playedTimes struct {
	side  clock.Side
	times string // as they are spilled
}

// eachSide tells every side of a game that has times.
func eachSide(r *row, take func(who whose, name string, side clock.Side)) {
	if len(r.times) == 0 || r.Class == clock.ClassUnknown {
		return
	}
	for side, name := range [...]string{r.White, r.Black} {
		if name != "" {
			take(whose{strings.ToLower(name), r.Class}, name, clock.Side(side))
		}
	}
}

// addHabits works out the habits and writes them. It reads the games of all runs twice:
// who has enough games, and what those say.
func addHabits(ctx context.Context, w *work, out *reference.Writer) error {
	h := habitual{games: make(map[whose]int), times: make(map[whose]*lastTimes)}
	if err := h.each(ctx, w, func(_ *row, who whose, _ string, _ clock.Side) { h.games[who]++ }); err != nil {
		return err
	}
	least := h.least()
	err := h.each(ctx, w, func(r *row, who whose, name string, side clock.Side) {
		if h.games[who] >= least {
			h.take(who, name, playedTimes{side, string(r.times)})
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

func (h *habitual) each(ctx context.Context, w *work, take func(*row, whose, string, clock.Side)) error {
	for i := range w.manifest.Runs {
		if err := ctx.Err(); err != nil {
			return err
		}
		err := w.eachGame(&w.manifest.Runs[i], func(r *row) error {
			eachSide(r, func(who whose, name string, side clock.Side) { take(r, who, name, side) })
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

func (h *habitual) take(who whose, name string, times playedTimes) {
	last := h.times[who]
	if last == nil {
		last = &lastTimes{name: name}
		h.times[who] = last
	}
	if len(last.games) == habitGames {
		last.games = slices.Delete(last.games, 0, 1)
	}
	last.games = append(last.games, times)
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
	games, ends := make([]sideTimes, len(last.games)), make([]uint16, len(last.games))
	for i, played := range last.games {
		times := readTimes([]byte(played.times))
		games[i], ends[i] = times.sides[played.side], times.prepared(played.side)
	}
	prepared := known(ends)
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
	out := make([]uint16, len(games))
	for i := range games {
		out[i] = of(&games[i])
	}
	return known(out)
}

// known returns the values that are known, sorted.
func known(values []uint16) []uint16 {
	values = slices.DeleteFunc(values, func(v uint16) bool { return v == unknownTime })
	slices.Sort(values)
	return values
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
