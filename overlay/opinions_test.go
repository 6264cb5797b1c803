package overlay

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/opinion"
)

const engineName = "Sounding 3"

// judge lets the engine say of the newest position of board 1 that these moves lead to a
// score, after a search of that depth.
func (h *hall) judge(depth int, score opinion.Score, sans ...string) {
	h.t.Helper()
	h.judgeAs(engineName, depth, score, sans...)
}

// judgeAs is judge for one of two engines; any other name is the second's.
func (h *hall) judgeAs(engine string, depth int, score opinion.Score, sans ...string) {
	h.t.Helper()
	h.say(engine, opinion.Opinion{Depth: depth, Lines: []opinion.Line{h.line(depth, score, sans...)}})
}

// judgeOnly has the engine find one move that wins, steadily over its last depths.
func (h *hall) judgeOnly(depth int, best, second opinion.Line) {
	h.t.Helper()
	said := opinion.Opinion{Depth: depth, Lines: []opinion.Line{best, second}}
	for d := depth - 4; d <= depth; d++ {
		said.Steps = append(said.Steps, opinion.Step{Depth: d, First: best.First(), Score: best.Score})
	}
	h.say(engineName, said)
}

// line is a line from the newest position of the first board.
func (h *hall) line(depth int, score opinion.Score, sans ...string) opinion.Line {
	h.t.Helper()
	b := h.server.Relay.Show().Boards[0]
	line, place := opinion.Line{Score: score, Depth: depth}, *b.Place(len(b.Plies))
	for _, san := range sans {
		move, err := place.ParseSAN(san)
		if err != nil {
			h.t.Fatal(san, err)
		}
		place.Make(move)
		line.Moves = append(line.Moves, move)
	}
	return line
}

// say brings an opinion on the newest position of the first board.
func (h *hall) say(engine string, said opinion.Opinion) {
	b := h.server.Relay.Show().Boards[0]
	n := len(b.Plies)
	said.Engine = engine
	h.events <- relay.EngineAnswered{At: h.tb.Now(), Board: 1, Game: b.Game, Second: engine != engineName, Answers: []relay.Judged{{Ply: n, Place: b.Place(n).Hash(), Opinion: said}}}
	synctest.Wait()
}

func (h *hall) engine() {
	h.events <- relay.EngineChanged{At: h.tb.Now(), Engine: relay.Engine{Name: engineName}}
	synctest.Wait()
}

// newest returns the opinions that a page was sent last.
func (w *watcher) newest() wire.Opinions {
	var out wire.Opinions
	for _, f := range w.heard() {
		if f.kind == wire.TypeOpinions {
			out = wire.Opinions{}
			json.Unmarshal(f.data, &out)
		}
	}
	return out
}

// sentAny returns the first frame since then that holds one of some words.
func (w *watcher) sentAny(since time.Time, words ...string) string {
	for _, f := range w.framesSince(since) {
		for _, word := range words {
			if bytes.Contains(f.data, []byte(word)) {
				return word + " in " + string(f.data[:min(len(f.data), 300)])
			}
		}
	}
	return ""
}

// TestOpinionOnDeskAndPanel: both are sent what the engine thinks, and scenes nothing of
// it: not a byte of any of their frames.
func TestOpinionOnDeskAndPanel(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		synctest.Wait()
		var scenes []*watcher
		for _, address := range append(sceneAddresses(), "page=health") {
			scenes = append(scenes, h.watch(address))
		}
		h.engine()
		h.judge(14, opinion.Score{Centipawns: 84, Bound: opinion.AtLeast}, "Nh3", "Na6")
		desk, panel := h.watch("page=desk"), h.watch("page=panel")
		pass(6*time.Second, append(scenes, desk, panel)...)
		for _, p := range []*watcher{desk, panel} {
			said := p.newest()
			if said.Engine != engineName || said.Desk == nil || len(said.Boards) != 1 {
				t.Fatalf("%s is sent %+v", p.name, said)
			}
			line := said.Desk.Lines[0]
			want := []wire.OpinionMove{{Number: 3, SAN: "Nh3"}, {Number: 4, SAN: "Na6"}}
			if line.Score != "≥ +0.84" || line.Exact || line.Side != "white" || said.Desk.Ply != 2 || said.Desk.Board != 1 || !slices.Equal(line.Moves, want) {
				t.Errorf("%s: %+v", p.name, said.Desk)
			}
		}
		for _, s := range scenes {
			if leak := s.sentAny(time.Time{}, "Nh3", "Na6", "0.84", "opinions"); leak != "" {
				t.Errorf("%s is sent %s", s.name, leak)
			}
			s.conn.CloseNow()
		}
		desk.conn.CloseNow()
		panel.conn.CloseNow()
		synctest.Wait()
	})
}

// TestOpinionLeavesBoardsAlone: a deeper look at a position is no news of its board, so
// scenes are sent nothing at all for it.
func TestOpinionLeavesBoardsAlone(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		h.engine()
		scene := h.watch("page=scene/board")
		pass(time.Second, scene)
		rev := h.server.Relay.Show().Boards[0].Rev
		for depth := 1; depth < 20; depth++ {
			h.judge(depth, opinion.Score{Centipawns: depth}, "Nh3")
		}
		show := h.server.Relay.Show()
		if got := show.Boards[0].OpinionAt(2).Depth; got != 19 || show.Boards[0].Rev != rev {
			t.Errorf("depth %d, revision %d after %d", got, show.Boards[0].Rev, rev)
		}
		scene.conn.CloseNow()
		synctest.Wait()
	})
}

// TestChallengeHidesTheEngine puts a question as Ada, lets the engine find the answer, and
// reads every byte that the others are sent: another desk, one without a name, the panel,
// health and all scenes, those that come in the middle among them. Ada is told all.
func TestChallengeHidesTheEngine(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4") // what is found under way is no news
		synctest.Wait()
		time.Sleep(time.Second)
		h.play("e4 e5")
		synctest.Wait()
		h.engine()
		h.judge(13, opinion.Score{Centipawns: 84}, "Nh3", "Na6")
		open := func() []*watcher {
			var out []*watcher
			for _, address := range append(sceneAddresses(), "page=desk&n=1", "page=desk&n=2", "page=panel", "page=health") {
				out = append(out, h.watch(address))
			}
			out[len(out)-4].send(`{"type":"who","name":"Bo"}`)
			out[len(out)-2].send(`{"type":"who","name":"Ada"}`) // a panel is no desk
			synctest.Wait()
			return out
		}
		ada := h.watch("page=desk")
		ada.send(`{"type":"who","name":"Ada"}`)
		others := open()
		pass(6*time.Second, append(others, ada)...)
		if other := others[len(others)-4].newest(); other.Desk == nil {
			t.Fatal("before the question the other desk was told nothing: this shows too little")
		}
		h.desk("prepare-challenge", `{"who":"Ada","seconds":120}`)
		before := time.Now()
		if why := h.desk("ask", `{"who":"Ada"}`); why != "" {
			t.Fatal(why)
		}
		time.Sleep(time.Second)
		h.judgeOnly(20, h.line(20, opinion.Score{Centipawns: 333}, "Nf3", "Nf6"), h.line(20, opinion.Score{}, "Nh3", "Nc6"))
		others = append(others, open()...)
		pass(20*time.Second, append(others, ada)...)
		for _, p := range others {
			// The first moves are among the legal ones that every desk is sent.
			if leak := p.sentAny(before, "Na6", "Nf6", "0.84", "3.33", "better", "Only one move", "onlyMove"); leak != "" {
				t.Errorf("%s is sent %s", p.name, leak)
			}
		}
		if ada.sentAny(before, "Only one move wins") == "" {
			t.Error("who asked has no sentence of the engine: nothing of it can be missing elsewhere")
		}
		if said := ada.newest(); said.Desk == nil || said.Desk.Lines[0].Score != "+3.33" || said.Kept != 0 {
			t.Errorf("who asked is told %+v", said)
		}
		if kept := others[len(others)-2].newest().Kept; kept != 1 {
			t.Errorf("the panel is told that board %d is kept back", kept)
		}
		h.desk("end-challenge", `{"who":"Ada"}`)
		pass(6*time.Second, append(others, ada)...)
		for _, p := range others {
			if said := p.newest(); said.Type != "" && (len(said.Boards) != 1 || said.Kept != 0) {
				t.Errorf("%s is told nothing after the question: %+v", p.name, said)
			}
			p.conn.CloseNow()
		}
		ada.conn.CloseNow()
		synctest.Wait()
	})
}

// TestVerdictOnTheAir: nothing of it is there before somebody puts it there; then both the
// sentence and the marker come to the scenes, and go with the next move.
func TestVerdictOnTheAir(t *testing.T) {
	inHall(t, 0, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		synctest.Wait()
		if why := h.desk("lean", ""); why == "" {
			t.Error("without an engine there is a lean")
		}
		h.engine()
		h.judge(8, opinion.Score{Centipawns: 150}, "Nf3")
		if why := h.desk("say-verdict", ""); why == "" {
			t.Error("eight plies are enough for the air")
		}
		h.judge(16, opinion.Score{Centipawns: 150}, "Nf3")
		scene, held := h.watch("page=scene/board"), h.watch("page=scene/board&hold=5")
		pass(6*time.Second, scene, held)
		for _, act := range []string{"lean", "say-verdict"} {
			if why := h.desk(act, ""); why != "" {
				t.Fatal(act, why)
			}
		}
		at := time.Now()
		pass(6*time.Second, scene, held)
		for _, s := range []*watcher{scene, held} {
			is := s.at(time.Now())
			if is.Air.Lean == nil || is.Air.Lean.Text != "Engine: White better" || is.Air.Lean.Size != 2 || is.Air.Lean.Side != "white" {
				t.Errorf("%s: lean %+v", s.name, is.Air.Lean)
			}
			if is.Caption.Caption == nil || is.Caption.Caption.Text != "The engine prefers White, by a pawn and a half." {
				t.Errorf("%s: caption %+v", s.name, is.Caption.Caption)
			}
		}
		if early := held.at(at.Add(4 * time.Second)); early.Air.Lean != nil || early.Caption.Caption != nil {
			t.Error("a scene held back shows them before its time")
		}
		h.play("e4 e5 Nf3")
		pass(6*time.Second, scene, held)
		for _, s := range []*watcher{scene, held} {
			if is := s.at(time.Now()); is.Air.Lean != nil || is.Caption.Caption != nil {
				t.Errorf("%s: after the next move %+v, %+v", s.name, is.Air.Lean, is.Caption.Caption)
			}
			s.conn.CloseNow()
		}
		synctest.Wait()
	})
}
