package clock

import (
	"slices"
	"testing"
	"time"
)

// sightings are plies played every ten seconds from zero and received late by so much
// each, in order of play, of a feed asked every poll. They come back the newest first.
func sightings(poll time.Duration, late ...time.Duration) []Sighting {
	zero := time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)
	var out []Sighting
	for i, d := range late {
		game := time.Duration(i) * 10 * sec
		out = append(out, Sighting{At: zero.Add(game + d), Within: poll, Game: game})
	}
	slices.Reverse(out)
	return out
}

// Each worked out by hand from the bounds that the receipts give.
func TestLocate(t *testing.T) {
	const s = sec
	tests := []struct {
		name         string
		poll         time.Duration
		late         []time.Duration
		zero, unsure time.Duration // after the true zero
		n            int
	}{
		{"one", 4 * s, []time.Duration{3 * s}, s, 2 * s, 1}, // -1 to 3
		{"bounds meet", 4 * s, []time.Duration{s, 4 * s, 3 * s}, s / 2, s / 2, 3},
		{"a constant delay moves it", 4 * s, []time.Duration{11 * s, 14 * s, 13 * s}, 10*s + s/2, s / 2, 3},
		{"one late receipt", s, []time.Duration{s, s, s, 9 * s}, s / 2, s / 2, 4},
		{"one late receipt before", s, []time.Duration{9 * s, s, s}, s / 2, s / 2, 3},
		{"speaks at moves only", time.Hour, []time.Duration{2 * s, s, 3 * s}, s, time.Hour - 2*s, 3},
		{"clocks stood still long", s, []time.Duration{s, s, s, 61 * s}, 60*s + s/2, s / 2, 1},
		{"clocks stood still ten seconds, four plies ago", s, []time.Duration{s, s, 11 * s, 11 * s, 11 * s, 11 * s}, 10*s + s/2, s / 2, 4},
		{"only the newest", s, slices.Concat([]time.Duration{0}, slices.Repeat([]time.Duration{s}, sightingsMost)), s / 2, s / 2, sightingsMost},
	}
	for _, tt := range tests {
		list := sightings(tt.poll, tt.late...)
		got := Locate(list)
		zero := got.Zero.Sub(list[len(list)-1].At.Add(-tt.late[0]))
		if zero != tt.zero || got.Unsure != tt.unsure || got.Sightings != tt.n {
			t.Errorf("%s: zero %v unsure %v of %d, want %v, %v of %d", tt.name, zero, got.Unsure, got.Sightings, tt.zero, tt.unsure, tt.n)
		}
	}
	if got := Locate(nil); got.Sightings != 0 {
		t.Errorf("nothing is %+v", got)
	}
}

func TestOffsetStart(t *testing.T) {
	zero := time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)
	o := Offset{Zero: zero, Sightings: 3}
	tests := []struct {
		game, cut, received, want time.Duration
		ok                        bool
	}{
		{60 * sec, 0, 63 * sec, 60 * sec, true},
		{60 * sec, 2 * sec, 63 * sec, 59 * sec, true},
		{60 * sec, 0, 58 * sec, 58 * sec, true}, // never after the receipt
		{60 * sec, 0, 60*sec + lateMost, 60 * sec, true},
		{60 * sec, 0, 61*sec + lateMost, 60 * sec, false},
	}
	for _, tt := range tests {
		if got, ok := o.Start(tt.game, tt.cut, zero.Add(tt.received)); got.Sub(zero) != tt.want || ok != tt.ok {
			t.Errorf("%+v: got %v, %v", tt, got.Sub(zero), ok)
		}
	}
}

// TestLocateTakesAnything: no times are so far apart that sums overflow.
func TestLocateTakesAnything(t *testing.T) {
	far := []Sighting{
		{At: time.Unix(1<<40, 0), Within: -1 << 63, Game: 1<<63 - 1, Cut: 1<<63 - 1}, {At: time.Unix(-1<<40, 0), Within: 1<<63 - 1, Game: -1 << 63}, {},
	}
	for i := range far {
		got := Locate(far[i:])
		if d := got.Zero.Sub(far[i].At); d < -4*longest || d > 4*longest || got.Unsure < 0 {
			t.Errorf("from %d: %+v", i, got)
		}
	}
}
