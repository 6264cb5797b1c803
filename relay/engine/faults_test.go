package engine

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"clocktell/relay/engine/enginetest"
)

// ample are limits for an engine that answers, on a machine that is busy.
var ample = limits{
	start: 20 * time.Second, ready: 20 * time.Second, overrun: 20 * time.Second, stop: 20 * time.Second, end: 300 * time.Millisecond,
	again: 10 * time.Millisecond, most: 50 * time.Millisecond, sound: time.Minute,
}

// faultRow is what comes of a fault of the engine.
type faultRow struct {
	fault  string
	lives  int    // processes that have it; the next is in order. 0: all have it
	reason Reason // that the state names; "" none: it is no fault
	limits func(*limits)
}

const brief = 500 * time.Millisecond

var faultRows = []faultRow{
	{"never uciok", 1, FaultSilent, func(l *limits) { l.start = brief }},
	{"never readyok", 1, FaultSilent, func(l *limits) { l.ready = brief }},
	{"never bestmove", 1, FaultHang, func(l *limits) { l.overrun, l.stop = 0, brief }},
	{"two bestmoves", 0, FaultStray, nil},
	{"bestmove before go", 0, FaultStray, nil},
	{"half lines", 0, FaultRubbish, nil},
	{"no newline at the end", 1, FaultExit, nil},
	{"wrong bestmove", 0, FaultIllegal, nil},
	{"wrong first move", 0, FaultIllegal, nil},
	{"illegal further on", 0, FaultIllegal, nil},
	{"no lines", 1, FaultUseless, nil},
	{"nothing but moves", 1, FaultUseless, nil},
	{"NaN", 0, FaultRubbish, nil},
	{"10 MB line", 0, FaultLong, nil},
	{"10 MB without end", 0, FaultLong, nil},
	{"dies after 2 searches", 1, FaultExit, nil},
	{"dies at start", 2, FaultExit, nil},
	{"dies while it waits", 1, FaultExit, nil},
	{"ignores stop", 1, FaultHang, func(l *limits) { l.overrun, l.stop = 0, brief }},
	{"closes its output", 1, FaultClosed, nil},
	{"closes its input", 1, FaultClosed, nil},
	{"floods", 1, FaultFlood, nil},
	{"floods without newline", 1, FaultFlood, nil},
	{"floods before uciok", 1, FaultFlood, nil},
	{"garbage", 0, FaultRubbish, nil},
	{"only garbage", 1, FaultUseless, nil},
	{"wrong multipv", 0, FaultRubbish, nil},
	{"huge numbers", 0, FaultRubbish, nil},
	{"negative depth", 0, FaultRubbish, nil},
	{"exits with a code", 1, FaultExit, nil},
	{"slow to greet", 0, "", nil},
	{"chatters on stderr", 0, "", nil},
	{"leaves a child behind", 0, "", nil},
	{"deaf at the end", 0, "", nil},
	{"unasked", 0, "", nil},
}

// TestFaults: whatever an engine does, its fault is named, every position is answered in
// the end, by another process where it takes one, and no process is left.
func TestFaults(t *testing.T) {
	for _, row := range faultRows {
		if _, ok := enginetest.Faults[row.fault]; !ok {
			t.Errorf("the engine has no fault %q", row.fault)
		}
	}
	if len(faultRows) != len(enginetest.Faults) {
		t.Errorf("%d rows for %d faults", len(faultRows), len(enginetest.Faults))
	}
	for _, row := range faultRows {
		t.Run(strings.ReplaceAll(row.fault, " ", "-"), func(t *testing.T) {
			t.Parallel()
			row.run(t)
		})
	}
}

func (row faultRow) run(t *testing.T) {
	folder := t.TempDir()
	o := program(t, row.fault, folder, row.lives)
	o.limits = ample
	if row.limits != nil {
		row.limits(&o.limits)
	}
	k := run(t, o)
	var wishes []Wish
	for board, moves := range [][]string{{}, {"e2e4"}, {"e2e4", "e7e5"}, {"d2d4"}} {
		wishes = append(wishes, wishFor(board+1, Newest, after(t, moves...), 20*time.Millisecond))
	}
	k.Want(wishes)
	open := map[int]bool{1: true, 2: true, 3: true, 4: true}
	for range wishes {
		open = k.nextFinal(open)
	}
	state := k.State()
	if row.reason != "" && state.Faults[row.reason] == 0 || row.reason == "" && len(state.Faults) > 0 {
		t.Errorf("faults %v, want %q", state.Faults, row.reason)
	}
	if row.lives > 0 != (state.Restarts > 0) {
		t.Errorf("started again %d times; %d processes have the fault", state.Restarts, row.lives)
	}
	if row.reason != "" && state.Reason == "" || state.Since.IsZero() || state.Fault != "" {
		t.Errorf("the state does not tell of the fault, or that the engine works: %+v", state)
	}
	k.stop()
	row.nothingLeft(t, folder)
}

// nextFinal waits for the outcome for one of the boards, and returns the others.
func (k *kennel) nextFinal(open map[int]bool) map[int]bool {
	k.t.Helper()
	limit := time.After(time.Minute)
	for {
		select {
		case a := <-k.answers:
			if a.Opinion.Final && open[a.Wish.Board] {
				k.usable(a)
				delete(open, a.Wish.Board)
				return open
			}
		case <-limit:
			k.t.Fatalf("waited in vain for boards %v; the engine: %+v", open, k.State())
		}
	}
}

// usable holds an answer to what must be true of all.
func (k *kennel) usable(a Answer) {
	k.t.Helper()
	line := a.Wish.Line()
	start := line.End()
	for _, l := range a.Opinion.Lines {
		p := start
		for _, m := range l.Moves {
			if !p.IsLegal(m) {
				k.t.Errorf("line %v: %v cannot be played", l.Moves, m)
			}
			p.Make(m)
		}
		if len(l.Moves) == 0 || l.Depth < 1 || l.Depth > depthMost {
			k.t.Errorf("line %+v", l)
		}
	}
	if len(a.Opinion.Lines) == 0 || a.Place != start.Hash() {
		k.t.Errorf("answer %+v", a)
	}
}

// nothingLeft checks that all processes of the engine are gone.
func (row faultRow) nothingLeft(t *testing.T, folder string) {
	t.Helper()
	notes, err := filepath.Glob(filepath.Join(folder, "*-*"))
	if err != nil || len(notes) < 1+row.lives {
		t.Errorf("%d notes of processes, want %d at least (%v)", len(notes), 1+row.lives, err)
	}
	if child, _ := filepath.Glob(filepath.Join(folder, "child-*")); (len(child) > 0) != (row.fault == "leaves a child behind") {
		t.Errorf("children: %v", child)
	}
	for _, note := range notes {
		_, number, _ := strings.Cut(filepath.Base(note), "-")
		pid, err := strconv.Atoi(number)
		if err != nil {
			t.Fatal(err)
		}
		if !gone(pid) {
			t.Errorf("process %d is left: %s", pid, filepath.Base(note))
		}
	}
}

// gone waits a little for the end of a process: one that is killed by its group takes a
// moment to go.
func gone(pid int) bool {
	ticker := time.NewTicker(10 * time.Millisecond)
	defer ticker.Stop()
	for range 500 {
		if !isThere(pid) {
			return true
		}
		<-ticker.C
	}
	return false
}

// isThere reports whether a process goes on. One that has ended may still wait for its
// parent, which for a child left behind is the system, to take note.
func isThere(pid int) bool {
	if syscall.Kill(pid, 0) != nil {
		return false
	}
	stat, err := os.ReadFile(filepath.Join("/proc", strconv.Itoa(pid), "stat"))
	_, after, _ := strings.Cut(string(stat), ") ")
	return err != nil || !strings.HasPrefix(after, "Z")
}
