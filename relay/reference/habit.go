package reference

import (
	"cmp"
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"time"

	"clocktell/relay/clock"
)

// Habit is how a player used the clock in past games of a class.
type Habit struct {
	Player   string // at most NameMost bytes
	Class    clock.Class
	Games    int         // games that this is from
	Prepared [3]int      // own moves in preparation: lower quartile, median, upper quartile
	Spent    []HabitMove // by own move
	Left     []HabitLeft // on the clock at own moves such as 10, 20 and 30
}

// HabitMove is what a player usually spent on a move.
type HabitMove struct {
	Move   int
	Median time.Duration // whole milliseconds are kept
	Games  int
}

// HabitLeft is what a player usually had left after a move.
type HabitLeft HabitMove

// HabitRowsMost is how many moves a Habit may have in Spent, and in Left.
const HabitRowsMost = 512

// Compare orders habits as Writer.AddHabit wants them: by the player's name in
// lower case, then by class.
func (h Habit) Compare(other Habit) int {
	return cmp.Or(cmp.Compare(foldName(h.Player), foldName(other.Player)), cmp.Compare(h.Class, other.Class))
}

func foldName(name string) string { return strings.ToLower(name) }

// habitWriter writes habits as they come and keeps where each begins.
type habitWriter struct {
	any      bool
	previous Habit
	begins   []uint32
	size     int64
	buf      []byte
}

func (w *habitWriter) add(out *sink, h Habit) error {
	if w.any && w.previous.Compare(h) >= 0 {
		return fmt.Errorf("habit: %w: %q after %q", ErrUnsorted, h.Player, w.previous.Player)
	}
	b, err := h.append(w.buf[:0])
	if err != nil {
		return err
	}
	if w.size+int64(len(b)) > math.MaxUint32 {
		return fmt.Errorf("habit: %w: 4 GiB", ErrLimit)
	}
	w.begins = append(w.begins, uint32(w.size))
	w.any, w.previous, w.buf = true, Habit{Player: strings.Clone(h.Player), Class: h.Class}, b
	w.size += int64(len(b))
	out.write(b)
	return out.err
}

// end writes where each habit begins and how many there are.
func (w *habitWriter) end(out *sink) {
	var row [4]byte
	for _, begin := range append(w.begins, uint32(len(w.begins))) {
		binary.LittleEndian.PutUint32(row[:], begin)
		out.write(row[:])
	}
}

func (h Habit) append(b []byte) ([]byte, error) {
	if len(h.Player) > NameMost || h.Class > classBits || len(h.Spent) > HabitRowsMost || len(h.Left) > HabitRowsMost {
		return nil, fmt.Errorf("habit: %w: %q, class %d, %d and %d moves", ErrLimit, h.Player, h.Class, len(h.Spent), len(h.Left))
	}
	b = append(append(b, byte(len(h.Player))), h.Player...)
	b = append(b, byte(h.Class))
	numbers := append(append(make([]int, 0, 64), h.Games), h.Prepared[:]...)
	numbers = append(numbers, len(h.Spent))
	for _, m := range h.Spent {
		numbers = append(numbers, m.Move, int(m.Median.Milliseconds()), m.Games)
	}
	numbers = append(numbers, len(h.Left))
	for _, m := range h.Left {
		numbers = append(numbers, m.Move, int(m.Median.Milliseconds()), m.Games)
	}
	for _, n := range numbers {
		if n < 0 {
			return nil, fmt.Errorf("habit: %w: %q has %d", ErrLimit, h.Player, n)
		}
		b = binary.AppendUvarint(b, uint64(n))
	}
	return b, nil
}
