package main

import (
	"context"
	"fmt"
	"io"
	"time"
)

// units are what one page, one move and one edge cost, as measured on one machine. CPU is time
// of one core of it.
type units struct {
	Write   time.Duration // CPU of writing 1 kB to a bare TCP socket of the same machine: the measure of it
	Idle    float64       // share of a core that an edge takes when nothing happens
	Fold    time.Duration // CPU of a move at an edge without pages
	Ping    time.Duration // CPU of a ping with its pong
	Base    float64       // bytes of an edge without boards and pages
	Board   float64       // bytes of an edge for each board
	Page    float64       // bytes of an edge for each page
	Pong    float64       // bytes of one on the wire
	Kinds   []kindUnits
	ByTime  []timeUnits   // at each pace
	BusDown float64       // bytes for each move from the bus to an edge
	BusIdle float64       // bytes a second, when nothing happens
	Message float64       // messages for each move
	Leader  time.Duration // CPU of a move at the leader, its bus included, without edges
	PerEdge time.Duration // and for each edge besides

	Alone, AtLeader, AtEdge string // packet to page 50/99/all
	Later                   string // pages of an edge after those of the leader, the same revision
}

// kindUnits are those of one kind of page.
type kindUnits struct {
	Page                string
	Boards              int           // that it is sent
	CPU                 time.Duration // of a board frame sent
	Frame, Wire, Frames float64       // bytes of a board frame; on the wire; frames for each move at a board of the page
}

// timeUnits are what time alone tells of a board on which somebody thinks: that depends on for how long.
type timeUnits struct {
	Moves  float64 // a second, over fullBoards
	Frames float64 // of a board, each second
}

// What units are measured with.
const (
	unitBoards = 12 // so few that a page gets many frames
	fullBoards = 200
	unitFeeds  = 12
	unitMoves  = 20
	fewEdges   = 2
	manyEdges  = 8
	unitWarmUp = 10 * time.Second
	timeTrials = 4                      // times as long are those in which somebody thinks
	unitPoll   = 200 * time.Millisecond // so often that each move at a board comes by itself, as it does where there are many boards
)

// trial is one run of a crowd, and what it is read for.
type trial struct {
	name                 string
	edges, boards, pages int
	moves                float64
	kind                 string
	relayToo, direct     bool
	every                time.Duration // of polls; 0: as usual
	times                int           // so many times as long; 0: once
}

// paces are moves a second over fullBoards at which it is measured what time alone tells.
var paces = []float64{20, 2}

// thinks names the trial of a pace.
func thinks(moves float64) string { return fmt.Sprintf("thinks, %g moves/s", moves) }

// measureUnits runs one trial after the other.
func measureUnits(ctx context.Context, o options, out, stderr io.Writer) (*units, error) {
	u := &units{}
	var err error
	if u.Write, err = bareWrite(); err != nil {
		return nil, err
	}
	got := make(map[string]spent)
	for _, t := range trials(o.pages) {
		c := newCrowd(t.options(o), io.Discard)
		if err := c.run(ctx, stderr); err != nil {
			return nil, fmt.Errorf("%s: %w", t.name, err)
		}
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		s, err := c.spent()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", t.name, err)
		}
		fmt.Fprintf(out, "  measured: %s, %d breaches\n", t.name, c.tally.wrong())
		got[t.name] = s
	}
	u.workOut(got)
	return u, nil
}

// unitPrepared is how many plies each game has at the start: boards are not empty.
const unitPrepared = 40

// trials lists what is run.
func trials(pages int) []trial {
	few := trial{edges: fewEdges, boards: unitBoards, moves: unitMoves}
	with := func(name string, change func(*trial)) trial {
		t := few
		t.name = name
		change(&t)
		return t
	}
	kind := func(page string) trial {
		return with(page, func(t *trial) { t.edges, t.pages, t.kind, t.every = 1, pages, page, unitPoll })
	}
	all := []trial{
		with("alone", func(t *trial) { t.edges, t.pages, t.kind = 0, 100, "scene/board" }),
		with("idle", func(t *trial) { t.moves = 0 }),
		with("moves", func(*trial) {}),
		with("moves, many edges", func(t *trial) { t.edges = manyEdges }),
		with("moves, all boards", func(t *trial) { t.boards = fullBoards }),
		with("moves, many polls", func(t *trial) { t.every = unitPoll }),
		with("idle pages", func(t *trial) { t.edges, t.pages, t.kind, t.moves = 1, pages, "scene/board", 0 }),
		kind("scene/board"), kind("scene/wall"), kind("scene/clocks"),
		with("side by side", func(t *trial) {
			t.edges, t.pages, t.kind, t.relayToo, t.direct = 1, 200, "scene/board", true, true
		}),
	}
	for _, pace := range paces {
		all = append(all, with(thinks(pace), func(t *trial) {
			t.edges, t.boards, t.pages, t.kind, t.moves, t.times = 0, fullBoards, 200, "scene/board", pace, timeTrials
		}))
	}
	return all
}

func (t trial) options(o options) options {
	o.edges, o.boards, o.feeds, o.pages, o.perSecond, o.relayToo, o.direct = t.edges, t.boards, unitFeeds, t.pages, t.moves, t.relayToo, t.direct
	o.percent, o.held, o.prepared, o.warmUp, o.killEvery = [tempers]float64{}, 0, unitPrepared, unitWarmUp, 0
	o.mix = mix{{page: "scene/board", share: 1}}
	if t.kind != "" {
		o.mix[0].page = t.kind
	}
	o.settle = 2 * time.Second
	if t.every > 0 {
		o.every = t.every
	}
	o.length = o.length*time.Duration(max(1, t.times)) + unitWarmUp
	return o
}
