package overlay

import (
	"fmt"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/relay/relaytest"
)

// TestAgainBehindOthers: a page that asks for boards again while as many of its requests wait as may, and
// asks for each once, gets them all.
func TestAgainBehindOthers(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		var games []relaytest.Game
		for n := range 8 {
			games = append(games, relaytest.Game{White: fmt.Sprintf("White%d, W", n), Table: fmt.Sprint(n + 1), Moves: "e4 e5"})
		}
		h.events <- h.intake.Read(h.tb.Now(), []byte(relaytest.Packet(games...)))
		p := h.open("page=panel")
		all := func() {
			t.Helper()
			for sent := make(map[int]bool); len(sent) < len(games); {
				sent[p.board().Board] = true
			}
		}
		all()
		begun := time.Now()
		for range 2 * requestsMost { // it takes nothing meanwhile
			p.send(`{"type":"ping","t":1,"late":[]}`)
		}
		for n := range games {
			p.send(fmt.Sprintf(`{"type":"again","board":%d}`, n+1))
		}
		synctest.Wait()
		all()
		if took := time.Since(begun); took > 0 { // boards change with time, and come then by themselves
			t.Errorf("the boards came after %v, want at once", took)
		}
	})
}
