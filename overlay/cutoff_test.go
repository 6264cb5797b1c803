package overlay

import (
	"fmt"
	"net/http"
	"testing"
	"testing/synctest"

	"github.com/coder/websocket"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// TestCutOff: a relay that does not hear the show lets no page show what may be long past, but
// tells the producer. When it hears again, pages come back. One that leads goes on by itself.
func TestCutOff(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		pages := make(map[string]*page)
		for _, name := range pageNames() {
			pages[name] = h.open("page=" + name)
		}
		synctest.Wait()
		say := func(role relay.BusRole, wrong string) {
			h.events <- relay.BusState{Bus: relay.Bus{Role: role, Wrong: wrong}}
			synctest.Wait()
		}
		say(relay.BusFollows, "the bus does not answer")
		for name, p := range pages {
			if name == "health" {
				var feeds wire.Feeds
				for feeds.Fine || feeds.Verdict == "" || feeds.Rev < feedsRev(h.server.Relay.Show()) {
					p.until(wire.TypeFeeds, &feeds)
				}
				continue
			}
			if code := p.closed(); code != websocket.StatusTryAgainLater {
				t.Errorf("%s ended with %d, want %d", name, code, websocket.StatusTryAgainLater)
			}
			if status, err := h.upgrade(t, "page="+name, nil); err == nil || status != http.StatusServiceUnavailable {
				t.Errorf("%s is let in again with %d, %v", name, status, err)
			}
		}
		for _, role := range []relay.BusRole{relay.BusFollows, relay.BusLeads} {
			wrong := ""
			if role == relay.BusLeads {
				wrong = "the bus does not answer"
			}
			say(role, wrong)
			h.open("page=scene/board").board()
		}
	})
}

// TestLogAtAnotherRelay: a page that comes back, or comes from another relay of the same show,
// is told every line that it lacks, and none that it has.
func TestLogAtAnotherRelay(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.talk(300)
		total := h.server.Relay.Show().Log.Total
		for _, test := range []struct {
			run    string
			log    string
			behind uint64
		}{
			{"SHOW", "20", 20},
			{"SHOW", fmt.Sprint(total - 1), total - 1},
			{"OTHER", "20", total - logFirstMost},
			{"SHOW", "-1", total - logFirstMost},
			{"SHOW", "0", total - logFirstMost},
			{"SHOW", "", total - logFirstMost},
		} {
			p := h.open("page=health&run=" + test.run + "&log=" + test.log)
			p.linesUpTo(t, total, test.behind)
		}
		p := h.open(fmt.Sprintf("page=health&run=SHOW&log=%d", total+50)) // the other relay was ahead
		synctest.Wait()
		h.talk(60)
		p.linesUpTo(t, h.server.Relay.Show().Log.Total, total+50)
	})
}
