package main

import (
	"errors"
	"time"
)

// spent is what one trial cost after its warm-up: each second, and of edges in the middle of them.
type spent struct {
	moves, pongs, boards  float64 // each second, all pages together
	boardBytes, boardWire float64 // of one frame
	edge, leader          float64 // shares of a core
	rss                   float64 // bytes, of an edge
	busDown, busMessages  float64 // bytes and messages a second, of an edge
	pages                 float64
	packet                string // to page
	atLeader, atEdge      string
	later                 [2]time.Duration // 50 and 99 of 100
}

var errShort = errors.New("it was too short to measure anything; see --for")

func (c *crowd) spent() (spent, error) {
	from, last, ok := c.warm()
	if !ok {
		return spent{}, errShort
	}
	took := last.at.Sub(from.at).Seconds()
	a, b := from.done, last.done
	s := spent{
		moves: float64(b.moves-a.moves) / took, pongs: float64(b.pongs-a.pongs) / took, boards: float64(b.boards-a.boards) / took,
		leader: share(from, last), pages: float64(c.options.pages),
		packet: spread(&c.tally.all.packet), atLeader: spread(&c.tally.all.atRelay), atEdge: spread(&c.tally.all.atEdge),
		later: [2]time.Duration{c.tally.race.within(50), c.tally.race.within(99)},
	}
	if n := float64(b.boards - a.boards); n > 0 {
		s.boardBytes, s.boardWire = float64(b.boardBytes-a.boardBytes)/n, float64(b.boardWire-a.boardWire)/n
	}
	n := float64(len(last.edges))
	for i := range last.edges {
		x, y := from.edges[i], last.edges[i]
		s.edge += (y.cpu - x.cpu).Seconds() / took / n
		s.busDown += float64(y.busDown-x.busDown) / took / n
		s.busMessages += float64(y.busMessages-x.busMessages) / took / n
	}
	s.rss = c.meanRSS()
	return s, nil
}

// meanRSS is what an edge held in the middle of the time after the warm-up.
func (c *crowd) meanRSS() float64 {
	sum, n := 0.0, 0.0
	for _, s := range c.samples[c.warmAt():] {
		for _, e := range s.edges {
			sum, n = sum+e.rss, n+1
		}
	}
	return sum / max(1, n)
}

// workOut takes units from what trials cost, by differences: each trial has one thing more than
// another.
func (u *units) workOut(got map[string]spent) {
	idle, moves, full, pages := got["idle"], got["moves"], got["moves, all boards"], got["idle pages"]
	u.Idle, u.BusIdle = idle.edge, idle.busDown
	u.Fold = each(full.edge-idle.edge, full.moves)
	u.Board = (full.rss - moves.rss) / (fullBoards - unitBoards)
	u.Base = moves.rss - unitBoards*u.Board
	u.Ping = each(pages.edge-idle.edge, pages.pongs)
	// Of memory what counts is that of an edge at work: at the start there is some to spare.
	polls := got["moves, many polls"]
	u.Page = (got["scene/board"].rss - polls.rss) / pages.pages
	u.BusDown, u.Message = (full.busDown-idle.busDown)/full.moves, max(0, full.busMessages-idle.busMessages)/full.moves
	many := got["moves, many edges"]
	u.PerEdge = each((many.leader-moves.leader)/(manyEdges-fewEdges), moves.moves)
	u.Leader = each(moves.leader-idle.leader, moves.moves) - fewEdges*u.PerEdge
	u.Pong = float64(onWire(len(`{"type":"pong","t":81234.5,"now":1792238811500}`)))
	for _, page := range []string{"scene/board", "scene/clocks", "scene/wall"} {
		s := got[page]
		boards := float64(len(wantOf(page, 0, unitBoards).boards))
		u.Kinds = append(u.Kinds, kindUnits{
			Page: page, Boards: int(boards), Frame: s.boardBytes, Wire: s.boardWire,
			CPU:    each(s.edge-polls.edge-u.Ping.Seconds()*s.pongs, s.boards),
			Frames: s.boards / (s.moves * s.pages * boards / unitBoards),
		})
	}
	for _, pace := range paces {
		s := got[thinks(pace)]
		moved := s.moves / fullBoards * u.of("scene/board").Frames
		u.ByTime = append(u.ByTime, timeUnits{Moves: pace, Frames: max(0, s.boards/s.pages-moved)})
	}
	side := got["side by side"]
	u.Alone, u.AtLeader, u.AtEdge = got["alone"].packet, side.atLeader, side.atEdge
	u.Later = side.later[0].Round(10*time.Microsecond).String() + " / " + side.later[1].Round(10*time.Microsecond).String()
}

// each is a share of a core spread over so many things a second.
func each(share, perSecond float64) time.Duration {
	if perSecond == 0 {
		return 0
	}
	return time.Duration(share / perSecond * float64(time.Second))
}
