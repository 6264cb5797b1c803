package overlay

import (
	"slices"
	"testing"
	"testing/synctest"

	"github.com/coder/websocket"

	"clocktell/overlay/wire"
)

// TestWhoIsOfPanelAndDesk: a viewer's token puts nobody among those who sit at the panels.
func TestWhoIsOfPanelAndDesk(t *testing.T) {
	inHallOf(t, func(*hall, *Options) {}, func(t *testing.T, h *hall) {
		for _, name := range pageNames() {
			p := h.open("page=" + name)
			ended := make(chan websocket.StatusCode, 1)
			go func() { ended <- p.closed() }()
			p.send(`{"type":"who","name":"` + name + `"}`)
			synctest.Wait()
			sits := name == "panel" || name == "desk"
			if frame, _, _ := h.server.pages.people(0); slices.Contains(frame.Names, name) != sits {
				t.Errorf("a who from %s leads to %v", name, frame.Names)
			}
			if sits {
				p.conn.CloseNow()
			}
			if code := <-ended; !sits && code != wire.CloseBadFrame {
				t.Errorf("%s ended with %d", name, code)
			}
		}
	})
}
