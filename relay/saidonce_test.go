package relay_test

import (
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/prompt"
	"clocktell/relay/relaytest"
)

// TestSaidOnce: of a clock that comes and goes about a limit with every move, each
// sentence is put on the panel once in five minutes, however often its alert is raised.
func TestSaidOnce(t *testing.T) {
	white := func(own int) time.Duration {
		switch {
		case own <= 10:
			return 59 * time.Second // 12 s left, of 9:12 + 5 s
		case own%3 == 0:
			return 12 * time.Second
		}
		return time.Second
	}
	p := newPlayed(t, "600+5", 10*time.Minute, 5*time.Second, [2]pace{white, always(5 * time.Second)})
	said, raised := make(map[string]time.Time), make(map[time.Time]bool)
	listed := make(map[string]bool)
	p.look = func() {
		for _, a := range p.stage.Board(1).Alerts {
			if a.Kind == relay.AlertFlagNear || a.Kind == relay.AlertTimeTrouble {
				raised[a.At] = true
			}
		}
		for _, item := range p.stage.Show.Said.Items {
			key := item.Alert.ID + item.Alert.At.String()
			if listed[key] {
				continue
			}
			listed[key] = true
			if before, ok := said[item.Text]; ok && p.stage.Now.Sub(before) < 5*time.Minute {
				t.Errorf("ply %d: again after %v: %s", p.plies, p.stage.Now.Sub(before), item.Text)
			}
			said[item.Text] = p.stage.Now
		}
	}
	p.left[0] -= 48 * time.Second
	for range 70 {
		p.move()
	}
	if len(raised) < 5 {
		t.Errorf("alerts raised at %d moments only: nothing came and went", len(raised))
	}
}

// TestSilentFeedIsTold: a feed that falls silent twice is told twice.
func TestSilentFeedIsTold(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Control: "600", Moves: "e4 e5"}.PGN())
	told := 0
	for range 2 {
		s.Wait(20 * time.Second)
		for _, item := range s.Show.Said.Items {
			if item.Kind == prompt.KindFeed && item.Withdrawn.IsZero() {
				told++
			}
		}
		s.Same(5 * time.Second)
	}
	if told != 2 {
		t.Errorf("told %d times, want 2", told)
	}
}
