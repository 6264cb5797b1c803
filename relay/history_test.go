package relay

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay/desk"
)

var noon = time.Date(2026, 10, 17, 12, 0, 0, 0, time.UTC)

// showOf is a show whose one board looks like no other number's.
func showOf(n int) *Show {
	return &Show{Desk: desk.New(), Boards: []*Board{{Rev: uint64(n)}}}
}

// numberOf is the number of such a show.
func numberOf(s *Show) int { return int(s.Boards[0].Rev) }

// memoryOf is what so many such numbers take.
func memoryOf(shows int) int {
	first := filled(HistoryMost, 1, 0).now().Bytes
	return first + (shows-1)*(stoodBytes+nowBytes)
}

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
		if (show == nil) != (test.show < 0) || show != nil && numberOf(show) != test.show {
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
	if show, next := h.at(noon); numberOf(show) != 3 || !next.IsZero() {
		t.Errorf("show %d, next %v, want the last, 3", numberOf(show), next)
	}
}

// TestHistoryReach: what no scene can be shown any more is forgotten, and nothing else.
func TestHistoryReach(t *testing.T) {
	h := filled(HistoryMost, 9000, time.Second)
	now := noon.Add(8999 * time.Second)
	if show, _ := h.at(now.Add(-HoldMost)); show == nil || numberOf(show) != 8999-1800 {
		t.Errorf("at the longest hold there is %+v, want number %d", show, 8999-1800)
	}
	if n := h.now(); n.States > 1+1800*5/4 || n.Thinned != 0 || n.Reach < HoldMost {
		t.Errorf("%+v is kept, want little more than half an hour of it", n)
	}
}

// TestHistoryMost: past its limit the older past gets coarser, evenly and by as little
// as will do. It reaches back as far, and answers nothing before it was published.
func TestHistoryMost(t *testing.T) {
	const most, shows, every = 800, 12_000, 100 * time.Millisecond // 20 minutes
	h := filled(memoryOf(most), shows, every)
	now := h.now()
	if now.Bytes > memoryOf(most) || now.Thinned == 0 || now.Thinned != uint64(shows+1-now.States) {
		t.Errorf("%+v is kept, want at most %d bytes, and to be told of what was left out", now, memoryOf(most))
	}
	if want := (shows - 1) * every; now.Reach != want {
		t.Errorf("it reaches back %v, want %v", now.Reach, want)
	}
	latest := 0 // how many shows behind its instant an answer is
	for n := range shows {
		show, next := h.at(noon.Add(time.Duration(n) * every))
		if show == nil || numberOf(show) > n {
			t.Fatalf("at the instant of show %d there is %+v, which is newer", n, show)
		}
		if n < shows-1 && !next.After(noon.Add(time.Duration(n)*every)) {
			t.Fatalf("at the instant of show %d the next came %v", n, next)
		}
		behind := n - numberOf(show)
		if latest = max(latest, behind); n > shows-most/5 && behind > 0 {
			t.Errorf("at the instant of show %d of %d there is number %d; what is new is kept whole", n, shows, numberOf(show))
		}
	}
	// 20 minutes in at most 700 places need a grain of 1.7 s at least, and 10 ms doubled
	// again and again come to 2.56 s.
	if late := time.Duration(latest) * every; late > 2560*time.Millisecond || late < time.Second {
		t.Errorf("an answer is up to %v late, want up to 2.56s", late)
	}
	for _, s := range h.boards[0][len(h.boards[0]):cap(h.boards[0])] {
		if s.state.now != nil {
			t.Fatal("a board that was left out is still held in memory")
		}
	}
}

// TestHistoryThinsEachBoardByItself: a board on which little happens is known as finely as ever,
// whatever happens on the others, and what people did for all to see sixteen times as finely.
func TestHistoryThinsEachBoardByItself(t *testing.T) {
	h := &History{most: memoryOf(4000)}
	show := &Show{Desk: desk.New(), Boards: []*Board{{}, {}}}
	const seconds = 1500
	for n := range seconds * 5 {
		next := *show
		next.Boards = slices.Clone(show.Boards)
		next.Boards[0] = &Board{Rev: uint64(n + 1)}
		if n%100 == 7 { // every twenty seconds
			next.Boards[1] = &Board{Rev: uint64(n/100 + 1)}
		}
		if n%100 == 3 || n%100 == 6 {
			next.HeadRev++
		}
		show = &next
		h.keep(noon.Add(time.Duration(n)*time.Second/5), show)
	}
	tops, slow := len(h.tops), len(h.boards[1])
	if tops != 1+seconds/10 || slow != 1+seconds/20 || h.now().Thinned != uint64(seconds*5-len(h.boards[0])) || h.now().Thinned == 0 {
		t.Errorf("%d states of the show and %d of the slow board are kept, %d of the busy one: %+v", tops, slow, len(h.boards[0]), h.now())
	}
}

// TestHistoryForgetsWhatIsCoarse: what has been thinned out is few shows by the time that it is too
// old for any scene, and is forgotten all the same.
func TestHistoryForgetsWhatIsCoarse(t *testing.T) {
	const most, every = 400, 250 * time.Millisecond
	h := &History{most: memoryOf(most)}
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

// TestHistoryCountsBytes: the limit is of what is really held in memory, after some of
// it was thinned out and some forgotten.
func TestHistoryCountsBytes(t *testing.T) {
	h := &History{most: 400_000}
	show := &Show{Desk: desk.New(), Boards: []*Board{{Rev: 1}, {Rev: 1}, {Rev: 1}}}
	for n := range 2500 {
		next := *show
		next.Boards = slices.Clone(show.Boards)
		for i := range 1 + n%2 {
			was := show.Boards[(n+i)%3]
			next.Boards[(n+i)%3] = nextOf(was, n)
		}
		show = &next
		h.keep(noon.Add(time.Duration(n)*time.Second), show)
		if n%100 == 0 {
			checkBytes(t, h)
		}
	}
	if now := h.now(); now.Thinned == 0 || now.Reach > HoldMost*3/2 {
		t.Errorf("%+v: nothing was thinned out or forgotten, so this shows too little", now)
	}
}

// nextOf is a board after another: now and then there is a move, a move is taken back, or another
// game begins.
func nextOf(was *Board, n int) *Board {
	next := &Board{Rev: was.Rev + 1, Game: n / 900, FEN: was.FEN, Plies: was.Plies, Alerts: make([]Alert, n/20%4)}
	next.Calls[n%2].Reasons = []string{strings.Repeat("slow ", n/10%3)}
	switch {
	case n%70 == 0:
		next.Plies = next.Plies[:len(next.Plies)/2]
	case n%3 == 0:
		next.Plies = append(slices.Clone(next.Plies), Ply{Legal: n})
		next.FEN = strings.Repeat("8/", n%9)
	}
	return next
}

// checkBytes adds up everything that is held, each thing once.
func checkBytes(t *testing.T, h *History) {
	t.Helper()
	want, seen := h.tops.bytes(), make(map[any]bool)
	once := func(part any, bytes int) {
		if !seen[part] {
			seen[part] = true
			want += bytes
		}
	}
	for _, line := range h.boards {
		for _, s := range line {
			want += stoodBytes
			once(s.state.game, boardBytes)
			once(s.state.now, nowBytes)
			for _, side := range s.state.now.sides {
				once(side, side.bytes())
			}
			if alerts := s.state.now.alerts; len(alerts) > 0 {
				once(&alerts[0], alertsBytes(alerts))
			}
			moves := s.state.moves
			once(moves, movesBytes+len(moves.fen))
			if cap(moves.plies) > 0 {
				once(&moves.plies[:1][0], pointerBytes*cap(moves.plies))
			}
			for _, ply := range moves.plies {
				once(ply, plyBytes)
			}
		}
	}
	if now := h.now(); now.Bytes != want || want > h.most {
		t.Fatalf("%d bytes are counted, %d kept, at most %d may be", now.Bytes, want, h.most)
	}
}

// TestHistoryKnowsHowManyBoards: a board that comes is there from then on, and one that goes until then.
func TestHistoryKnowsHowManyBoards(t *testing.T) {
	h, boards := NewHistory(), []int{1, 3, 2, 3}
	for n, count := range boards {
		show := &Show{Desk: desk.New()}
		for range count {
			show.Boards = append(show.Boards, &Board{Rev: uint64(n + 1)})
		}
		h.keep(noon.Add(time.Duration(n)*time.Second), show)
	}
	for n, count := range boards {
		show, _ := h.at(noon.Add(time.Duration(n) * time.Second))
		if len(show.Boards) != count || show.Boards[count-1].Rev != uint64(n+1) {
			t.Errorf("at second %d there are %d boards, want %d", n, len(show.Boards), count)
		}
	}
}

// TestStartIsKept: so is what the reference knows of the position in which a game began.
func TestStartIsKept(t *testing.T) {
	b := &Board{Rev: 1, startKnown: &Known{Games: 7}}
	h := NewHistory()
	h.keep(noon, &Show{Desk: desk.New(), Boards: []*Board{b}})
	if show, _ := h.at(noon); show.Boards[0].KnownAt(0) != b.startKnown {
		t.Errorf("it is kept as %+v", show.Boards[0].KnownAt(0))
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
	if kept := show.airedTop(nil, nil).show; kept.ClockErrors != nil || kept.Feeds != nil || kept.dues != nil || show.ClockErrors == nil {
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
		if show, _ := r.ShownAt(late.At.Add(ago)); show == nil || show.Boards[0].Rev != rev {
			t.Errorf("at %v from when it happened: %+v, want revision %d", ago, show, rev)
		}
	}
}
