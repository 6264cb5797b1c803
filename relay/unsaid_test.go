package relay

import (
	"testing"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/tell"
)

// quietBoard is a board before its first move, with a control.
func quietBoard(t *testing.T, control string) *Board {
	t.Helper()
	c, err := clock.ParseControl(control)
	if err != nil {
		t.Fatal(err)
	}
	in, err := prompt.LanguageOf("en")
	if err != nil {
		t.Fatal(err)
	}
	b := newBoard(1, in)
	filter := tell.New(c)
	b.Control, b.filter0 = c, &filter
	return b
}

// TestSpendsTooMuch: that a side spends faster than its clock allows is said where the two
// figures shown with it say so, and not where the forecast alone does.
func TestSpendsTooMuch(t *testing.T) {
	at := time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)
	for _, test := range []struct {
		usual, budget time.Duration
		said          bool
	}{
		{29 * time.Second, 20 * time.Second, true},
		{27 * time.Second, 20 * time.Second, false}, // no gap to speak of
		{3 * time.Second, 17 * time.Second, false},
		{0, 17 * time.Second, false}, // no think yet
	} {
		b := quietBoard(t, "900+10")
		alert := b.levelAlert(clock.White, tell.Trouble{Level: 1, Usual: test.usual, Budget: test.budget}, at)
		if said := alert.Say.Priority != prompt.Silent; said != test.said || alert.Kind != AlertTimeTrouble {
			t.Errorf("usual %v, budget %v: said %v", test.usual, test.budget, said)
		}
	}
}

// TestFlagAfterLastSeconds: that a flag is about to fall is not said within ten seconds of
// the side being down to its last ones; it stands all the same.
func TestFlagAfterLastSeconds(t *testing.T) {
	at := time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)
	trouble := tell.Trouble{Level: 3, Limit: 20 * time.Second, FlagAt: 10 * time.Second, FlagNear: true}
	for _, test := range []struct {
		ago  time.Duration
		said bool
	}{{5 * time.Second, false}, {8 * time.Second, false}, {12 * time.Second, true}} {
		b := quietBoard(t, "6") // its clock shows six seconds
		b.Levels[clock.White] = trouble
		was := b.levelAlert(clock.White, trouble, at.Add(-test.ago))
		was.Say.Priority = prompt.Now
		b.Alerts = []Alert{was}
		found := false
		for _, a := range b.troubleConditions(clock.White, at) {
			if a.Kind == AlertFlagNear {
				found = true
				if said := a.Say.Priority != prompt.Silent; said != test.said {
					t.Errorf("%v after: said %v", test.ago, said)
				}
			}
		}
		if !found {
			t.Errorf("%v after: no alert", test.ago)
		}
	}
	if limit := flagLimit(tell.Trouble{FlagAt: 20 * time.Second, Limit: 26 * time.Second}); limit != 7*time.Second {
		t.Errorf("about to fall below %v, want seven seconds", limit)
	}
}

// TestSlowByControl: eighteen seconds are no move from preparation in ten minutes, and
// less at faster controls.
func TestSlowByControl(t *testing.T) {
	for control, want := range map[string]time.Duration{
		"600+5": 18 * time.Second, "5400+30": 18 * time.Second, "300+3": 9 * time.Second, "180": 5400 * time.Millisecond,
	} {
		if got := quietBoard(t, control).slow(clock.White); got != want {
			t.Errorf("%s: %v, want %v", control, got, want)
		}
	}
}

// TestHosts: three times the other's clock is a display on many boards; twice is not, as
// in an armageddon.
func TestHosts(t *testing.T) {
	for start, want := range map[time.Duration]bool{75 * time.Minute: true, 45 * time.Minute: true, 30 * time.Minute: false} {
		b := quietBoard(t, "900+10")
		b.Control.Starts[clock.Black] = clock.Value{D: start, OK: true}
		if b.hosts(clock.Black) != want || b.hosts(clock.White) {
			t.Errorf("%v against 15 min: hosts %v", start, !want)
		}
		if b.backIsNews(clock.Black, 20) == want || !b.backIsNews(clock.White, backMost) || b.backIsNews(clock.White, backMost+1) {
			t.Errorf("%v against 15 min: who knows the moves again is wrong", start)
		}
	}
}
