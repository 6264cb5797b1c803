package overlay

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestEncodedOnce: whatever pages are sent of a show, it is encoded once for all that are held back
// alike and not once for each: as often as there are different frames.
func TestEncodedOnce(t *testing.T) {
	const each = 15
	inHall(t, 1000, func(t *testing.T, h *hall) {
		var mu sync.Mutex // protects following
		different := make(map[string]int)
		h.play("e4")
		open := func() {
			for _, hold := range []string{"", "&hold=3", "&hold=7"} {
				for range each {
					p := h.open("page=scene/board" + hold)
					go p.drain(func(frame []byte) {
						mu.Lock()
						defer mu.Unlock()
						different[hold+" "+string(frame)]++
					})
				}
			}
		}
		open()
		for _, moves := range []string{"e4 e5", "e4 e5 Nf3", "e4 e5 Nf3 Nc6"} {
			time.Sleep(8 * time.Second)
			h.play(moves)
			open() // who comes needs the whole of what others have
		}
		time.Sleep(8 * time.Second)
		open()
		time.Sleep(8 * time.Second)
		synctest.Wait()
		mu.Lock()
		defer mu.Unlock()
		boards, sent := make(map[string]bool), 0
		for frame, times := range different {
			if sent += times; strings.Contains(frame, `"type":"board"`) {
				boards[frame] = true
			}
		}
		if got := int(h.server.encoded.Load()); got != len(different) {
			t.Errorf("%d frames were encoded for %d that differ", got, len(different))
		}
		t.Logf("%d frames, %d of them boards, were sent %d times", len(different), len(boards), sent)
		if len(boards) < 3*(4+3) || sent < each*len(different) {
			t.Error("too little was sent to tell anything: in each hold four states whole, and three moves")
		}
	})
}

// drain hands over whatever of the show comes until the socket ends.
func (p *page) drain(take func(frame []byte)) {
	for {
		_, data, err := p.conn.Read(p.t.Context())
		if err != nil {
			return
		}
		var head struct{ Type string }
		if err := json.Unmarshal(data, &head); err == nil && head.Type != wire.TypeWelcome && head.Type != wire.TypeTime {
			take(data)
		}
	}
}

// TestBoardsInTurn: of many boards a page is sent some at a time, all of them, and later ones are
// not kept waiting by earlier ones that change meanwhile.
func TestBoardsInTurn(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		var games []relaytest.Game
		for n := range 8 {
			games = append(games, relaytest.Game{White: fmt.Sprintf("White%d, W", n), Table: fmt.Sprint(n + 1), Moves: strings.Repeat("Nf3 Nf6 Ng1 Ng8 ", 30)})
		}
		h.events <- h.intake.Read(h.tb.Now(), []byte(relaytest.Packet(games...)))
		p := h.open("page=panel")
		synctest.Wait() // the page takes nothing: its first frame is under way
		sent := make(map[int]bool)
		for len(sent) < len(games) {
			kind, data := p.next()
			if kind == wire.TypePrompts && len(sent) < len(games) {
				t.Errorf("prompts come when only boards %v have come", sent)
			}
			if kind != wire.TypeBoard {
				continue
			}
			var board wire.Board
			if err := json.Unmarshal(data, &board); err != nil {
				t.Fatal(err)
			}
			if sent[board.Board] && len(sent) < len(games) {
				t.Errorf("board %d comes again before boards other than %v have come", board.Board, sent)
			}
			sent[board.Board] = true
			games[0].Moves += "Nf3 Nf6 Ng1 Ng8 "
			h.events <- h.intake.Read(h.tb.Now(), []byte(relaytest.Packet(games...)))
		}
	})
}

// TestLookIsBounded: of boards that together have more than lookMost a look has that and one at most,
// and another look follows on its own until all have been sent.
func TestLookIsBounded(t *testing.T) {
	var games []relaytest.Game
	for n := range 8 {
		games = append(games, relaytest.Game{White: fmt.Sprintf("White%d, W", n), Table: fmt.Sprint(n + 1), Moves: strings.Repeat("Nf3 Nf6 Ng1 Ng8 ", 30)})
	}
	stage := relaytest.NewStage()
	stage.Take(relaytest.Packet(games...))
	tb := relay.NewTimebaseAt(stage.Now, 1)
	server := New(Options{Relay: relay.New(stage.Show, tb), Time: tb})
	v := &viewer{server: server, kind: pageKinds["panel"], frames: server.frames.take(held{}), box: newMailbox(), me: new(connected)}
	looks, boards := 0, 0
	for v.box.signal(); len(v.box.wake) > 0; looks++ {
		<-v.box.wake
		size, largest := 0, 0
		for _, m := range v.look(nil) {
			size, largest, boards = size+len(m), max(largest, len(m)), boards+1
		}
		if size > lookMost+largest {
			t.Errorf("look %d has %d bytes of boards, more than %d and one board of %d", looks, size, lookMost, largest)
		}
	}
	if boards != len(games) || looks < 2 {
		t.Errorf("%d boards were sent in %d looks, want %d in several", boards, looks, len(games))
	}
}

// TestTwoStates: pages that stand at one state and at the one before have both kept; of a third the
// oldest makes way.
func TestTwoStates(t *testing.T) {
	var it thing
	first, second := it.at(1), it.at(2)
	if it.at(1) != first || it.at(2) != second {
		t.Error("of two states one was made anew")
	}
	third := it.at(3)
	if it.at(2) != second || it.at(3) != third || it.at(1) == first {
		t.Error("not the two newest are kept")
	}
}

// TestAmongFrom: whatever the place at which it goes on, a page has its boards looked at once each.
func TestAmongFrom(t *testing.T) {
	for _, c := range []chosen{{}, {most: 3}, {boards: []int{2, 4, 9}}} {
		want := slices.Sorted(c.among(6))
		for from := range 9 {
			got := slices.Collect(c.amongFrom(from, 6))
			if slices.Sort(got); !slices.Equal(got, want) {
				t.Errorf("%+v from %d: %v, want %v in some order", c, from, got, want)
			}
			if first := slices.Collect(c.amongFrom(from, 6))[0]; first < from && slices.Max(want) >= from {
				t.Errorf("%+v from %d begins with %d", c, from, first)
			}
		}
	}
}
