package reference

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay/clock"
)

func randomHabit(r *rand.Rand, i int) Habit {
	h := Habit{Player: fmt.Sprintf("Player %d", i), Class: clock.Class(r.IntN(4)), Games: r.IntN(1000),
		Prepared: [3]int{r.IntN(10), 10 + r.IntN(10), 20 + r.IntN(200)}}
	if i%2 == 0 {
		h.Player = strings.ToUpper(h.Player)
	}
	for m := range r.IntN(40) {
		h.Spent = append(h.Spent, HabitMove{m + 1, time.Duration(r.IntN(3_600_000)) * time.Millisecond, r.IntN(500)})
	}
	for m := range r.IntN(4) {
		h.Left = append(h.Left, HabitLeft{10 * (m + 1), time.Duration(r.IntN(9_000_000)) * time.Millisecond, r.IntN(500)})
	}
	return h
}

func habitIndexOf(t *testing.T, habits []Habit) *Index {
	t.Helper()
	path := filepath.Join(t.TempDir(), "index")
	w, err := Create(path, Head{})
	if err != nil {
		t.Fatal(err)
	}
	for _, h := range habits {
		if err := w.AddHabit(h); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Commit(); err != nil {
		t.Fatal(err)
	}
	x, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { x.Close() })
	return x
}

// TestHabits finds all habits again, by any case of the name, and no others.
func TestHabits(t *testing.T) {
	for _, n := range []int{0, 1, 2, 500} {
		r := rand.New(rand.NewPCG(uint64(n), 1))
		type key struct {
			player string
			class  clock.Class
		}
		want := make(map[key]Habit)
		for i := range n {
			h := randomHabit(r, i/2)
			want[key{strings.ToLower(h.Player), h.Class}] = h
		}
		var habits []Habit
		for _, h := range want {
			habits = append(habits, h)
		}
		slices.SortFunc(habits, Habit.Compare)
		x := habitIndexOf(t, habits)
		if err := x.Verify(); err != nil {
			t.Fatal(err)
		}
		for i := -1; i <= n; i++ {
			for class := range clock.Class(5) {
				name := fmt.Sprintf("pLAYER %d", i)
				got, ok := x.Habits(name, class)
				h, there := want[key{strings.ToLower(name), class}]
				if ok != there || !reflect.DeepEqual(got, h) {
					t.Fatalf("%s, %v: %+v, %v; want %+v, %v", name, class, got, ok, h, there)
				}
			}
		}
	}
}

// TestHabitLimits refuses what is out of order or out of bounds, and keeps whole
// milliseconds.
func TestHabitLimits(t *testing.T) {
	rows := make([]HabitMove, HabitRowsMost+1)
	for name, tt := range map[string]struct {
		habits []Habit
		want   error
	}{
		"unsorted":       {[]Habit{{Player: "b"}, {Player: "A"}}, ErrUnsorted},
		"same but case":  {[]Habit{{Player: "a"}, {Player: "A"}}, ErrUnsorted},
		"by class":       {[]Habit{{Player: "a", Class: 1}, {Player: "A", Class: 2}}, nil},
		"name at limit":  {[]Habit{{Player: strings.Repeat("a", NameMost)}}, nil},
		"name too long":  {[]Habit{{Player: strings.Repeat("a", NameMost+1)}}, ErrLimit},
		"moves at limit": {[]Habit{{Player: "a", Spent: rows[1:]}}, nil},
		"many moves":     {[]Habit{{Player: "a", Spent: rows}}, ErrLimit},
		"negative":       {[]Habit{{Player: "a", Games: -1}}, ErrLimit},
		"negative time":  {[]Habit{{Player: "a", Left: []HabitLeft{{10, -time.Second, 1}}}}, ErrLimit},
		"class":          {[]Habit{{Player: "a", Class: classBits + 1}}, ErrLimit},
	} {
		w, _ := create(t, 0)
		var err error
		for _, h := range tt.habits {
			if err = w.AddHabit(h); err != nil {
				break
			}
		}
		if !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, want %v", name, err, tt.want)
		}
		w.Abort()
	}
	x := habitIndexOf(t, []Habit{{Player: "a", Spent: []HabitMove{{1, 1500 * time.Microsecond, 1}}}})
	if h, ok := x.Habits("A", 0); !ok || h.Spent[0].Median != time.Millisecond {
		t.Errorf("%+v, %v", h, ok)
	}
}
