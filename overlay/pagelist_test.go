package overlay

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// roll is a list of pages under test, with a wall clock of its own.
type roll struct {
	*pages
	t     testing.TB
	clock time.Time
	came  int
}

func newRoll(t testing.TB) *roll {
	r := &roll{pages: newPages(10_000), t: t, clock: time.Date(2026, 3, 14, 19, 0, 0, 0, time.UTC)}
	r.wall = func() time.Time { return r.clock }
	return r
}

// enter lets a page in.
func (r *roll) enter(kind string, h held) *connected {
	r.t.Helper()
	r.came++
	c := &connected{kind: kind, held: h, from: fmt.Sprintf("127.0.0.1:%d", 20_000+r.came), since: r.clock}
	if err := r.add(c); err != nil {
		r.t.Fatal(err)
	}
	return c
}

// told is the frame as a page that asks now reads it, and its revision.
func (r *roll) told(holds relay.Holds) (frame wire.Pages, rev uint64) {
	r.t.Helper()
	sent, rev := r.list(holds)
	if err := json.Unmarshal(sent[strings.IndexByte(string(sent), '{'):], &frame); err != nil {
		r.t.Fatal(err)
	}
	return frame, rev
}

// froms are the addresses of listed pages, in their order.
func froms(frame wire.Pages) (list []string) {
	for _, item := range frame.Items {
		list = append(list, item.From)
	}
	return list
}

// addresses are those of pages.
func addresses(pages ...*connected) (list []string) {
	for _, c := range pages {
		list = append(list, c.from)
	}
	return list
}

// TestListedPagesAreLimited: of a crowd so many rows are sent and no more, with sums over all of
// it; what the metrics read is true, too.
func TestListedPagesAreLimited(t *testing.T) {
	for _, crowd := range []int{0, 1, pagesListed - 1, pagesListed, pagesListed + 1, 2000} {
		r := newRoll(t)
		for n := range crowd {
			c := r.enter("scene/board", held{})
			r.wasLate(c, []int64{10, wire.LateMs})
			if n%4 == 0 {
				r.wasLate(c, []int64{wire.LateMs + 1})
			}
		}
		frame, _ := r.told(relay.Holds{})
		late := (crowd + 3) / 4
		if len(frame.Items) != min(crowd, pagesListed) || frame.Count != crowd || frame.InTrouble != late || frame.Frames != 2*crowd+late || frame.LateFrames != late {
			t.Errorf("of %d pages, %d in trouble, the frame has %d rows, and says %d pages, %d in trouble, %d of %d frames late",
				crowd, late, len(frame.Items), frame.Count, frame.InTrouble, frame.LateFrames, frame.Frames)
		}
		want := []wire.PageCount{}
		if crowd > 0 {
			want = append(want, wire.PageCount{Name: "scene/board", Count: crowd})
		}
		if !slices.Equal(frame.Kinds, want) || r.now().Connected["scene/board"] != crowd {
			t.Errorf("%d scenes are told as %v, and by the metrics as %v", crowd, frame.Kinds, r.now().Connected)
		}
	}
}

// TestListedGroupsAreLimited: scenes may name any group; those whose hold is set are always told.
func TestListedGroupsAreLimited(t *testing.T) {
	r := newRoll(t)
	for n := range groupsListed + 20 {
		r.enter("scene/board", held{group: fmt.Sprintf("a%03d", n)})
	}
	r.enter("scene/board", held{group: "zebra"})
	r.enter("scene/wall", held{group: "zebra"})
	frame, _ := r.told(relay.Holds{Groups: []relay.Hold{{Group: "zebra", For: time.Second}}})
	if len(frame.Groups) != groupsListed || frame.MoreGroups != 21 {
		t.Fatalf("%d groups are told and %d more, want %d and 21", len(frame.Groups), frame.MoreGroups, groupsListed)
	}
	if first, second := frame.Groups[0], frame.Groups[1]; first != (wire.PageCount{Name: "zebra", Count: 2}) || second.Name != "a000" {
		t.Errorf("the first groups are %v and %v", first, second)
	}
}

// TestListIsShort: however long everything is that a row may have, a list has its limit.
func TestListIsShort(t *testing.T) {
	r := newRoll(t)
	for n := range 2000 {
		c := r.enter("scene/challenge", held{group: fmt.Sprintf("%s%04d", strings.Repeat("g", 20), n)})
		c.board, c.from, c.superseded = 500, "[2001:0db8:0000:0000:0000:0000:0000:0001%longname0]:65535", 1<<62
		for range lateKept {
			r.wasLate(c, []int64{lateMost})
		}
	}
	for range latePieces {
		r.clock = r.clock.Add(latePiece)
		r.past.add("scene/board", []int64{lateMost}, r.clock)
		r.past.add("panel", []int64{lateMost}, r.clock)
	}
	sent, _ := r.list(relay.Holds{})
	t.Logf("%d bytes", len(sent))
	if most := 64 << 10; len(sent) > most {
		t.Errorf("a list has %d bytes, more than %d", len(sent), most)
	}
}

// TestListOfNothingNew: the list has its old revision as long as nothing in it is other than it was.
func TestListOfNothingNew(t *testing.T) {
	r := newRoll(t)
	c := r.enter("scene/board", held{})
	r.enter("panel", held{})
	_, first := r.told(relay.Holds{})
	for range 3 {
		r.clock = r.clock.Add(pagesEvery)
		r.wasLate(c, nil) // a ping
		if _, rev := r.told(relay.Holds{}); rev != first {
			t.Fatalf("revision %d follows %d, with nothing new", rev, first)
		}
	}
	r.wasLate(c, []int64{7})
	if _, rev := r.told(relay.Holds{}); rev != first {
		t.Error("within listedFor the list is made again")
	}
	r.clock = r.clock.Add(pagesEvery)
	if frame, rev := r.told(relay.Holds{}); rev != first+1 || !slices.Equal(frame.Items[1].Late, []int64{7}) {
		t.Errorf("after a figure, revision %d follows %d, with %+v", rev, first, frame.Items)
	}
	if _, rev := r.told(relay.Holds{Rev: 1, Groups: []relay.Hold{{Group: "air"}}}); rev != first+1 {
		t.Errorf("revision %d for a hold that no page has", rev)
	}
}

func BenchmarkPagesListed(b *testing.B) {
	for _, crowd := range []int{150, 2000, 10_000} {
		b.Run(fmt.Sprint(crowd), func(b *testing.B) {
			r := newRoll(b)
			for n := range crowd {
				c := r.enter("scene/board", held{})
				for k := range lateKept {
					r.wasLate(c, []int64{int64(10 + (n*7+k*13)%90)})
				}
			}
			for n := range latePieces * lateOfOne {
				if n%lateOfOne == 0 {
					r.clock = r.clock.Add(latePiece)
				}
				r.past.add("scene/board", []int64{int64(n * 13 % 90)}, r.clock)
			}
			var sent message
			for b.Loop() {
				r.clock = r.clock.Add(pagesEvery)
				sent, _ = r.list(relay.Holds{})
			}
			b.ReportMetric(float64(len(sent)), "frame-B")
		})
	}
}

// TestListIsSentOnce: a page hears of the others within a second, and again when there is
// news: here that it sends no ping, and then that another one came.
func TestListIsSentOnce(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		health, start := h.open("page=health"), time.Now()
		for _, step := range []struct {
			at               time.Duration
			count, inTrouble int
		}{{pagesEvery, 1, 0}, {silentAfter + pagesEvery, 1, 1}, {silentAfter + 2*pagesEvery, 2, 1}} {
			var frame wire.Pages
			health.until(wire.TypePages, &frame)
			if at := time.Since(start); at != step.at || frame.Count != step.count || frame.InTrouble != step.inTrouble {
				t.Errorf("after %v it is told of %d pages, %d in trouble; want %d, %d after %v", at, frame.Count, frame.InTrouble, step.count, step.inTrouble, step.at)
			}
			if step.inTrouble == 1 && step.count == 1 {
				h.open("page=scene/board")
			}
		}
	})
}
