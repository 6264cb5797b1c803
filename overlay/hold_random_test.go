package overlay

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// heldWorld is a show with scenes that are held back, to which anything happens.
type heldWorld struct {
	*world // its games and packets
	hall   *hall
	live   *watcher // not held
	scenes []*heldScene
	seen   struct{ samples, behind, running, alerts, captions, changes, moved, corrected, asked, explained int }
	air    []change // of the hold of the group
	acts   int
}

// change is another hold of the group.
type change struct {
	at       time.Time
	by, from time.Duration
}

// heldScene is a scene and where it should stand.
type heldScene struct {
	*watcher
	fixed time.Duration
	group bool
	stood time.Time // the latest instant it may have shown; zero: none
	came  time.Time // where it began
}

// target is where a scene of the group that has seen nothing should stand at t, as
// PROTOCOL.md says: at the hold, but for the 5 seconds after it became shorter, in which
// it makes up evenly for the difference.
func (w *heldWorld) target(t time.Time) time.Time {
	c := w.air[len(w.air)-1]
	gap, gone := c.from-c.by, t.Sub(c.at)
	if gap <= 0 || gone >= 5*time.Second {
		return t.Add(-c.by)
	}
	return t.Add(-c.by - time.Duration(float64(gap)*float64(5*time.Second-gone)/float64(5*time.Second)))
}

// stand is where a scene should stand now: never behind where it has been.
func (w *heldWorld) stand(s *heldScene) time.Time {
	at := time.Now().Add(-s.fixed)
	if s.group {
		at = w.target(time.Now())
	}
	if s.stood.IsZero() {
		s.came = at
	}
	if at.After(s.stood) {
		s.stood = at
	}
	return s.stood
}

func (w *heldWorld) open(query string, fixed time.Duration) {
	s := &heldScene{watcher: w.hall.watch("page=scene/board&" + query), fixed: fixed, group: query == "hold=air"}
	synctest.Wait()
	w.stand(s)
	w.scenes = append(w.scenes, s)
}

// setHold changes the hold of the group.
func (w *heldWorld) setHold(by time.Duration) string {
	now := time.Now()
	next := change{at: now, by: by, from: by}
	if len(w.air) > 0 {
		next.from = now.Sub(w.target(now))
	}
	for _, s := range w.scenes {
		w.stand(s)
	}
	w.air = append(w.air, next)
	w.seen.changes++
	w.acts++
	w.hall.events <- relay.ByHand{At: now, ID: fmt.Sprint("hold-", w.acts), Act: relay.ActHold, Text: "air", For: by}
	return fmt.Sprint("hold of ", by)
}

// deskActs is what is done at the desk of a held world; most of it is refused at times.
var deskActs = []string{
	"back", "forward", "to-live", "play", "mark-weak", "put-on-air", "play-line", "take-off-air", "ask", "ask", "ask", "give-hint", "reveal", "end-challenge",
}

// step lets one thing happen.
func (w *heldWorld) step() string {
	now, g := time.Now(), &w.games[w.random.IntN(2)]
	w.acts++
	id := fmt.Sprint("act-", w.acts)
	switch w.random.IntN(20) {
	case 0, 1:
		return w.setHold(time.Duration(w.random.IntN(40_000)) * time.Millisecond)
	case 2:
		w.hall.events <- relay.FeedFailed{At: now, Feed: relaytest.FeedName, Reason: "timeout", Text: "it is timeout"}
		return "fault"
	case 3, 4:
		w.hall.events <- relay.AtPanel{At: now, ID: id, Who: "Nadja", Act: relay.PanelAir, Text: "A sentence of its own, " + id}
		return "caption"
	case 5:
		w.hall.events <- relay.AtPanel{At: now, ID: id, Who: "Nadja", Act: relay.PanelOff}
		return "off the air"
	case 6:
		g.moves = g.moves[:max(0, len(g.moves)-1)]
	case 7:
		g.white += "x"
	case 8:
		time.Sleep(time.Duration(w.random.IntN(20_000)) * time.Millisecond)
		return "silence"
	case 9:
		act := []relay.Act{relay.ActFreeze, relay.ActThaw, relay.ActThaw}[w.random.IntN(3)]
		w.hall.events <- relay.ByHand{At: now, ID: id, Board: 1, Act: act}
		return string(act)
	case 10, 11, 12, 13:
		act := relay.AtDesk{At: now, ID: id, Action: deskActs[w.random.IntN(len(deskActs))], To: "e4", SAN: "e4"}
		if act.Action == "ask" {
			w.hall.events <- relay.AtDesk{At: now, ID: id + "-prepared", Action: "prepare-challenge", Seconds: 20}
		}
		w.hall.events <- act
		return act.Action
	default:
		w.games[0].play(w.random)
		g.play(w.random)
	}
	w.hall.events <- w.hall.intake.Read(now, []byte(deed{games: w.told(), cut: whole}.packet()))
	return "moves " + strings.Join(g.moves[max(0, len(g.moves)-2):], " ")
}

// check holds every scene against what the scene that is not held showed then.
func (w *heldWorld) check(t *testing.T) {
	t.Helper()
	for _, s := range w.scenes {
		stands := w.stand(s)
		want := w.live.at(stands)
		now := s.at(time.Now())
		if got := now.text(); got != want.text() {
			t.Fatalf("%s at %v, standing %v behind, shows\n%s\nwant\n%s", s.name, time.Now(), time.Since(stands), got, want.text())
		}
		w.seen.samples++
		if now.text() != w.live.at(time.Now()).text() {
			w.seen.behind++
		}
		w.checkTime(t, s, stands, now, want)
	}
}

// checkTime holds the page's time, and the clocks it draws, against those of then. Times
// on the wire are whole milliseconds, so a page may be one behind.
func (w *heldWorld) checkTime(t *testing.T, s *heldScene, stands time.Time, now, want picture) {
	t.Helper()
	s.mu.Lock()
	is := s.reckoned(time.Now())
	problems := s.problems
	s.mu.Unlock()
	then := float64(stands.UnixNano()) / 1e6
	if late := then - is; late < -0.01 || late > 1 {
		t.Fatalf("%s reckons with a time %.3f ms behind where it should stand", s.name, late)
	}
	if len(problems) > 0 {
		t.Fatalf("%s: %v", s.name, problems)
	}
	if now.Board == nil {
		return
	}
	white, black := drawn(now.Board, is)
	wasWhite, wasBlack := drawn(want.Board, then)
	if d := max(white-wasWhite, black-wasBlack); d > 1 || min(white-wasWhite, black-wasBlack) < -0.01 {
		t.Fatalf("%s draws %.3f and %.3f, then were drawn %.3f and %.3f", s.name, white, black, wasWhite, wasBlack)
	}
	if now.Board.Running != "" && now.Board.White.Clock.State != wire.StateHeld {
		w.seen.running++
	}
	w.seen.alerts += len(now.Board.Alerts)
	if now.Board.Correction != nil {
		w.seen.corrected++
	}
	if now.Caption.Caption != nil {
		w.seen.captions++
	}
	if now.Air.Explained != nil {
		w.seen.explained++
	}
	if c := now.Air.Challenge; c != nil && c.State == wire.ChallengeAsked {
		w.seen.asked++
	}
}

// checkFrames reads every frame that a scene was sent: none may name an instant that
// was still to come where the scene stood, or bring a board, list or sentence that the
// scene which is not held did not have by then.
func (w *heldWorld) checkFrames(t *testing.T, s *heldScene, stood func(time.Time) time.Time) {
	t.Helper()
	for _, f := range s.frames {
		then := stood(f.at)
		for _, at := range instants(t, f.data) {
			if at > then.UnixMilli() {
				t.Fatalf("%s was sent, standing at %v, what happened at %v:\n%s", s.name, then, time.UnixMilli(at).UTC(), f.data)
			}
		}
		var frame struct {
			Rev     uint64
			Plies   []wire.Ply
			Caption *wire.Caption
		}
		json.Unmarshal(f.data, &frame)
		had := w.live.at(then)
		switch {
		case f.kind == wire.TypeBoard && (had.Board == nil || frame.Rev > had.Board.Rev),
			f.kind == wire.TypeShow && (had.Show == nil || frame.Rev > had.Show.Rev),
			f.kind == wire.TypeAir && (had.Air == nil || frame.Rev > had.Air.Rev),
			f.kind == wire.TypeCaption && (had.Caption == nil || frame.Rev > had.Caption.Rev):
			t.Fatalf("%s was sent, standing at %v, what nobody had seen:\n%s", s.name, then, f.data)
		}
	}
}

// checkFilm holds all that a scene showed against what the one that is not held showed
// from where it began to where it stands: nothing left out, nothing twice.
func (w *heldWorld) checkFilm(t *testing.T, s *heldScene) {
	t.Helper()
	want := []string{}
	if first := w.live.at(s.came); first != (picture{}) {
		want = append(want, first.text())
	}
	for _, p := range w.live.film {
		if p.at.After(s.came) && !p.at.After(s.stood) {
			want = append(want, p.text())
		}
	}
	for i, p := range s.film {
		if i >= len(want) || p.text() != want[i] {
			t.Fatalf("%s: picture %d of %d is not the one of then (%d):\n%s", s.name, i, len(s.film), len(want), p.text())
		}
	}
	if len(s.film) != len(want) {
		t.Errorf("%s showed %d pictures of %d", s.name, len(s.film), len(want))
	}
	w.seen.moved += len(s.film)
}

// TestRandomHolds lets anything happen to a show while its scenes are held back, and
// the hold of a group change. What a scene showed is what the one that is not held
// showed then; whatever it was sent was known then.
func TestRandomHolds(t *testing.T) {
	var sum [8]int
	for seed := range uint64(4) {
		synctest.Test(t, func(t *testing.T) {
			w := &heldWorld{world: newWorld(seed, false), hall: newHall(t, 0)}
			w.random = rand.New(rand.NewPCG(seed, 7))
			defer w.hall.stop()
			w.run(t, 120)
			for i, n := range []int{w.seen.behind, w.seen.running, w.seen.alerts, w.seen.captions, w.seen.changes, w.seen.corrected, w.seen.asked, w.seen.explained} {
				sum[i] += n
			}
		})
	}
	for i, what := range []string{"samples behind the present", "with a running clock", "alerts", "captions", "changes of the hold", "corrections", "questions to the viewers", "positions explained"} {
		if t.Logf("%d %s", sum[i], what); sum[i] < 50 {
			t.Errorf("%d %s: the check sees too little", sum[i], what)
		}
	}
}

func (w *heldWorld) run(t *testing.T, steps int) {
	w.live = w.hall.watch("page=scene/board&board=1")
	synctest.Wait()
	w.open("hold=0", 0)
	w.open("hold=3.5", 3500*time.Millisecond)
	w.open("hold=12", 12*time.Second)
	w.setHold(7 * time.Second)
	w.open("hold=air", 0)
	for i := range steps {
		w.step()
		synctest.Wait()
		w.check(t)
		for range 1 + w.random.IntN(4) {
			time.Sleep(time.Duration(w.random.IntN(1500)) * time.Millisecond)
			for _, s := range append(w.scenes, &heldScene{watcher: w.live}) {
				s.send(`{"type":"ping","t":1}`)
			}
			synctest.Wait()
			w.check(t)
		}
		if i%30 == 15 {
			w.open("hold=air", 0)
			w.open("hold=25", 25*time.Second)
		}
	}
	w.end(t)
}

func (w *heldWorld) end(t *testing.T) {
	w.live.leave()
	for _, s := range w.scenes {
		w.stand(s)
		s.leave()
		w.checkFilm(t, s)
		w.checkFrames(t, s, w.stoodAt(s))
		if s.pongs == 0 {
			t.Errorf("%s had no pong: its time was not looked at", s.name)
		}
	}
}

// stoodAt returns where a scene stood at a time of the past.
func (w *heldWorld) stoodAt(s *heldScene) func(time.Time) time.Time {
	if !s.group {
		return func(t time.Time) time.Time { return t.Add(-s.fixed) }
	}
	all, opened := w.air, s.frames[0].at
	return func(t time.Time) time.Time {
		var stood time.Time
		for n := range all {
			if all[n].at.After(t) {
				break
			}
			w.air = all[:n+1]
			until := t
			if n+1 < len(all) && all[n+1].at.Before(t) {
				until = all[n+1].at
			}
			if at := w.target(until); !until.Before(opened) && at.After(stood) {
				stood = at
			}
		}
		w.air = all
		return stood
	}
}
