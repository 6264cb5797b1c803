package overlay

import (
	"encoding/json"
	"fmt"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestLogOnceAndInOrder: a page that reads nothing for a while, and one that reads at
// once, get the newest hundred lines and then every line once.
func TestLogOnceAndInOrder(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.talk(150)
		begun := h.server.Relay.Show().Log.Total
		slow := h.open("page=health")
		var first wire.Log
		slow.until(wire.TypeLog, &first)
		if n := len(first.Items); n != logFirstMost || first.Items[n-1].Seq != begun {
			t.Fatalf("on connecting %d lines up to %d, want %d up to %d", n, first.Items[n-1].Seq, logFirstMost, begun)
		}
		h.talk(450) // meanwhile it takes nothing
		total := h.server.Relay.Show().Log.Total
		if total < begun+450 {
			t.Fatalf("the show log has %d lines, %d before", total, begun)
		}
		if got := slow.linesUpTo(t, total, begun); got < 3 {
			t.Errorf("%d lines came in %d frames, want at most %d in one", total-begun, got, logFrameMost)
		}
		h.talk(2)
		slow.linesUpTo(t, h.server.Relay.Show().Log.Total, total)
	})
}

// talk lets the producer do n things that are noted.
func (h *hall) talk(n int) {
	h.t.Helper()
	for range n {
		h.said++
		h.events <- relay.ByHand{At: h.tb.Now(), ID: fmt.Sprintf("talk-%d", h.said), Board: 1, Act: relay.ActName, Side: "white", Text: fmt.Sprintf("Name %d", h.said)}
	}
	synctest.Wait()
}

// linesUpTo reads frames of the show log until that line, and returns how many. The
// first line must be the one behind held.
func (p *page) linesUpTo(t *testing.T, last, held uint64) (frames int) {
	t.Helper()
	for held < last {
		var log wire.Log
		p.until(wire.TypeLog, &log)
		frames++
		if len(log.Items) == 0 || len(log.Items) > logFrameMost {
			t.Fatalf("a frame of %d lines", len(log.Items))
		}
		for _, line := range log.Items {
			held++
			if line.Seq != held {
				t.Fatalf("line %d came where line %d is due", line.Seq, held)
			}
		}
	}
	return frames
}

// TestLogFromTheStart: a page that was there before the first line misses none, however
// many come at once.
func TestLogFromTheStart(t *testing.T) {
	s := relaytest.NewStage()
	var held logHeld
	if frames := held.newLines(s.Show); frames != nil {
		t.Errorf("%d frames of a log without lines", len(frames))
	}
	for i := range 2*logFrameMost + 1 {
		s.Apply(relay.ByHand{At: s.Now, ID: fmt.Sprint(i), Board: 9, Act: relay.ActThaw}) // refused, which is a line
	}
	var sizes []int
	for _, frame := range held.newLines(s.Show) {
		var log wire.Log
		if err := json.Unmarshal(frame, &log); err != nil {
			t.Fatal(err)
		}
		sizes = append(sizes, len(log.Items))
	}
	if fmt.Sprint(sizes) != fmt.Sprintf("[%d %d 1]", logFrameMost, logFrameMost) {
		t.Errorf("frames of %v lines", sizes)
	}
	if frames := held.newLines(s.Show); frames != nil {
		t.Error("the same lines again")
	}
}

// TestLogLine: a line says everything that was noted.
func TestLogLine(t *testing.T) {
	got := logLines([]relay.Noted{{Seq: 7, At: time.UnixMilli(1792238400000), Board: 2, Kind: relay.NoteReplaced, Ply: 5, Was: "3.Bb5", Is: "3.Bc4", Text: "x"}}, 0)
	want := wire.LogLine{Seq: 7, At: 1792238400000, Board: 2, Kind: "replaced", Ply: 5, Was: "3.Bb5", Is: "3.Bc4", Text: "x"}
	if len(got) != 1 || got[0] != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// TestWhoHearsWhat: what concerns the producer goes to no other page, and what is said at
// the panels to nobody else.
func TestWhoHearsWhat(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		kinds := make(map[string]map[string]bool)
		var pages []*page
		for kind := range pageKinds {
			heard := make(map[string]bool)
			kinds[kind] = heard
			p := h.open("page=" + kind)
			pages = append(pages, p)
			go func() {
				for {
					_, data, err := p.conn.Read(t.Context())
					var head struct{ Type string }
					if err != nil || json.Unmarshal(data, &head) != nil {
						return
					}
					heard[head.Type] = true
				}
			}()
		}
		h.play("e4 e5")
		h.talk(1)
		for _, p := range pages {
			p.conn.CloseNow()
		}
		synctest.Wait()
		for kind, heard := range kinds {
			health, panel, boards := kind == "health", kind == "panel", kind != "scene/caption"
			desk := kind == "desk"
			air := desk || kind == "scene/board" || kind == "scene/clocks" || kind == "scene/challenge"
			caption := panel || desk || kind == "scene/board" || kind == "scene/caption"
			for frame, want := range map[string]bool{
				wire.TypeSources: health, wire.TypeLog: health, wire.TypeFeeds: health, wire.TypePrompts: panel || desk, wire.TypeTable: panel,
				wire.TypeBoard: boards, wire.TypeCaption: caption, wire.TypeShow: true, wire.TypeAir: air, wire.TypeDesk: desk,
			} {
				if heard[frame] != want {
					t.Errorf("%s hears %s: %v, want %v", kind, frame, heard[frame], want)
				}
			}
		}
	})
}

// TestLogKeepsTheEngineBack: of the board that viewers are asked about a line says who did
// something with what the engine has said, and not what that was, and none of which kind its
// alerts are; the same lines say it of other boards.
func TestLogKeepsTheEngineBack(t *testing.T) {
	notes := []relay.Noted{
		{Board: 2, Kind: relay.NotePanel, Is: "A", Text: "a", Engine: true}, {Board: 2, Kind: relay.NoteRaised, Is: "B", Text: "b"},
		{Board: 1, Kind: relay.NoteRaised, Is: "C", Text: "c", Engine: true}, {Kind: relay.NotePanel, Is: "D", Text: "d", Engine: true},
		{Board: 2, Kind: relay.NoteRaised, Is: "E", Text: "e", Engine: true}, {Board: 2, Kind: relay.NoteCleared, Is: "F", Text: "f", Engine: true},
	}
	for kept, want := range map[int]string{0: "AaBbCcDdEeFf", 2: "ABbCcDengineengine", 1: "AaBbengineDEeFf", 3: "AaBbCcDEeFf"} {
		said := ""
		for _, line := range logLines(notes, kept) {
			said += line.Is + line.Text
		}
		if said != want {
			t.Errorf("with board %d kept back the log says %q, want %q", kept, said, want)
		}
	}
}
