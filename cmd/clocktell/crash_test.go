package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"clocktell/overlay"
	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/journal"
)

// crashes is how often the crash test kills: 200 times in .ci/run.
func crashes() int {
	if os.Getenv("CLOCKTELL_TESTS") == "all" {
		return 200
	}
	return 15
}

// TestCrash kills a serving process at random moments, while a feed and the producer
// go on, and looks at what the next one shows: nothing that was acknowledged or shown
// is lost or doubled, and the show is what its journal makes of it.
func TestCrash(t *testing.T) {
	c := newCrash(t)
	for i := range crashes() {
		if c.random.IntN(8) == 0 && i > 0 {
			c.killedEarly()
		}
		c.killedOnTheAir()
		if t.Failed() {
			return
		}
	}
	c.restart().kill()
	slices.Sort(c.back)
	t.Logf("%d kills, %d of them before the pages were up; %d entries acknowledged, %d of them sent again after a kill; %d plies of the feed shown; "+
		"back on the air after %v in the middle, %v at the worst, with %d records in the journal",
		crashes()+c.early, c.early, len(c.acknowledged), c.again, len(c.shown[1])+len(c.shown[2]), c.back[len(c.back)/2], c.back[len(c.back)-1], c.records)
	if len(c.acknowledged) < crashes() || len(c.shown[1])+len(c.shown[2]) < crashes() {
		t.Errorf("%d entries and %d plies: the test shows too little", len(c.acknowledged), len(c.shown[1])+len(c.shown[2]))
	}
}

// crash is a show whose process keeps being killed.
type crash struct {
	t       *testing.T
	random  *rand.Rand
	feed    *shuttle
	program string
	dir     string // of the journal
	config  string // its file

	mu    sync.Mutex       // protects following
	shown map[int][]string // moves that pages were shown, by board

	acknowledged []string    // moves entered on board handBoard that were acknowledged
	pending      *wire.Entry // sent, and not acknowledged
	early, again int
	records      int // in the journal at the last restart
	back         []time.Duration
}

// handBoard is the board that is led by hand; those before it are the feed's.
const handBoard = 3

func newCrash(t *testing.T) *crash {
	dir := t.TempDir()
	c := &crash{
		t: t, program: buildProgram(t), random: rand.New(rand.NewPCG(7, 9)), feed: newShuttle(t), shown: make(map[int][]string),
		dir: filepath.Join(dir, "journal"), config: filepath.Join(dir, "show.toml"),
	}
	text := fmt.Sprintf("[server]\nlisten = \"127.0.0.1:0\"\n[journal]\ndir = %q\n[log]\nlevel = \"error\"\n"+
		"[[feed]]\nname = \"arena\"\nurl = %q\nevery = \"100ms\"\nlate_after = \"1h\"\nstale_after = \"1h\"\n", c.dir, c.feed.url)
	if err := os.WriteFile(c.config, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return c
}

// killedEarly kills a process that may still be reading its journal.
func (c *crash) killedEarly() {
	c.early++
	c.feed.hold()
	child := startChild(c.t, c.program, "serve", "--config", c.config)
	<-time.After(c.within(150 * time.Millisecond))
	child.kill()
}

// killedOnTheAir starts a process, lets the feed and the producer go on, and kills it.
func (c *crash) killedOnTheAir() {
	child := c.restart()
	page := openPage(c.t, child.address, c.see)
	c.feed.release()
	timer := time.AfterFunc(c.within(150*time.Millisecond), child.kill)
	defer timer.Stop()
	for n := 0; n < entriesEach && c.boards() == handBoard-1 && c.enter(child.address); n++ {
		<-time.After(c.within(40 * time.Millisecond))
	}
	<-child.ended
	page.wait()
}

// entriesEach is how many entries are made between two kills at most.
const entriesEach = 4

// within returns a random time.
func (c *crash) within(d time.Duration) time.Duration {
	return time.Duration(c.random.Int64N(int64(d)))
}

// restart starts a process with the feed held back, and holds what it shows against
// what was shown, what was acknowledged, and what the journal makes.
func (c *crash) restart() *child {
	c.feed.hold()
	want := c.folded()
	began := time.Now()
	child := startChild(c.t, c.program, "serve", "--config", c.config)
	child.waitForAddress()
	got := firstFrames(c.t, child.address)
	c.back = append(c.back, time.Since(began))
	c.compare(got, want)
	return child
}

// folded returns the boards that the journal makes.
func (c *crash) folded() []wire.Board {
	recording, err := journal.Read(c.t.Context(), c.dir)
	if err != nil {
		if len(c.back) > 0 {
			c.t.Fatalf("the journal cannot be read: %v", err)
		}
		return nil // the first start
	}
	defer recording.Close()
	plan, err := recordedPlan(recording)
	if err != nil {
		c.t.Fatal(err)
	}
	r := restore(plan, recording.Records(), recording.Began, func(relay.Event) {})
	if len(r.errs) > 0 {
		c.t.Fatalf("the journal does not fold: %v", r.errs)
	}
	c.records = r.records
	var snapshot struct{ Boards []wire.Board }
	if err := json.Unmarshal(overlay.Snapshot(r.show), &snapshot); err != nil {
		c.t.Fatal(err)
	}
	return snapshot.Boards
}

func (c *crash) compare(got, want []wire.Board) {
	c.t.Helper()
	if len(got) != len(want) {
		c.t.Fatalf("%d boards after the kill, the journal makes %d", len(got), len(want))
	}
	for i, b := range got {
		if have, should := lasting(b), lasting(want[i]); have != should {
			c.t.Errorf("board %d is\n%s\nthe journal makes it\n%s", b.Board, have, should)
		}
		moves := sans(b)
		if shown := c.shown[b.Board]; len(moves) < len(shown) || !slices.Equal(moves[:len(shown)], shown) {
			c.t.Errorf("board %d has %d plies, shown were %d: …%s, then …%s", b.Board, len(moves), len(shown), tail(moves), tail(shown))
		}
		if b.Board == handBoard {
			c.compareEntries(moves)
		}
	}
	if len(c.acknowledged) > 0 && len(got) < handBoard {
		c.t.Errorf("%d boards: the one begun by hand is lost", len(got))
	}
}

// compareEntries: every acknowledged move is there once, and at most the one more
// that was on its way.
func (c *crash) compareEntries(moves []string) {
	want := c.acknowledged
	if len(moves) == len(want)+1 && c.pending != nil && c.pending.Act == "move" {
		want = append(slices.Clip(want), c.pending.SAN)
	}
	if !slices.Equal(moves, want) {
		c.t.Errorf("board %d has %d moves by hand, acknowledged were %d", handBoard, len(moves), len(want))
	}
}

// lasting is what of a board does not depend on the moment.
func lasting(b wire.Board) string {
	text, err := json.Marshal([]any{b.Board, b.White.Name, b.Black.Name, b.Control, b.Plies, b.FEN, b.Result, b.Correction, b.Fault, b.Frozen, b.Round})
	if err != nil {
		panic(err)
	}
	return string(text)
}

func sans(b wire.Board) []string {
	out := make([]string, len(b.Plies))
	for i, ply := range b.Plies {
		out[i] = ply.SAN
	}
	return out
}

func tail(moves []string) string { return strings.Join(moves[max(0, len(moves)-4):], " ") }

// boards counts the feed's boards that pages were shown: before both are there, a board
// begun by hand would have another number.
func (c *crash) boards() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	return min(len(c.shown), handBoard-1)
}

// see notes what a page is shown.
func (c *crash) see(b wire.Board) {
	c.mu.Lock()
	defer c.mu.Unlock()
	kept := c.shown[b.Board][:min(b.Keep, len(c.shown[b.Board]))]
	if b.Base == 0 {
		kept = nil
	}
	c.shown[b.Board] = append(slices.Clip(kept), sans(b)...)
}

// enter sends the next entry and reports whether it was acknowledged. What was not is
// sent again, as it was.
func (c *crash) enter(address string) bool {
	if c.pending == nil {
		c.pending = c.nextEntry()
	} else {
		c.again++
	}
	reply, err := post(address, *c.pending)
	if err != nil {
		return false
	}
	if !reply.Done {
		c.t.Errorf("entry %+v refused: %s", *c.pending, reply.Error)
		return false
	}
	if c.pending.Act == "move" {
		c.acknowledged = append(c.acknowledged, c.pending.SAN)
	}
	c.pending = nil
	return true
}

func (c *crash) nextEntry() *wire.Entry {
	e := &wire.Entry{ID: fmt.Sprintf("entry-%d-%d", len(c.acknowledged), c.random.Uint32()), Board: handBoard, Act: "move", Ply: len(c.acknowledged) + 1}
	e.SAN = there[len(c.acknowledged)%len(there)]
	if len(c.acknowledged) > 0 && c.random.IntN(5) == 0 {
		e.Act, e.Ply, e.SAN, e.Clock = "clock", len(c.acknowledged), "", fmt.Sprintf("0:09:%02d", c.random.IntN(60))
	}
	return e
}
