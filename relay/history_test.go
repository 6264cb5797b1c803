package relay

import (
	"reflect"
	"slices"
	"testing"
	"time"

	"clocktell/relay/desk"
)

var noon = time.Date(2026, 10, 17, 12, 0, 0, 0, time.UTC)

// showOf is a show that looks like no other number's.
func showOf(n int) *Show { return &Show{HeadRev: uint64(n), Desk: desk.New()} }

func filled(most, shows int, every time.Duration) *History {
	h := &History{most: most}
	for n := range shows {
		h.keep(noon.Add(time.Duration(n)*every), showOf(n))
	}
	return h
}

func TestHistoryAnswers(t *testing.T) {
	h := filled(HistoryMost, 10, time.Second)
	for _, test := range []struct {
		at         time.Duration
		show, next int // -1: none
	}{
		{-time.Nanosecond, -1, 0}, {0, 0, 1}, {999 * time.Millisecond, 0, 1}, {time.Second, 1, 2}, {9 * time.Second, 9, -1}, {time.Hour, 9, -1},
	} {
		show, next := h.at(noon.Add(test.at))
		if (show == nil) != (test.show < 0) || show != nil && show.HeadRev != uint64(test.show) {
			t.Errorf("at %v the show is %+v, want number %d", test.at, show, test.show)
		}
		if want := noon.Add(time.Duration(test.next) * time.Second); test.next >= 0 && !next.Equal(want) || test.next < 0 && !next.IsZero() {
			t.Errorf("at %v the next comes %v, want number %d", test.at, next, test.next)
		}
	}
}

// TestHistoryOfOneInstant: of what was published at the same instant the last counts,
// and what comes before what is known counts from then.
func TestHistoryOfOneInstant(t *testing.T) {
	h := filled(HistoryMost, 3, 0)
	h.keep(noon.Add(-time.Hour), showOf(3))
	if show, next := h.at(noon); show.HeadRev != 3 || !next.IsZero() {
		t.Errorf("show %d, next %v, want the last, 3", show.HeadRev, next)
	}
}

// TestHistoryReach: what no scene can be shown any more is forgotten, and nothing else.
func TestHistoryReach(t *testing.T) {
	h := filled(HistoryMost, 9000, time.Second)
	now := noon.Add(8999 * time.Second)
	if show, _ := h.at(now.Add(-HoldMost)); show == nil || show.HeadRev != 8999-1800 {
		t.Errorf("at the longest hold there is %+v, want number %d", show, 8999-1800)
	}
	if n := h.now(); n.Shows > 1800*5/4 || n.States != n.Shows || n.Thinned != 0 || n.Reach < HoldMost {
		t.Errorf("%+v is kept, want little more than half an hour of it", n)
	}
}

// TestHistoryMost: past its limit the older past gets coarser, evenly and by as little
// as will do. It reaches back as far, and answers nothing before it was published.
func TestHistoryMost(t *testing.T) {
	const most, shows, every = 800, 12_000, 100 * time.Millisecond // 20 minutes
	h := filled(most, shows, every)
	now := h.now()
	if now.States > most || now.Thinned == 0 {
		t.Errorf("%+v is kept, want at most %d, and to be told of what was left out", now, most)
	}
	if want := (shows - 1) * every; now.Reach != want {
		t.Errorf("it reaches back %v, want %v", now.Reach, want)
	}
	latest := 0 // how many shows behind its instant an answer is
	for n := range shows {
		show, next := h.at(noon.Add(time.Duration(n) * every))
		if show == nil || show.HeadRev > uint64(n) {
			t.Fatalf("at the instant of show %d there is %+v, which is newer", n, show)
		}
		if n < shows-1 && !next.After(noon.Add(time.Duration(n)*every)) {
			t.Fatalf("at the instant of show %d the next came %v", n, next)
		}
		behind := n - int(show.HeadRev)
		if latest = max(latest, behind); n > shows-most/4 && behind > 0 {
			t.Errorf("at the instant of show %d of %d there is number %d; what is new is kept whole", n, shows, show.HeadRev)
		}
	}
	// 20 minutes in at most 700 places need a grain of 1.7 s at least, and 10 ms doubled
	// again and again come to 2.56 s.
	if late := time.Duration(latest) * every; late > 2560*time.Millisecond || late < time.Second {
		t.Errorf("an answer is up to %v late, want up to 2.56s", late)
	}
	for _, m := range h.kept[len(h.kept):cap(h.kept)] {
		if m.top != nil {
			t.Fatal("a show that was left out is still held in memory")
		}
	}
}

// TestHistoryForgetsWhatIsCoarse: what has been thinned out is few shows by the time that it is too
// old for any scene, and is forgotten all the same.
func TestHistoryForgetsWhatIsCoarse(t *testing.T) {
	const most, every = 400, 250 * time.Millisecond
	h := &History{most: most}
	for n := range int(2 * HoldMost / every) {
		h.keep(noon.Add(time.Duration(n)*every), showOf(n))
		reach := h.now().Reach
		if limit := HoldMost * 5 / 4; reach > limit {
			t.Fatalf("after %v it reaches back %v, want little more than %v", time.Duration(n)*every, reach, HoldMost)
		}
	}
	if now := h.now(); now.Thinned == 0 || now.Reach < HoldMost {
		t.Errorf("%+v: nothing was thinned out, or too much forgotten", now)
	}
}

// TestHistoryCountsStates: the limit is of what is really held in memory, after some of
// it was thinned out and some forgotten.
func TestHistoryCountsStates(t *testing.T) {
	h := &History{most: 600}
	show := &Show{Desk: desk.New(), Boards: []*Board{{Rev: 1}, {Rev: 1}, {Rev: 1}}}
	for n := range 2500 {
		next := *show
		next.Boards = slices.Clone(show.Boards)
		for i := range 1 + n%2 {
			next.Boards[(n+i)%3] = &Board{Rev: uint64(n) + 2}
		}
		show = &next
		h.keep(noon.Add(time.Duration(n)*time.Second), show)
		if n%100 == 0 {
			checkStates(t, h)
		}
	}
	if now := h.now(); now.Thinned == 0 || now.Reach > HoldMost*3/2 {
		t.Errorf("%+v: nothing was thinned out or forgotten, so this shows too little", now)
	}
}

func checkStates(t *testing.T, h *History) {
	t.Helper()
	boards := make(map[*keptBoard]bool)
	for _, m := range h.kept {
		for i := range m.boards.n {
			boards[m.boards.at(i)] = true
		}
	}
	if want := len(boards) + len(h.kept); h.now().States != want || want > h.most {
		t.Fatalf("%d states are counted, %d kept, at most %d may be", h.now().States, want, h.most)
	}
}

// notOnScenes are the parts of a show that scenes are not sent.
var notOnScenes = []string{"FeedsRev", "HereRev", "SourcesRev", "OpinionsRev", "Said", "Table", "Holds"}

// TestHistoryKeepsAllThatScenesShow finds every part of a show that has a revision: a
// new one is kept, or scenes are never sent it.
func TestHistoryKeepsAllThatScenesShow(t *testing.T) {
	base := func() *Show { return &Show{Desk: desk.New(), Boards: []*Board{{Rev: 1}, {Rev: 1}}} }
	changed := map[string]*Show{}
	typ := reflect.TypeFor[Show]()
	for i := range typ.NumField() {
		field, next := typ.Field(i), base()
		value := reflect.ValueOf(next).Elem().Field(i)
		switch {
		case field.Type.Kind() == reflect.Uint64:
			value.SetUint(7)
		case field.Type.Kind() == reflect.Struct && value.FieldByName("Rev").IsValid():
			value.FieldByName("Rev").SetUint(7)
		default:
			continue
		}
		changed[field.Name] = next
	}
	changed["Desk.AirRev"] = base()
	changed["Desk.AirRev"].Desk.AirRev = 7
	changed["Boards[1]"] = base()
	changed["Boards[1]"].Boards[1] = &Board{Rev: 2}
	changed["a third board"] = base()
	changed["a third board"].Boards = append(changed["a third board"].Boards, &Board{Rev: 1})
	if len(changed) < 9 {
		t.Fatalf("found only %d parts with a revision", len(changed))
	}
	for name, next := range changed {
		if kept := !base().sameOnScenes(next); kept == slices.Contains(notOnScenes, name) {
			t.Errorf("a show with another %s is kept: %v; see sameOnScenes and notOnScenes", name, kept)
		}
	}
}

// TestPastHoldsNoListOfHealth: what the health page alone is sent, and what only the loop looks
// at, is not kept with each of thousands of shows; these lists are others after every move.
func TestPastHoldsNoListOfHealth(t *testing.T) {
	show := showOf(1)
	show.ClockErrors, show.Feeds, show.dues = []ClockErrorAt{{At: noon}}, []*Feed{{}}, []time.Time{noon}
	if kept := show.airedTop(nil, nil); kept.ClockErrors != nil || kept.Feeds != nil || kept.dues != nil || show.ClockErrors == nil {
		t.Errorf("kept: %v, %v, %v", kept.ClockErrors, kept.Feeds, kept.dues)
	}
}

// TestPastOfASlowClock: a relay whose clock is behind what it is told of keeps it for scenes that
// are held back from when it happened, not from when that clock said so.
func TestPastOfASlowClock(t *testing.T) {
	begin := time.Date(2026, 10, 17, 12, 0, 0, 0, time.UTC)
	r := NewAfter(NewHistory(), showOf(1), NewTimebaseAt(begin, 1))
	late := showOf(2)
	late.At = begin.Add(time.Hour)
	r.publish(late)
	for ago, rev := range map[time.Duration]uint64{-time.Nanosecond: 1, 0: 2} {
		if show, _ := r.ShownAt(late.At.Add(ago)); show == nil || show.HeadRev != rev {
			t.Errorf("at %v from when it happened: %+v, want revision %d", ago, show, rev)
		}
	}
}
