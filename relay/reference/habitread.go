package reference

import (
	"encoding/binary"
	"io"
	"sort"
	"time"

	"clocktell/relay/clock"
)

// habitIndex holds the section of habits: habits one after the other, where each
// begins (4 bytes each), how many there are (4 bytes).
type habitIndex struct {
	b      []byte // without the tables
	begins []byte
}

func openHabits(from io.ReaderAt, s section) (habitIndex, error) {
	b := make([]byte, 0, s.size)
	err := readSection(from, sectionNames[habitTable], s, func(part []byte) error {
		b = append(b, part...)
		return nil
	})
	if err != nil {
		return habitIndex{}, err
	}
	if len(b) < 4 {
		return habitIndex{}, damaged("section %s is too short", sectionNames[habitTable])
	}
	count := uint64(binary.LittleEndian.Uint32(b[len(b)-4:]))
	rest := uint64(len(b) - 4)
	if count*4 > rest {
		return habitIndex{}, damaged("section %s is too short", sectionNames[habitTable])
	}
	end := rest - count*4
	return habitIndex{b: b[:end], begins: b[end:rest]}, nil
}

func (h *habitIndex) count() int { return len(h.begins) / 4 }

// at returns a habit; one that cannot be read is not ok.
func (h *habitIndex) at(i int) (Habit, bool) {
	begin := uint64(binary.LittleEndian.Uint32(h.begins[4*i:]))
	c := cursor{b: h.b}
	c.take(begin)
	var out Habit
	out.read(&c)
	return out, !c.bad
}

// Habits returns a player's habits in games of a class, if there are any. Upper
// and lower case of the name do not matter.
func (x *Index) Habits(player string, class clock.Class) (Habit, bool) {
	want := Habit{Player: player, Class: class}
	n := x.habits.count()
	i := sort.Search(n, func(i int) bool {
		h, _ := x.habits.at(i)
		return h.Compare(want) >= 0
	})
	if i == n {
		return Habit{}, false
	}
	h, ok := x.habits.at(i)
	if !ok || h.Compare(want) != 0 {
		return Habit{}, false
	}
	return h, true
}

func (h *Habit) read(c *cursor) {
	h.Player = string(c.take(uint64(c.byte())))
	h.Class = clock.Class(c.byte())
	h.Games = int(c.uvarint())
	for i := range h.Prepared {
		h.Prepared[i] = int(c.uvarint())
	}
	for range min(c.uvarint(), HabitRowsMost) {
		h.Spent = append(h.Spent, readHabitMove(c))
	}
	for range min(c.uvarint(), HabitRowsMost) {
		h.Left = append(h.Left, HabitLeft(readHabitMove(c)))
	}
}

func readHabitMove(c *cursor) HabitMove {
	return HabitMove{Move: int(c.uvarint()), Median: time.Duration(c.uvarint()) * time.Millisecond, Games: int(c.uvarint())}
}
