package main

import (
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/config"
)

// TestClocksOfConfiguration takes the keys about clocks from the file to the plan.
func TestClocksOfConfiguration(t *testing.T) {
	const text = "[[feed]]\nname = \"a\"\nfile = \"x.pgn\"\n"
	for keys, want := range map[string]relay.ClockPlan{
		"": {},
		"delay = \"3s\"\ndelay_kind = \"bronstein\"\nclock_read = \"before\"\n": {
			Delay: clock.Delay{Kind: clock.Bronstein, Time: 3 * time.Second}, Reads: relay.ReadsBefore,
		},
		"white_clock = \"0:05:00\"\nblack_clock = \"4:00\"\nclock_read = \"after\"\n": {
			Starts: [2]clock.Value{{D: 5 * time.Minute, OK: true}, {D: 4 * time.Minute, OK: true}}, Reads: relay.ReadsAfter,
		},
		"time_control = \"600+5\"\n": {
			Control: clock.Control{Periods: []clock.Period{{Kind: clock.KindIncrement, Base: 10 * time.Minute, Increment: 5 * time.Second}}},
		},
	} {
		c, err := config.Parse("f", text+keys, func(string) (string, bool) { return "", false })
		if err != nil {
			t.Fatal(err)
		}
		got := planOf(c, relay.NewTimebase(1)).Feeds[0].Clocks
		if !got.Control.Same(want.Control) || got.Delay != want.Delay || got.Starts != want.Starts || got.Reads != want.Reads {
			t.Errorf("%q: got %+v, want %+v", keys, got, want)
		}
	}
}
