package overlay

import (
	"fmt"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/overlay/wire"
)

// TestPageIsAhead: a page that comes from another relay of the show, which was ahead of this one,
// is sent nothing older than it has seen, answers to its pings all the same, and what there is
// after a while.
func TestPageIsAhead(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		synctest.Wait()
		show := h.server.Relay.Show()
		seen := show.At.Add(time.Hour).UnixMilli()
		total := show.Log.Total
		for _, query := range []string{fmt.Sprintf("page=desk&run=SHOW&seen=%d", seen), fmt.Sprintf("page=desk&run=SHOW&log=%d", total+100)} {
			p := h.open(query)
			p.until(wire.TypeWelcome, new(wire.Welcome))
			p.send(`{"type":"ping","t":1,"late":[]}`)
			if kind, _ := p.next(); kind != wire.TypePong {
				t.Errorf("%s is sent %s", query, kind)
			}
			began := time.Now()
			if kind, _ := p.next(); kind == wire.TypePong || time.Since(began) > aheadMost {
				t.Errorf("%s is sent %s after %v", query, kind, time.Since(began))
			} else if waited := time.Since(began); waited < aheadMost-time.Second {
				t.Errorf("%s is sent %s after %v", query, kind, waited)
			}
		}
	})
}

// TestPageIsAheadNoMore: as soon as the relay has heard as much, the page is sent it.
func TestPageIsAheadNoMore(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		synctest.Wait()
		p := h.open(fmt.Sprintf("page=scene/board&run=SHOW&seen=%d", h.server.Relay.Show().At.Add(time.Second).UnixMilli()))
		time.Sleep(time.Second)
		began := time.Now()
		h.play("e4 e5")
		if b := p.board(); len(b.Plies) != 2 || time.Since(began) > time.Second {
			t.Errorf("it is sent %d plies after %v", len(b.Plies), time.Since(began))
		}
		for _, query := range []string{"run=OTHER&seen=99999999999999", "run=SHOW&seen=1", "run=SHOW&seen=x", "seen=99999999999999", fmt.Sprintf("run=SHOW&seen=%d", h.server.Relay.Show().At.UnixMilli())} {
			began := time.Now()
			if h.open("page=scene/board&" + query).board(); time.Since(began) > time.Second {
				t.Errorf("%s waits", query)
			}
		}
	})
}
