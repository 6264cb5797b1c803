package overlay

import (
	"slices"
	"testing"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// TestListOrder: what is in trouble comes first, then working pages and scenes held back, then
// the oldest; who comes later moves nobody.
func TestListOrder(t *testing.T) {
	r := newRoll(t)
	scene, held1 := r.enter("scene/board", held{}), r.enter("scene/clocks", held{by: time.Second})
	desk, lateScene := r.enter("desk", held{}), r.enter("scene/wall", held{})
	unset, latePanel := r.enter("scene/board", held{group: "air"}), r.enter("panel", held{})
	r.wasLate(lateScene, []int64{wire.LateMs + 1})
	r.wasLate(latePanel, []int64{900})
	want := addresses(latePanel, unset, lateScene, desk, held1, scene)
	frame, _ := r.told(relay.Holds{})
	if got := froms(frame); !slices.Equal(got, want) {
		t.Errorf("listed are %v, want %v", got, want)
	}
	for range 2 * pagesListed {
		r.enter("scene/board", held{})
	}
	r.clock = r.clock.Add(pagesEvery)
	frame, _ = r.told(relay.Holds{})
	if got := froms(frame)[:len(want)]; !slices.Equal(got, want) {
		t.Errorf("after more have come, listed first are %v, want %v", got, want)
	}
	newest := r.enter("scene/board", held{})
	r.wasLate(newest, []int64{900})
	r.clock = r.clock.Add(pagesEvery)
	frame, _ = r.told(relay.Holds{})
	if got := froms(frame)[3]; got != newest.from {
		t.Errorf("the newest of a crowd, which is late, is not the fourth: %v", froms(frame))
	}
}

// TestTrouble follows a page into each trouble and out of it.
func TestTrouble(t *testing.T) {
	start := time.Date(2026, 3, 14, 19, 0, 0, 0, time.UTC)
	type step struct {
		after time.Duration // from the start
		do    func(*symptoms, time.Time)
		want  string
	}
	ping := func(figures ...int64) func(*symptoms, time.Time) {
		return func(s *symptoms, now time.Time) { s.pinged(figures, now) }
	}
	skip := func(n, sent uint64) func(*symptoms, time.Time) {
		return func(s *symptoms, now time.Time) { s.skips(n, sent, now) }
	}
	look := func(*symptoms, time.Time) {}
	for name, steps := range map[string][]step{
		"silent": {{silentAfter, look, ""}, {silentAfter + 1, look, wire.TroubleSilent}, {silentAfter + 2, ping(), wire.TroubleSilent},
			{silentAfter + 1 + troubleFor, ping(), wire.TroubleSilent}},
		"pings":  {{silentAfter, ping(1), ""}, {2 * silentAfter, ping(), ""}},
		"late":   {{1, ping(3, wire.LateMs), ""}, {2, ping(wire.LateMs+1, 3), wire.TroubleLate}, {3, ping(3), wire.TroubleLate}},
		"behind": {{1, skip(skippedMost, 1), ""}, {2, skip(1, 2), wire.TroubleBehind}, {3, ping(900), wire.TroubleLate}},
		"lumps":  {{1, skip(1, 100), ""}, {2, skip(skippedMost, 100+2*skippedMost+2), ""}, {3, skip(1, 100+2*skippedMost+2), wire.TroubleBehind}},
		"skips":  {{1, skip(skippedMost, 1), ""}, {1 + troubleFor, skip(skippedMost, 2), wire.TroubleSilent}},
	} {
		s := symptoms{heard: start}
		for i, step := range steps {
			now := start.Add(step.after)
			step.do(&s, now)
			if got := s.trouble(false, now); got != step.want {
				t.Errorf("%s, step %d: trouble %q, want %q", name, i, got, step.want)
			}
		}
	}
}

// TestTroubleEnds: half a minute after its last sign, but what is unset stays so.
func TestTroubleEnds(t *testing.T) {
	start := time.Date(2026, 3, 14, 19, 0, 0, 0, time.UTC)
	for name, begin := range map[string]func(*symptoms){
		wire.TroubleSilent: func(s *symptoms) { s.heard = start.Add(-time.Minute); s.pinged(nil, start) },
		wire.TroubleLate:   func(s *symptoms) { s.pinged([]int64{900}, start) },
		wire.TroubleBehind: func(s *symptoms) { s.skips(skippedMost+1, 1, start) },
	} {
		s := symptoms{heard: start}
		begin(&s)
		for at := time.Duration(0); at < troubleFor; at += pingEvery {
			s.pinged(nil, start.Add(at))
		}
		if got := s.trouble(false, start.Add(troubleFor-1)); got != name {
			t.Errorf("before its time trouble is %q, want %q", got, name)
		}
		if got := s.trouble(false, start.Add(troubleFor)); got != "" {
			t.Errorf("after its time trouble is %q, want none", got)
		}
		if got := s.trouble(true, start.Add(troubleFor)); got != wire.TroubleUnset {
			t.Errorf("without its group's hold a page is %q, want %q", got, wire.TroubleUnset)
		}
	}
}
