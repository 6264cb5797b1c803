package relay

import (
	"slices"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

// Habit is how a player used the clock in past games of the reference with clocks, at
// the time class of the game on the board.
type Habit struct {
	Games    int     // that it is from; 0: the reference has none
	Prepared [3]int  // own moves in preparation: lower quartile, median, upper quartile
	Spent    []Usual // by own move
	Left     []Usual // on the clock after own moves such as 10, 20 and 30
}

// Usual is the median at one own move.
type Usual struct {
	Move  int
	Time  time.Duration
	Games int
}

// habitLeast is how many games it takes before a habit is told.
const habitLeast = 10

// Told reports that a habit comes from enough games to be told.
func (h *Habit) Told() bool { return h != nil && h.Games >= habitLeast }

// preparation says how long the player's preparation usually lasts, behind other
// evidence; "" if too few games tell.
func (h *Habit) preparation(in prompt.Language) string {
	if !h.Told() {
		return ""
	}
	return "; " + in.Prepared(h.Prepared[0], h.Prepared[1], h.Prepared[2], h.Games)
}

// SpentOn returns what the player usually spends on an own move, if enough games tell.
func (h *Habit) SpentOn(move int) (Usual, bool) {
	if !h.Told() {
		return Usual{}, false
	}
	i := slices.IndexFunc(h.Spent, func(u Usual) bool { return u.Move == move && u.Games >= habitLeast })
	if i < 0 {
		return Usual{}, false
	}
	return h.Spent[i], true
}

// habitKey says whose habit it is, and at which time class: a feed may correct both.
type habitKey struct {
	name  string
	class clock.Class
}

// AskedHabit is a player whose habit a board still lacks.
type AskedHabit struct {
	Side  clock.Side
	Name  string
	Class clock.Class
}

// KnownHabit is the answer for one player.
type KnownHabit struct {
	Side  clock.Side
	Name  string      // asked for
	Class clock.Class // asked for; unknown in journals of earlier versions: that of the game
	Habit Habit
}

// UnansweredHabits lists the players whose habit the reference has not been asked for.
func (b *Board) UnansweredHabits() []AskedHabit {
	var out []AskedHabit
	for side, p := range b.Players {
		asked := habitKey{p.Name, b.Control.Class()}
		if p.Name != "" && b.Control.Known() && (b.Habits[side] == nil || b.habitOf[side] != asked) {
			out = append(out, AskedHabit{Side: clock.Side(side), Name: asked.name, Class: asked.class})
		}
	}
	return out
}

// withHabits takes answers for the players as they are now, and reports whether any was
// news.
func (b *Board) withHabits(answers []KnownHabit) bool {
	news := false
	for _, a := range answers {
		side := a.Side & 1
		now := habitKey{b.Players[side].Name, b.Control.Class()}
		asked := habitKey{a.Name, a.Class}
		if a.Class == clock.ClassUnknown {
			asked.class = now.class
		}
		if asked == now && (b.Habits[side] == nil || b.habitOf[side] != asked) {
			habit := a.Habit
			b.Habits[side], b.habitOf[side] = &habit, asked
			news = true
		}
	}
	return news
}
