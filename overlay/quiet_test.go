package overlay

import (
	"net/http"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

// quiet says what the last show frame told the scene.
func (w *watcher) quiet() bool {
	synctest.Wait()
	return w.at(time.Now()).Show.Quiet
}

// TestQuietMode: every page is told of it at once, a scene that is held back when its past
// comes to it, and a page that comes later as well.
func TestQuietMode(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		now, late := h.watch("page=scene/board"), h.watch("page=scene/caption&hold=12")
		pass(15*time.Second, now, late)
		if answer, reply := h.post(strings.NewReader(`{"id":"q-1","act":"quiet","text":"on"}`), nil); answer.StatusCode != http.StatusOK || !reply.Done {
			t.Fatalf("%d, %+v", answer.StatusCode, reply)
		}
		if !now.quiet() || late.quiet() {
			t.Errorf("at once: the scene of now is quiet %v, the one held back %v; want true, false", now.quiet(), late.quiet())
		}
		pass(12*time.Second, now, late)
		if fresh := h.watch("page=scene/board"); !late.quiet() || !fresh.quiet() {
			t.Errorf("12 s later: the one held back is quiet %v, one that came %v; want both", late.quiet(), fresh.quiet())
		} else {
			fresh.leave()
		}
		if answer, reply := h.post(strings.NewReader(`{"id":"q-2","act":"quiet","text":"maybe"}`), nil); answer.StatusCode != http.StatusConflict || reply.Done {
			t.Errorf("\"maybe\": %d, %+v, want a refusal", answer.StatusCode, reply)
		}
		now.leave()
		late.leave()
	})
}
