package cue

import (
	"math/rand/v2"
	"testing"
	"time"

	"clocktell/relay"
)

var noon = time.Date(2026, 10, 17, 12, 0, 0, 0, time.UTC)

// place is the moment of the show that a channel shows at t, worked out from relay's own
// rule of how far a group is behind: it never goes back. At the instant of a change it has
// come as far as the hold before let it.
func place(c Channel, was, t time.Time) time.Time {
	if len(c) == 0 {
		return t
	}
	for i, h := range c {
		if (i == 0 || !t.Before(h.Since)) && (i == len(c)-1 || !t.After(c[i+1].Since)) {
			behind, _, _ := h.Behind(t)
			if now := t.Add(-behind); now.After(was) {
				was = now
			}
		}
	}
	return was
}

// held makes holds as a show does, by relay's own entries.
func held(t *testing.T, random *rand.Rand, n int) Channel {
	t.Helper()
	show, out := relay.NewShow(relay.Plan{}, noon), Channel{}
	for i := range n {
		at := show.At.Add(time.Duration(random.IntN(2000)) * 10 * time.Millisecond)
		by := time.Duration(random.IntN(30)) * 500 * time.Millisecond
		show = show.After(relay.ByHand{At: at, ID: string(rune('a' + i)), Act: relay.ActHold, Text: "air", For: by})
		h, known := show.Holds.Of("air")
		if !known {
			t.Fatal("the hold was not set")
		}
		out = append(out, h)
	}
	return out
}

// TestAiredIsWhatTheChannelShows: what a channel is said to show first at T, it shows at T
// and not yet just before. Holds are set at random, some while the channel still catches
// up with the one before.
func TestAiredIsWhatTheChannelShows(t *testing.T) {
	const tick = 10 * time.Millisecond
	random := rand.New(rand.NewPCG(9, 6))
	checked := 0
	for round := range 18 {
		channel := held(t, random, round%9)
		at, shows := noon, place(channel, noon.Add(-time.Hour), noon)
		for range 25_000 {
			before := shows
			shows = place(channel, shows, at)
			// Every moment between two places is first shown within this tick.
			if moment := before.Add(shows.Sub(before) / 2); shows.Sub(before) > 3 {
				aired := channel.Aired(moment)
				if aired.After(at) || aired.Before(at.Add(-tick)) {
					t.Fatalf("%v: %v is shown within the %v before %v, said to be at %v", channel, moment, tick, at, aired)
				}
				checked++
			}
			at = at.Add(tick)
		}
	}
	if checked < 50_000 {
		t.Errorf("only %d moments were looked at", checked)
	}
}

// TestAiredByHand: worked out with paper and pencil.
func TestAiredByHand(t *testing.T) {
	s := time.Second
	at := func(d time.Duration) time.Time { return noon.Add(d) }
	channel := Channel{
		{Since: at(0), For: 12 * s, From: 12 * s},
		{Since: at(60 * s), For: 2 * s, From: 12 * s},  // shows second 48, and reaches 63 at 65: 3 seconds a second
		{Since: at(100 * s), For: 10 * s, From: 2 * s}, // shows second 98 until 108
	}
	for moment, want := range map[time.Duration]time.Duration{
		-s: 11 * s, 0: 12 * s, 47 * s: 59 * s, 48 * s: 60 * s, 51 * s: 61 * s, 63 * s: 65 * s, 70 * s: 72 * s,
		97 * s: 99 * s, 99 * s: 109 * s, 200 * s: 210 * s,
	} {
		if got := channel.Aired(at(moment)); !got.Equal(at(want)) {
			t.Errorf("second %v is shown at %v, want %v", moment, got.Sub(noon), want)
		}
	}
	if got := (Channel{}).Aired(noon); !got.Equal(noon) {
		t.Errorf("without a hold noon is shown at %v", got)
	}
}
