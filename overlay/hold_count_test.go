package overlay

import (
	"strings"
	"testing"
	"time"
)

// boards is how many the scene is told there are; -1: it has not been told.
func (w *watcher) boards() int {
	if show := w.at(time.Now()).Show; show != nil {
		return show.Boards
	}
	return -1
}

// TestCountIsHeldBack: that there is one board more a scene that is held back is told when its
// hold has gone by, whether it was there or has come since.
func TestCountIsHeldBack(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		time.Sleep(20 * time.Second)
		live, there := h.watch("page=scene/wall"), h.watch("page=scene/wall&hold=12")
		pass(time.Second, live, there)
		if _, reply := h.post(strings.NewReader(`{"id":"begin","act":"name","board":2,"side":"white","text":"Hand, H"}`), nil); !reply.Done {
			t.Fatal(reply.Error)
		}
		late := h.watch("page=scene/wall&hold=12")
		pass(12*time.Second-time.Millisecond, live, there, late)
		if a, b, c := live.boards(), there.boards(), late.boards(); a != 2 || b != 1 || c != 1 {
			t.Errorf("a millisecond before its time scenes are told of %d, %d and %d boards, want 2, 1, 1", a, b, c)
		}
		pass(time.Millisecond, live, there, late)
		if a, b, c := live.boards(), there.boards(), late.boards(); a != 2 || b != 2 || c != 2 {
			t.Errorf("at its time scenes are told of %d, %d and %d boards, want 2 each", a, b, c)
		}
		for _, w := range []*watcher{live, there, late} {
			w.leave()
		}
	})
}
