package relay_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/desk"
	"clocktell/relay/relaytest"
)

// notKept are the fields of boards and plies that are not kept for scenes, which are not sent
// what they hold.
var notKept = []string{"Offers", "Pinned", "Hand", "Question", "Errors", "Opinion", "Second"}

// TestPastIsWhatWas lets random worlds go by, and long thinks, and holds every board of the past
// to the board that was published, field by field.
func TestPastIsWhatWas(t *testing.T) {
	const worlds, steps = 4, 120
	for seed := range uint64(worlds) {
		w := newWorld(t, seed)
		w.run(steps)
		checkPast(t, w.stage)
	}
	s := relaytest.NewStage()
	s.Record = true
	const plies = 30
	g := relaytest.Game{Control: "1500+10", Moves: strings.Join(strings.Fields(ruy)[:plies], " "), Clocks: make([]string, plies)}
	for i := range g.Clocks {
		g.Clocks[i] = clock.Format(25*time.Minute - time.Duration(i/2)*20*time.Second)
	}
	s.Take(g.PGN())
	for range 400 {
		s.Same(time.Second)
	}
	if n := checkPast(t, s); n < 12 {
		t.Errorf("time alone made %d revisions of a long think, want a dozen", n)
	}
}

// checkPast lets the events of a stage happen once more, and returns how many revisions of boards
// time alone has made. Some shows are never published, as when two events come at once.
func checkPast(t *testing.T, stage *relaytest.Stage) (ticks int) {
	plan := relaytest.PlanWithBackup()
	past, twin, revs := relay.NewHistory(), newTwin(plan), make(map[int]uint64)
	r := rand.New(rand.NewPCG(uint64(len(stage.Events)), 1))
	see := func(show *relay.Show) {
		if r.IntN(4) == 0 {
			return
		}
		kept, _ := relay.NewAfter(past, show, relay.NewTimebaseAt(show.At, 1)).ShownAt(show.At.Add(time.Hour))
		for i, b := range show.Boards {
			if revs[i] == b.Rev {
				continue // what is no revision is not for scenes
			}
			revs[i] = b.Rev
			want, got := fieldsOf(*b)+answersOf(b), fieldsOf(*kept.Boards[i])+answersOf(kept.Boards[i])
			if want != got {
				t.Fatalf("at %v board %d was\n%s\nand is kept as\n%s", show.At, i+1, want, got)
			}
			if !b.News && b.Since.Equal(show.At) && b.Keep == len(b.Plies) && b.Keep > 0 {
				ticks++
			}
		}
	}
	for _, e := range stage.Events {
		twin.show = twin.show.Through(twin.bare(e), see)
	}
	return ticks
}

// answersOf writes down what a board answers those who send it.
func answersOf(b *relay.Board) string {
	out := fmt.Sprint(b.HalfMove(0), b.HasStart(), b.StartTag(), *b.Place(0), b.KnownAt(0), b.Novelty(), b.RunsFrom(), b.Unsure())
	for _, side := range []clock.Side{clock.White, clock.Black} {
		out += fmt.Sprint(b.Called(side), b.Outlook(side), b.OwnMoves(side), b.Last(side))
	}
	return out
}

// fieldsOf writes down what others can see of a board.
func fieldsOf(b relay.Board) string {
	plies := b.Plies
	b.Plies = nil
	out := visible(b)
	for i := range plies {
		out += "\n" + visible(plies[i])
	}
	return out
}

// TestEveryPartOfABoardIsKept: a board that has another value in any one of its fields is kept with it,
// behind one that has not and as the first.
func TestEveryPartOfABoardIsKept(t *testing.T) {
	typ := reflect.TypeFor[relay.Board]()
	fields := 0
	for i := range typ.NumField() {
		field := typ.Field(i)
		if !field.IsExported() || slices.Contains(notKept, field.Name) {
			continue
		}
		fields++
		before, after := relay.Board{Rev: 1}, relay.Board{Rev: 2}
		setSome(reflect.ValueOf(&after).Elem().Field(i))
		for _, boards := range [][]*relay.Board{{&before, &after}, {&after}, {&after, {Rev: 3}}} {
			past := relay.NewHistory()
			for n, b := range boards {
				show := &relay.Show{Desk: desk.New(), Boards: []*relay.Board{b}, At: relaytest.Start.Add(time.Duration(n) * time.Second)}
				kept, _ := relay.NewAfter(past, show, relay.NewTimebaseAt(show.At, 1)).ShownAt(show.At.Add(time.Hour))
				if want, got := fieldsOf(*b), fieldsOf(*kept.Boards[0]); want != got {
					t.Errorf("with another %s the board is\n%s\nand is kept as\n%s", field.Name, want, got)
				}
			}
		}
	}
	if fields < 25 {
		t.Errorf("found only %d fields", fields)
	}
}

// setSome sets a value to one that is not zero, as far as others can.
func setSome(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[time.Time]() {
			v.Set(reflect.ValueOf(relaytest.Start))
			return
		}
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				setSome(v.Field(i))
			}
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
	case reflect.Array:
		setSome(v.Index(1))
	case reflect.String:
		v.SetString("x")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Float64:
		v.SetFloat(0.5)
	case reflect.Uint64, reflect.Uint8, reflect.Uint32:
		v.SetUint(5)
	default:
		v.SetInt(1)
	}
}

func visible(x any) (out string) {
	v := reflect.ValueOf(x)
	for i := range v.NumField() {
		if f := v.Type().Field(i); f.IsExported() && !slices.Contains(notKept, f.Name) {
			out += fmt.Sprintf("%s %+v; ", f.Name, v.Field(i).Interface())
		}
	}
	return out
}
