package relay_test

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
)

// TestPacesOfTheMoment: whatever is told of the clocks is so when it is told, the running clock taken as it
// stands: figures that were right a move before are not.
func TestPacesOfTheMoment(t *testing.T) {
	checked := make(map[string]int)
	for seed := range uint64(12) {
		draw := rand.New(rand.NewPCG(seed, 7))
		think := func(mean float64) pace {
			return func(int) time.Duration {
				return time.Duration(1+min(draw.ExpFloat64()*mean, 70)) * time.Second
			}
		}
		p := newPlayed(t, "600+5", 10*time.Minute, 5*time.Second, [2]pace{think(18), think(7)})
		seen := make(map[string]bool)
		p.look = func() {
			b := p.stage.Board(1)
			for _, item := range p.stage.Show.Said.Items {
				if item.Alert.Kind == relay.AlertPace && !seen[item.Alert.ID] {
					seen[item.Alert.ID] = true
					checkPace(t, b, item, p.stage.Now, checked)
				}
			}
		}
		for p.plies < 70 && p.left[0] > 80*time.Second {
			p.move()
		}
	}
	t.Log(checked)
	for _, kind := range []string{"less than half", "still has over", "answers at once"} {
		if checked[kind] == 0 {
			t.Errorf("%q was never said: nothing was tested", kind)
		}
	}
}

// checkPace holds a sentence to the clocks of the board.
func checkPace(t *testing.T, b *relay.Board, item relay.BoardPrompt, at time.Time, checked map[string]int) {
	side := clock.White
	if item.Alert.Side == clock.Black.String() {
		side = clock.Black
	}
	mine, yours := b.Left(side, at), b.Left(side.Other(), at)
	for kind, wrong := range map[string]bool{
		"less than half":    2*mine >= yours,
		"still has over":    mine >= 5*time.Minute || yours <= 7*time.Minute,
		"Both clocks":       mine >= 5*time.Minute || yours >= 5*time.Minute,
		"half of the start": mine > 5*time.Minute,
		"answers at once":   b.Turn() == side || len(b.Plies) != item.Alert.Ply,
		"both players have": mine <= 10*time.Minute || yours <= 10*time.Minute,
	} {
		if strings.Contains(item.Text, kind) {
			checked[kind]++
			if wrong {
				t.Errorf("%q (%s) with %v and %v on the clocks after %d plies", item.Text, item.Evidence, mine, yours, len(b.Plies))
			}
		}
	}
}
