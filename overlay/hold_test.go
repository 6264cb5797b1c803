package overlay

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/coder/websocket"

	"clocktell/overlay/wire"
)

// setHold sets the hold of a group, as the producer does.
func (h *hall) setHold(group, seconds string) wire.EntryReply {
	h.t.Helper()
	h.said++
	_, reply := h.post(strings.NewReader(fmt.Sprintf(`{"id":"hold-%d","act":"hold","text":%q,"hold":%q}`, h.said, group, seconds)), nil)
	synctest.Wait()
	return reply
}

// plies is how many the scene shows now; -1: no board.
func (w *watcher) plies() int {
	synctest.Wait()
	if board := w.at(time.Now()).Board; board != nil {
		return len(board.Plies)
	}
	return -1
}

// pass lets time go on, with a heartbeat of every page now and then.
func pass(d time.Duration, pages ...*watcher) {
	for ; d > 0; d -= 10 * time.Second {
		for _, p := range pages {
			p.send(`{"type":"ping","t":1}`)
		}
		time.Sleep(min(d, 10*time.Second))
	}
	synctest.Wait()
}

func TestHoldInTheAddress(t *testing.T) {
	for query, code := range map[string]websocket.StatusCode{
		"page=scene/board&hold=":                                    wire.CloseUnknownPage,
		"page=scene/board&hold=-1":                                  wire.CloseUnknownPage,
		"page=scene/board&hold=1801":                                wire.CloseUnknownPage,
		"page=scene/board&hold=12s":                                 wire.CloseUnknownPage,
		"page=scene/board&hold=Air":                                 wire.CloseUnknownPage,
		"page=scene/board&hold=" + strings.Repeat("\U000E0001", 50): wire.CloseUnknownPage,
		"page=scene/board&hold=12&hold=0":                           wire.CloseUnknownPage,
		"page=panel&hold=12":                                        wire.CloseUnknownPage,
		"page=health&hold=air":                                      wire.CloseUnknownPage,
		"page=scene/board&hold=1800":                                0,
		"page=scene/caption&hold=7.5":                               0,
		"page=scene/board&hold=air":                                 0,
	} {
		inHall(t, 0, func(t *testing.T, h *hall) {
			p := h.open(query)
			if code == 0 {
				if kind, _ := p.next(); kind != wire.TypeWelcome {
					t.Errorf("%s: the first frame is %q", query, kind)
				}
				p.conn.CloseNow()
			} else if got := p.closed(); got != code {
				t.Errorf("%s: close code %d, want %d", query, got, code)
			}
		})
	}
}

// TestPageInTheMiddleOfAHold: it starts with the past, and its time is that of the past.
func TestPageInTheMiddleOfAHold(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		time.Sleep(10 * time.Second)
		h.play("e4 e5")
		time.Sleep(5 * time.Second)
		w := h.watch("page=scene/board&hold=12")
		if got := w.plies(); got != 1 {
			t.Errorf("12 s after the 3rd second the scene shows %d plies, want 1", got)
		}
		if late := float64(time.Now().UnixMilli()) - w.timeAt(time.Now()); late != 12_000 {
			t.Errorf("its time is %v ms behind, want 12000", late)
		}
		w.send(`{"type":"again","board":1}`)
		got, heard := w.plies(), w.heard()
		if last := heard[len(heard)-1]; got != 1 || last.kind != wire.TypeBoard {
			t.Errorf("asked for the whole board it got %s of %d plies, want a board of 1", last.kind, got)
		}
		time.Sleep(7*time.Second - time.Millisecond)
		if got := w.plies(); got != 1 {
			t.Errorf("a millisecond before its time the scene shows %d plies, want 1", got)
		}
		time.Sleep(time.Millisecond)
		if got := w.plies(); got != 2 {
			t.Errorf("at its time the scene shows %d plies, want 2", got)
		}
		w.leave()
	})
}

// TestNoPastYet: after a start without a journal a scene that is held back is shown
// nothing until its hold has gone by.
func TestNoPastYet(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		w := h.watch("page=scene/board&hold=12")
		pass(12*time.Second-time.Millisecond, w)
		for _, f := range w.heard() {
			if f.kind != wire.TypeWelcome && f.kind != wire.TypePong {
				t.Errorf("it was sent %s", f.data)
			}
		}
		pass(time.Millisecond, w)
		if got := w.plies(); got != 1 {
			t.Errorf("when its hold had gone by it showed %d plies, want 1", got)
		}
		w.leave()
	})
}

func TestGroupsAreHeldApart(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		air, booth := h.watch("page=scene/board&hold=air"), h.watch("page=scene/board&hold=booth")
		h.play("e4")
		pass(25*time.Second, air, booth)
		if a, b := air.plies(), booth.plies(); a != -1 || b != -1 {
			t.Errorf("before their holds were set they showed %d and %d plies, want nothing", a, b)
		}
		if reply := h.setHold("air", "5"); !reply.Done {
			t.Fatal(reply.Error)
		}
		h.setHold("booth", "20.5")
		h.play("e4 e5")
		for _, want := range []struct {
			after      time.Duration
			air, booth int
		}{{0, 1, 1}, {4999 * time.Millisecond, 1, 1}, {time.Millisecond, 2, 1}, {15499 * time.Millisecond, 2, 1}, {time.Millisecond, 2, 2}} {
			pass(want.after, air, booth)
			if a, b := air.plies(), booth.plies(); a != want.air || b != want.booth {
				t.Errorf("%v later they show %d and %d plies, want %d and %d", want.after, a, b, want.air, want.booth)
			}
		}
		health := h.open("page=health")
		var holds wire.Holds
		for len(holds.Groups) < 2 {
			health.until(wire.TypeHolds, &holds)
		}
		if a, b := holds.Groups[0], holds.Groups[1]; a.Group != "air" || a.HoldMs != 5000 || b.Group != "booth" || b.HoldMs != 20_500 {
			t.Errorf("the producer is told %+v", holds)
		}
		air.leave()
		booth.leave()
	})
}

// TestProducerSeesHolds: the health page lists by how much every page is held back, and
// that the hold of a group has not been set.
func TestProducerSeesHolds(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.setHold("air", "5")
		watchers := []*watcher{
			h.watch("page=scene/board"), h.watch("page=scene/board&hold=7.5"), h.watch("page=scene/caption&hold=air"), h.watch("page=scene/board&hold=nobody"),
		}
		health := h.open("page=health")
		var pages wire.Pages
		health.until(wire.TypePages, &pages)
		got, _ := json.Marshal(pages.Items)
		for i, want := range []string{`"group":"","holdMs":0,`, `"group":"","holdMs":7500,`, `"group":"air","holdMs":5000,`, `"group":"nobody","holdMs":null,"trouble":"unset"}`} {
			if !strings.Contains(string(got), want) {
				t.Errorf("page %d is not listed with %s:\n%s", i, want, got)
			}
		}
		for _, w := range watchers {
			w.leave()
		}
	})
}

func TestHoldByHandRefused(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		for _, bad := range [][2]string{{"air", ""}, {"air", "x"}, {"air", "1801"}, {"air", "-1"}, {"", "5"}, {"Air", "5"}} {
			if reply := h.setHold(bad[0], bad[1]); reply.Done || reply.Error == "" {
				t.Errorf("a hold of %q for group %q: %+v, want to be told what is wrong", bad[1], bad[0], reply)
			}
		}
		if holds := h.server.Relay.Show().Holds; len(holds.Groups) != 0 {
			t.Errorf("there are holds now: %+v", holds)
		}
	})
}

// TestSlowHeldPage: a scene that does not read gets the newest state of its past when it
// does, and nothing newer.
func TestSlowHeldPage(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		moves := strings.Fields("e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7")
		h.play("e4")
		p := h.open("page=scene/board&hold=12")
		for i := 2; i <= len(moves); i++ {
			time.Sleep(500 * time.Millisecond)
			h.play(strings.Join(moves[:i], " "))
		}
		p.next() // the welcome; nothing is due before the 12th second
		time.Sleep(10 * time.Second)
		synctest.Wait() // 14.5 s: it should stand at 2.5 s, with 6 plies played
		var sizes []int
		for len(sizes) == 0 || sizes[len(sizes)-1] < 6 {
			b := p.board()
			sizes = append(sizes, b.Keep+len(b.Plies))
		}
		if last := sizes[len(sizes)-1]; last != 6 || len(sizes) > 2 {
			t.Errorf("the scene was sent boards of %v plies, want one that was under way and then 6", sizes)
		}
		if h.server.Pages().Superseded == 0 {
			t.Error("no superseded revision was counted")
		}
		p.conn.CloseNow()
	})
}

// TestStopWhileHeld: the server stops at once, whatever its scenes have still to be
// shown. That no goroutine stays behind is checked when all tests are over.
func TestStopWhileHeld(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(t, 0)
		h.play("e4")
		codes, began := make(chan websocket.StatusCode), time.Now()
		for _, hold := range []string{"0", "1800", "air"} {
			p := h.open("page=scene/board&hold=" + hold)
			go func() { codes <- p.closed() }()
		}
		synctest.Wait()
		go h.stop()
		for range 3 {
			if got := <-codes; got != websocket.StatusGoingAway {
				t.Errorf("close code %d, want 1001", got)
			}
		}
		if took := time.Since(began); took > time.Second {
			t.Errorf("it took %v", took)
		}
	})
}

// TestFramesOfAHold: pages that are held alike share their frames, which go with the
// last of them.
func TestFramesOfAHold(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		count := func() (holds, pages int) {
			synctest.Wait()
			h.server.frames.mu.Lock()
			defer h.server.frames.mu.Unlock()
			for _, shared := range h.server.frames.open {
				pages += shared.pages
			}
			return len(h.server.frames.open), pages
		}
		var all []*watcher
		for _, query := range []string{"page=scene/board", "page=scene/board&hold=0", "page=scene/board&hold=5", "page=scene/caption&hold=5.0", "page=scene/board&hold=air"} {
			all = append(all, h.watch(query))
		}
		if holds, pages := count(); holds != 3 || pages != 5 {
			t.Errorf("%d pages share %d sets of frames, want 5 and 3", pages, holds)
		}
		for _, w := range all {
			w.leave()
		}
		if holds, pages := count(); holds != 0 || pages != 0 {
			t.Errorf("when all have left there are %d sets of frames for %d pages", holds, pages)
		}
	})
}
