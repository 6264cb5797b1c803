package main

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// trialsOf makes up what trials cost if units are such: workOut must find them again.
func trialsOf(u *units, pages float64) map[string]spent {
	made := func(edges, boards, pages, moves float64) spent {
		s := spent{
			moves: moves, pages: pages, pongs: pages / 2,
			edge: u.Idle + moves*u.Fold.Seconds() + pages/2*u.Ping.Seconds(), leader: 0.01 + moves*(u.Leader.Seconds()+edges*u.PerEdge.Seconds()),
			rss: u.Base + boards*u.Board + pages*u.Page, busDown: u.BusIdle + moves*u.BusDown, busMessages: 2 + moves*u.Message,
		}
		return s
	}
	idle := made(fewEdges, unitBoards, 0, 0)
	all := map[string]spent{
		"idle": idle, "moves": made(fewEdges, unitBoards, 0, 20), "moves, many polls": made(fewEdges, unitBoards, 0, 20), "moves, many edges": made(manyEdges, unitBoards, 0, 20),
		"moves, all boards": made(fewEdges, fullBoards, 0, 20), "idle pages": made(1, unitBoards, pages, 0),
	}
	for _, k := range u.Kinds {
		s := made(1, unitBoards, pages, 20)
		s.boards = s.moves * pages * float64(k.Boards) / unitBoards * k.Frames
		s.boardBytes, s.boardWire = k.Frame, k.Wire
		s.edge += s.boards * k.CPU.Seconds()
		all[k.Page] = s
	}
	for _, b := range u.ByTime {
		all[thinks(b.Moves)] = spent{moves: b.Moves, pages: fullBoards, boards: b.Moves*u.of("scene/board").Frames + fullBoards*b.Frames}
	}
	return all
}

// someUnits are made up; they are round so that sums can be made by hand.
var someUnits = units{
	Write: 5 * time.Microsecond, Idle: 0.002, Fold: 500 * time.Microsecond, Ping: 20 * time.Microsecond, Base: 40e6, Board: 20e3, Page: 50e3, Pong: 140,
	ByTime:  []timeUnits{{Moves: 20, Frames: 0.2}, {Moves: 2, Frames: 0.1}},
	BusDown: 500, BusIdle: 600, Message: 0.5, Leader: 1500 * time.Microsecond, PerEdge: 100 * time.Microsecond,
	Kinds: []kindUnits{
		{Page: "scene/board", Boards: 1, CPU: 30 * time.Microsecond, Frame: 1900, Wire: 2000, Frames: 1},
		{Page: "scene/clocks", Boards: 1, CPU: 30 * time.Microsecond, Frame: 1900, Wire: 2000, Frames: 1},
		{Page: "scene/wall", Boards: 12, CPU: 30 * time.Microsecond, Frame: 1900, Wire: 2000, Frames: 1},
	},
}

// TestUnitsAreFoundAgain: what trials cost is told apart into what it was made up of.
func TestUnitsAreFoundAgain(t *testing.T) {
	var got units
	got.workOut(trialsOf(&someUnits, 500))
	near := func(name string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-3*want {
			t.Errorf("%s: %g, want %g", name, got, want)
		}
	}
	want := &someUnits
	near("idle", got.Idle, want.Idle)
	near("fold", got.Fold.Seconds(), want.Fold.Seconds())
	near("ping", got.Ping.Seconds(), want.Ping.Seconds())
	near("base", got.Base, want.Base)
	near("board", got.Board, want.Board)
	near("page", got.Page, want.Page)
	near("page", got.Page, want.Page)
	near("leader", got.Leader.Seconds(), want.Leader.Seconds())
	near("per edge", got.PerEdge.Seconds(), want.PerEdge.Seconds())
	near("bus", got.BusDown, want.BusDown)
	near("messages", got.Message, want.Message)
	for _, b := range want.ByTime {
		near(thinks(b.Moves), got.byTime(b.Moves), b.Frames)
	}
	for _, k := range want.Kinds {
		near(k.Page, got.of(k.Page).CPU.Seconds(), k.CPU.Seconds())
		near(k.Page+" frames", got.of(k.Page).Frames, k.Frames)
	}
}

// TestPlan holds a plan to sums made by hand.
func TestPlan(t *testing.T) {
	p := someUnits.plan(evening{"by hand", 100_000, 20, 200, 0.8, 0, 0.2})
	// Of a page: half a ping a second, 10 µs, a tenth of a frame, 3 µs, and by time two tenths; 70 and 600 bytes.
	// Of an edge: 1 core is used, 0.002 + 20 × 500 µs are the fold's. Of 2 GB twice 64 MiB are the past's.
	for name, pair := range map[string][2]float64{
		"CPU": {p.CPU, 19e-6}, "egress": {p.Egress, 670}, "by CPU": {p.ByCPU, 0.988 / 19e-6}, "by memory": {p.ByMemory, (2e9 - 134_217_728 - 40e6 - 4e6) / 50e3},
		"by line": {p.ByLine, 62.5e6 / 670}, "leader": {p.LeaderCPU, 20 * (1500e-6 + 6*100e-6)}, "bus": {p.BusDown, 6 * (600 + 20*(500+0.5*segmentHead))},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-9*pair[1] {
			t.Errorf("%s: %g, want %g", name, pair[0], pair[1])
		}
	}
	if p.Binds != "sockets" || p.Edges != 6 {
		t.Errorf("%s binds, %d edges; want sockets, 5 and one to spare", p.Binds, p.Edges)
	}
	if walls := someUnits.plan(evening{"walls", 100_000, 400, 20, 0, 1, 0}); walls.Binds != "CPU" || math.Abs(walls.Egress-(70+240*2000)) > 1e-6 {
		t.Errorf("walls: %+v", walls)
	}
	// 12 frames a second, and 2.4 by time: 442 µs and 28,870 bytes, so that one edge carries 2,235
	// pages by its CPU and 2,164 by its line.
	if walls := someUnits.plan(evening{"walls", 100_000, 20, 20, 0, 1, 0}); walls.Binds != "line" || walls.Edges != 48 {
		t.Errorf("slower walls: %+v", walls)
	}
}

// TestPlanOfFile: units that were printed give a plan.
func TestPlanOfFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "units.json")
	if err := os.WriteFile(file, []byte(`{"Write":5000,"Ping":20000,"Page":50000,"Pong":140,"Kinds":[{"Page":"scene/board","Boards":1,"CPU":30000,"Wire":2000,"Frames":1}]}`), 0o600); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if code := run(t.Context(), []string{"--plan", file}, &out, &out); code != exitFine || !strings.Contains(out.String(), "4.0 w") || strings.Count(out.String(), "100000") != len(evenings) {
		t.Errorf("%d\n%s", code, out.String())
	}
	if code := run(t.Context(), []string{"--plan", file + "no"}, &out, &out); code != exitFailed {
		t.Errorf("no file: %d", code)
	}
}

// TestRace: a revision counts when it has come to both, from when it came first to each.
func TestRace(t *testing.T) {
	var r race
	r.see(1, 1, false, start)
	r.see(1, 1, true, start.Add(3*time.Millisecond))
	r.see(1, 1, true, start.Add(9*time.Millisecond))
	r.see(1, 2, true, start)
	r.see(2, 1, true, start)
	r.see(2, 1, false, start.Add(time.Millisecond))
	if r.within(0) != -time.Millisecond || r.within(99) != 3*time.Millisecond || len(r.later) != 2 {
		t.Errorf("%v", r.later)
	}
	if new(race).within(50) != 0 {
		t.Error("nothing was later")
	}
}

// TestBareWrite: the yardstick takes some time, and not too much.
func TestBareWrite(t *testing.T) {
	if each, err := bareWrite(); err != nil || each <= 0 || each > time.Millisecond {
		t.Errorf("%v, %v", each, err)
	}
}
