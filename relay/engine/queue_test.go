package engine

import (
	"fmt"
	"maps"
	"slices"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/relay/bitboard"
)

// restless is a show whose boards all move, each at a beat of its own; the first is on
// the air. Positions are made up: nobody plays them.
type restless struct {
	k     *kennel
	every []time.Duration // by board, from 0
	moved []time.Time     // each board's newest position came then; zero: it has been judged
	plies []int
	waits []time.Duration // the longest from a position that is still the newest to its first answer
	gap   []time.Duration // the longest between two answers
	heard []time.Time
}

func (r *restless) wishes() []Wish {
	var out []Wish
	for i, ply := range r.plies {
		class := Newest
		if i == 0 {
			class = OnAir
		}
		out = append(out, Wish{
			Board: i + 1, Ply: ply, Class: class, Key: uint64(1_000_000*i + ply), Limit: Limit{Time: 5 * time.Second},
			Line: func() Line { return Line{Start: bitboard.Start()} },
		})
	}
	return out
}

// run lets the show go on for so long, in steps of a tenth of a second.
func (r *restless) run(d time.Duration) {
	began := time.Now()
	next := make([]time.Time, len(r.every))
	for i := range r.heard {
		r.heard[i] = began
	}
	for time.Since(began) < d {
		news := false
		for i, every := range r.every {
			if !time.Now().Before(next[i]) {
				next[i] = time.Now().Add(every)
				r.plies[i]++
				r.moved[i], news = time.Now(), true
			}
		}
		if news {
			r.k.Want(r.wishes())
		}
		time.Sleep(beat)
		r.hear()
	}
}

func (r *restless) hear() {
	synctest.Wait()
	for len(r.k.answers) > 0 {
		a := <-r.k.answers
		i := a.Wish.Board - 1
		r.gap[i] = max(r.gap[i], time.Since(r.heard[i]))
		r.heard[i] = time.Now()
		if a.Wish.Ply == r.plies[i] && !r.moved[i].IsZero() {
			r.waits[i] = max(r.waits[i], time.Since(r.moved[i]))
			r.moved[i] = time.Time{}
		}
	}
}

// TestNoBoardStarves: the board on the air moves every 2 s and would be searched for 5,
// so that nothing would be left for others. Each of them is judged all the same within
// the time that the queue promises, and the one on the air within a second.
func TestNoBoardStarves(t *testing.T) {
	for _, boards := range []int{2, 12, 64} {
		t.Run(fmt.Sprint(boards), func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) { starve(t, boards) })
		})
	}
}

func starve(t *testing.T, boards int) {
	r := &restless{
		k: run(t, Options{open: piped(always(""))}), every: make([]time.Duration, boards), moved: make([]time.Time, boards),
		plies: make([]int, boards), waits: make([]time.Duration, boards), gap: make([]time.Duration, boards), heard: make([]time.Time, boards),
	}
	for i := range r.every {
		r.every[i] = 7*time.Second + time.Duration(i)*100*time.Millisecond
	}
	r.every[0] = 2 * time.Second
	r.run(20 * time.Minute)
	r.k.stop()
	promised := patience + time.Duration(boards)*(slice+starvedEvery+2*beat)
	others := slices.Max(r.gap[1:])
	if others > promised {
		t.Errorf("a board has waited %v, promised are %v", others, promised)
	}
	if others < patience {
		t.Errorf("no board has waited longer than %v: the show does not keep the engine busy", others)
	}
	if r.waits[0] > time.Second {
		t.Errorf("the board on the air has waited %v for its first answer", r.waits[0])
	}
	t.Logf("%d boards: a position on the air waits %v at most, another board %v of %v", boards, r.waits[0], others, promised)
}

// TestOrder: what is searched first.
func TestOrder(t *testing.T) {
	now := time.Now()
	q := newQueue()
	wish := func(board, ply int, class Class) Wish {
		return Wish{Board: board, Ply: ply, Class: class, Key: uint64(100*board + ply)}
	}
	all := []Wish{wish(4, 9, Past), wish(5, 3, Deep), wish(3, 7, Newest), wish(4, 10, Newest), wish(2, 8, Hot), wish(6, 1, AtDesk), wish(1, 5, OnAir), wish(4, 8, Past)}
	q.set(all, now)
	var got []uint64
	for range all {
		w, ok := q.begin(now)
		if !ok {
			t.Fatal("the queue is empty too early")
		}
		got = append(got, w.Key)
		q.drop(func(other Wish) bool { return other.Key == w.Key })
		now = now.Add(time.Second)
		q.end(w, now)
	}
	if want := []uint64{105, 601, 208, 307, 410, 409, 408, 503}; !slices.Equal(got, want) {
		t.Errorf("searched in the order %v, want %v", got, want)
	}
	if _, ok := q.begin(now); ok {
		t.Error("something is left")
	}
	q.set(nil, now)
	if len(q.since) > 0 {
		t.Errorf("boards that want nothing still wait: %v", slices.Collect(maps.Keys(q.since)))
	}
}

// TestTurns: of boards as urgent as each other the one goes first that has waited longest.
func TestTurns(t *testing.T) {
	now := time.Now()
	q := newQueue()
	wishes := []Wish{{Board: 1, Class: Newest, Key: 1}, {Board: 2, Class: Newest, Key: 2}, {Board: 3, Class: Newest, Key: 3}}
	q.set(wishes, now)
	var got []int
	for range 7 {
		w, _ := q.begin(now)
		got = append(got, w.Board)
		now = now.Add(time.Second)
		q.end(w, now)
		q.set(wishes, now)
	}
	if want := []int{1, 2, 3, 1, 2, 3, 1}; !slices.Equal(got, want) {
		t.Errorf("turns %v, want %v", got, want)
	}
}

// TestSlice: a board that has waited too long gets its slice undisturbed, and no more
// where something is more urgent; the next such slice comes after starvedEvery.
func TestSlice(t *testing.T) {
	now := time.Now()
	q := newQueue()
	air, other, third := Wish{Board: 1, Class: OnAir, Key: 1}, Wish{Board: 2, Class: Newest, Key: 2}, Wish{Board: 3, Class: Newest, Key: 3}
	q.set([]Wish{air, other, third}, now)
	begin := func(want Wish) {
		t.Helper()
		if w, ok := q.begin(now); !ok || w.Board != want.Board {
			t.Fatalf("board %d is searched, want %d", w.Board, want.Board)
		}
	}
	begin(air)
	now = now.Add(patience)
	if q.yields(air, patience, now) {
		t.Error("the board on the air gives way before patience is at its end")
	}
	now = now.Add(time.Millisecond)
	if !q.yields(air, patience, now) {
		t.Error("the board on the air does not give way to one that starves")
	}
	q.end(air, now)
	begin(other)
	now = now.Add(slice)
	if q.yields(other, slice-time.Millisecond, now) || !q.yields(other, slice, now) {
		t.Error("the slice is not what is promised")
	}
	q.end(other, now)
	begin(air)
	now = now.Add(starvedEvery - time.Millisecond)
	if q.yields(air, starvedEvery, now) {
		t.Error("the next slice comes too early")
	}
	now = now.Add(time.Millisecond)
	if !q.yields(air, starvedEvery, now) {
		t.Error("the next slice does not come")
	}
	q.end(air, now)
	begin(third)
}
