package main

import (
	"fmt"
	"io"
	"math"
	"text/tabwriter"
	"time"
)

// evening is what a plan is for.
type evening struct {
	name             string
	pages            float64
	moves            float64 // a second, over all boards; one of paces
	boards           float64
	board, wall, clk float64 // shares of pages
}

// evenings are those in DEVELOPERS.md. A wall shows wallMost boards.
var evenings = []evening{
	{"20 moves/s, boards and clocks", 100_000, 20, 200, 0.8, 0, 0.2},
	{"20 moves/s, a fifth walls", 100_000, 20, 200, 0.6, 0.2, 0.2},
	{"2 moves/s, boards and clocks", 100_000, 2, 200, 0.8, 0, 0.2},
}

// What an edge is planned with: two cores, of which so much is used; so much memory; a line of
// 1 Gbit/s, of which so much is used. Pages ping every two seconds.
const (
	edgeCores   = 2.0
	useMost     = 0.5 // the rest is for pages that come back, for other work and for peaks
	edgeMemory  = 4e9
	edgePast    = 2 * 64 << 20 // the past of held scenes when it is full (see PROTOCOL.md), which no trial waits for, and as much for the collector
	edgeLine    = 1e9 / 8
	pagesOfEdge = 20_000 // sockets: two files each at most, of the 65,536 that a service is usually given
	pingEvery   = 2 * time.Second
	spare       = 1 // edges that may be lost at the same time
)

// plan is what an evening takes.
type plan struct {
	evening
	CPU, Egress        float64 // of one page: share of a core, bytes a second
	ByCPU, ByMemory    float64 // pages that one edge carries
	ByLine, Pages      float64
	Binds              string
	Edges              int
	LeaderCPU, BusDown float64 // share of a core; bytes a second from the bus to all edges
}

// of returns the units of a kind of page.
func (u *units) of(page string) kindUnits {
	for _, k := range u.Kinds {
		if k.Page == page {
			return k
		}
	}
	return kindUnits{}
}

// byTime returns how many frames of a board, each second, time alone makes at a pace.
func (u *units) byTime(moves float64) float64 {
	for _, t := range u.ByTime {
		if t.Moves == moves {
			return t.Frames
		}
	}
	return 0
}

// plan works out what an evening takes.
func (u *units) plan(e evening) plan {
	p := plan{evening: e}
	perBoard := e.moves / e.boards
	p.CPU, p.Egress = u.Ping.Seconds()/pingEvery.Seconds(), u.Pong/pingEvery.Seconds()
	for _, s := range []struct {
		page  string
		share float64
	}{{"scene/board", e.board}, {"scene/wall", e.wall}, {"scene/clocks", e.clk}} {
		k := u.of(s.page)
		frames := s.share * float64(k.Boards) * (perBoard*k.Frames + u.byTime(e.moves))
		p.CPU += frames * k.CPU.Seconds()
		p.Egress += frames * k.Wire
	}
	fold := u.Idle + e.moves*u.Fold.Seconds()
	p.ByCPU = (edgeCores*useMost - fold) / p.CPU
	p.ByMemory = (edgeMemory*useMost - edgePast - u.Base - e.boards*u.Board) / u.Page
	p.ByLine = edgeLine * useMost / p.Egress
	p.Pages, p.Binds = pagesOfEdge, "sockets"
	for name, n := range map[string]float64{"CPU": p.ByCPU, "memory": p.ByMemory, "line": p.ByLine} {
		if n < p.Pages {
			p.Pages, p.Binds = n, name
		}
	}
	p.Edges = int(math.Ceil(e.pages/p.Pages)) + spare
	n := float64(p.Edges)
	p.LeaderCPU = e.moves * (u.Leader.Seconds() + n*u.PerEdge.Seconds())
	p.BusDown = n * (u.BusIdle + e.moves*(u.BusDown+u.Message*segmentHead))
	return p
}

// printPlans prints what the evenings take.
func (u *units) printPlans(out io.Writer) {
	fmt.Fprintf(out, "\nA plan for edges of %g cores, %.0f GB and 1 Gbit/s, each used to %.0f %%, %d of them to spare:\n", edgeCores, edgeMemory/1e9, 100*useMost, spare)
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "evening\tpages\tCPU/page\tB/s/page\tby CPU\tby memory\tby line\tbinds\tedges\tall, Mbit/s\tleader, % core\tbus, kB/s\t")
	for _, e := range evenings {
		p := u.plan(e)
		fmt.Fprintf(t, "%s\t%.0f\t%v\t%.0f\t%.0f\t%.0f\t%.0f\t%s\t%d\t%.0f\t%.1f\t%.0f\t\n", e.name, e.pages, time.Duration(p.CPU*1e9).Round(100*time.Nanosecond), p.Egress,
			p.ByCPU, p.ByMemory, p.ByLine, p.Binds, p.Edges, p.Egress*e.pages*8/1e6, 100*p.LeaderCPU, p.BusDown/1e3)
	}
	_ = t.Flush()
	fmt.Fprintln(out, "CPU/page: of a core, each second; B/s/page: on the wire, see onWire; by …: pages that one edge carries if that alone is counted")
}
