package overlay

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/overlay/wire"
)

// desk does an action and returns why it was refused, "" if it was done.
func (h *hall) desk(action, body string) string {
	h.t.Helper()
	_, reply := h.postTo("/api/actions/"+action, strings.NewReader(body), nil)
	synctest.Wait()
	return reply.Error
}

// framesSince returns what a scene was sent from then on.
func (w *watcher) framesSince(t time.Time) []sent {
	w.mu.Lock()
	defer w.mu.Unlock()
	var out []sent
	for _, f := range w.frames {
		if !f.at.Before(t) {
			out = append(out, f)
		}
	}
	return out
}

// sceneAddresses is every kind of scene, on the board, following the desk, and held back.
func sceneAddresses() []string {
	var out []string
	for kind, is := range pageKinds {
		if !is.held {
			continue
		}
		out = append(out, "page="+kind, "page="+kind+"&hold=5")
		if is.air && is.boards == oneBoard {
			out = append(out, "page="+kind+"&board=air")
		}
	}
	return out
}

// TestChallengeGivesNothingAway puts a question, lets the game go on, and reads every
// byte on every kind of scene: until the answer there is nothing of the moves played
// since, nor of what was on the panel about them. Scenes opened in the middle are told no more.
func TestChallengeGivesNothingAway(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		synctest.Wait()
		for _, act := range []string{"prepare-challenge", "ask"} {
			if why := h.desk(act, map[bool]string{true: `{"seconds":30}`}[act == "prepare-challenge"]); why != "" {
				t.Fatal(act, why)
			}
		}
		asked := time.Now()
		time.Sleep(time.Second)
		var scenes []*watcher
		for _, address := range sceneAddresses() {
			scenes = append(scenes, h.watch(address))
		}
		h.play("e4 e5 Nf3 Nc6")
		synctest.Wait()
		h.post(strings.NewReader(`{"id":"r","board":1,"act":"result","text":"1-0"}`), nil)
		for _, address := range sceneAddresses() { // in the middle
			scenes = append(scenes, h.watch(address))
		}
		pass(10*time.Second, scenes...)
		for _, s := range scenes {
			for _, f := range s.framesSince(asked) {
				for _, word := range []string{"Nf3", "Nc6", "g1", "1-0", "R1BQKB1R", "5N2", "2n5"} {
					if bytes.Contains(f.data, []byte(word)) {
						t.Errorf("%s is sent %q in %.300s", s.name, word, f.data)
					}
				}
			}
		}
		before := time.Now()
		if why := h.desk("reveal", ""); why != "" {
			t.Fatal(why)
		}
		for _, s := range scenes { // the answer is played first
			for _, f := range s.framesSince(before) {
				if f.kind == wire.TypeBoard && bytes.Contains(f.data, []byte("Nf3")) {
					t.Errorf("%s is sent the board before the answer has been played", s.name)
				}
			}
		}
		pass(8*time.Second, scenes...)
		for _, s := range scenes {
			told := false
			for _, f := range s.framesSince(before) {
				told = told || bytes.Contains(f.data, []byte("Nf3"))
			}
			if told != (s.name != "page=scene/caption" && s.name != "page=scene/caption&hold=5") {
				t.Errorf("%s is told of the answer: %v", s.name, told)
			}
			s.conn.CloseNow()
		}
		synctest.Wait()
	})
}

// TestSceneFollowsTheDesk: with board=air it is sent the board that the desk puts on the
// air, and no other.
func TestSceneFollowsTheDesk(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4")
		h.post(strings.NewReader(`{"id":"b2","board":2,"act":"move","ply":1,"san":"d4"}`), nil)
		synctest.Wait()
		p := h.watch("page=scene/board&board=air")
		pass(time.Second, p)
		if why := h.desk("look-at", `{"board":2}`); why != "" {
			t.Fatal(why)
		}
		before := time.Now()
		pass(time.Second, p)
		for _, f := range p.framesSince(before) {
			if f.kind == wire.TypeBoard {
				t.Errorf("the desk looks at another board, and viewers are sent %.80s", f.data)
			}
		}
		if why := h.desk("put-on-air", ""); why != "" {
			t.Fatal(why)
		}
		pass(time.Second, p)
		var air wire.Air
		var board wire.Board
		for _, f := range p.framesSince(before) {
			switch f.kind {
			case wire.TypeAir:
				json.Unmarshal(f.data, &air)
			case wire.TypeBoard:
				json.Unmarshal(f.data, &board)
			}
		}
		if air.Board != 2 || board.Board != 2 || board.Base != 0 {
			t.Errorf("on the air is board %d, the scene is sent board %d from revision %d", air.Board, board.Board, board.Base)
		}
		before = time.Now()
		h.desk("look-at", `{"board":1}`)
		h.desk("put-on-air", "")
		pass(time.Second, p)
		board = wire.Board{}
		for _, f := range p.framesSince(before) {
			if f.kind == wire.TypeBoard {
				json.Unmarshal(f.data, &board)
			}
		}
		if board.Board != 1 || board.Base != 0 {
			t.Errorf("back on the air, board 1 is not sent again, but %d from revision %d", board.Board, board.Base)
		}
		p.conn.CloseNow()
		synctest.Wait()
	})
}

// TestDeskCalls: an action is done once under its ID, anew without one; what is wrong is
// told in words, and a page of another address may do nothing.
func TestDeskCalls(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		synctest.Wait()
		place := func() int { return h.server.Relay.Show().Desk.Place.Ply }
		for _, step := range []struct {
			action, body, why string
			ply               int
		}{
			{"back", "", "", 1},
			{"back", `{"id":"x1"}`, "", 0},
			{"back", `{"id":"x1"}`, "", 0}, // sent again
			{"back", `{"id":"x2"}`, "this is the start", 0},
			{"forward", "{}", "", 1},
			{"play", `{"san":"e4e5"}`, "Black is on move", 1},
			{"play", `{"sam":"e5"}`, `no field "sam"`, 1},
			{"play", `{"san":5}`, `field "san" holds a number`, 1},
			{"go-to", `{"ply":99}`, "no ply 99", 1},
			{"back", "[]", "not one JSON object", 1},
		} {
			why := h.desk(step.action, step.body)
			if !strings.Contains(why, step.why) || (why == "") != (step.why == "") || place() != step.ply {
				t.Errorf("%s %s: %q at ply %d, want %q at %d", step.action, step.body, why, place(), step.why, step.ply)
			}
		}
		if response, _ := h.postTo("/api/actions/dance", strings.NewReader(""), nil); response.StatusCode != 404 {
			t.Errorf("an action that there is not: %d", response.StatusCode)
		}
		if response, _ := h.postTo("/api/actions/back", strings.NewReader(""), header("Sec-Fetch-Site", "cross-site")); response.StatusCode != 403 {
			t.Errorf("from a page of another address: %d", response.StatusCode)
		}
	})
}

// TestDeskFrame: the desk is told where it stands, and what may be played there.
func TestDeskFrame(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4 e5 Nf3")
		synctest.Wait()
		for _, act := range []string{`back`, `play`, `name-line`, `mark-weak`} {
			body := map[string]string{"play": `{"san":"Bc4"}`, "name-line": `{"text":"the other knight waits"}`, "mark-weak": `{"to":"f7"}`}[act]
			if why := h.desk(act, body); why != "" {
				t.Fatal(act, why)
			}
		}
		p := h.open("page=desk")
		var desk wire.Desk
		p.until(wire.TypeDesk, &desk)
		p.conn.CloseNow()
		got := fmt.Sprintf("%d %v %d moves, %d line of %q by %s, %d mark, last %s, undo %q", desk.Place.Ply, desk.Place.Live, len(desk.Moves),
			len(desk.Lines), desk.Lines[0].Name, desk.Lines[0].Step.SAN, len(desk.Marks), desk.Place.Last.SAN, desk.Undoable)
		// 29: counted with notnil/chess, as all legal moves are in relay/bitboard's tests.
		want := `2 false 29 moves, 1 line of "the other knight waits" by Bc4, 1 mark, last Bc4, undo "the mark"`
		if got != want {
			t.Errorf("the desk is told\n%s, want\n%s", got, want)
		}
	})
}
