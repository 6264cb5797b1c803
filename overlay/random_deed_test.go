package overlay

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// deed is one thing that happens in a world: an answer of a feed, a fault, silence or an
// entry. A world can be made again of some of its deeds.
type deed struct {
	feed  string
	games []randomGame
	cut   int // where the text breaks off, whole: nowhere
	fault string
	wait  time.Duration
	entry relay.ByHand
}

const whole = -1

// looker says what is wrong with a board, "" nothing.
type looker func(w *world, before *relay.Show, b *relay.Board) string

// told returns the games as they are now.
func (w *world) told() []randomGame {
	games := slices.Clone(w.games[:])
	for i := range games {
		g := &games[i]
		g.moves, g.clocks = slices.Clone(g.moves), slices.Clone(g.clocks[:min(len(g.clocks), len(g.moves))])
	}
	return games
}

func (d deed) packet() string {
	var games []relaytest.Game
	for _, g := range d.games {
		games = append(games, relaytest.Game{
			White: g.white, Table: g.table, Control: "600+5", Moves: strings.Join(g.moves, " "), Clocks: g.clocks, Result: g.result,
		})
	}
	text := relaytest.Packet(games...)
	if d.cut == whole {
		return text
	}
	return text[:min(d.cut, len(text))]
}

// does lets a deed happen, and returns why it was refused.
func (w *world) does(d deed) string {
	w.done = append(w.done, d)
	switch {
	case d.feed != "":
		w.stage.TakeFrom(d.feed, d.packet())
	case d.fault != "":
		w.stage.Fail(d.fault)
	case d.entry.Act != "":
		return w.take(d.entry)
	default:
		w.stage.Wait(d.wait)
	}
	return ""
}

// happens makes a world of deeds, up to the first that something is wrong after.
func happens(deeds []deed, busy bool, look looker) (n int, problem string) {
	w := newWorld(0, busy)
	for i, d := range deeds {
		before := w.stage.Show
		w.does(d)
		if problem := w.looked(before, look); problem != "" {
			return i + 1, problem
		}
	}
	return len(deeds), ""
}

// shrunk returns the fewest deeds found after which something is wrong: it leaves out
// ever shorter stretches, and then what the packets need not say.
func shrunk(deeds []deed, busy bool, look looker) []deed {
	try := func(fewer []deed) bool {
		n, problem := happens(fewer, busy, look)
		if problem != "" {
			deeds = fewer[:n]
		}
		return problem != ""
	}
	for size := len(deeds) / 2; size > 0; {
		left := len(deeds)
		for at := 0; at+size <= len(deeds); {
			if !try(slices.Delete(slices.Clone(deeds), at, at+size)) {
				at += size
			}
		}
		if left == len(deeds) {
			size /= 2
		}
	}
	for i := range deeds {
		for _, less := range lesser(deeds[i]) {
			if i < len(deeds) {
				fewer := slices.Clone(deeds)
				fewer[i] = less(fewer[i])
				try(fewer)
			}
		}
	}
	return deeds
}

// lesser returns ways to say less in a packet.
func lesser(d deed) (out []func(deed) deed) {
	for _, less := range []func(g *randomGame){
		func(g *randomGame) { g.white = "White0, W" },
		func(g *randomGame) { g.clocks = nil },
		func(g *randomGame) { g.result = "*" },
	} {
		out = append(out, func(d deed) deed {
			d.games = slices.Clone(d.games)
			for i := range d.games {
				less(&d.games[i])
			}
			return d
		})
	}
	for i := len(d.games) - 1; i >= 0; i-- {
		out = append(out, func(d deed) deed {
			if i < len(d.games) && len(d.games) > 1 {
				d.games = slices.Delete(slices.Clone(d.games), i, i+1)
			}
			return d
		})
	}
	return out
}

func storyOf(deeds []deed) string {
	var out strings.Builder
	for _, d := range deeds {
		switch e := d.entry; {
		case d.feed != "":
			fmt.Fprintf(&out, "%s tells %+v", d.feed, d.games)
			if d.cut != whole {
				fmt.Fprintf(&out, ", up to %q", d.packet()[max(0, len(d.packet())-20):])
			}
			out.WriteString("\n")
		case d.fault != "":
			fmt.Fprintln(&out, "fault", d.fault)
		case e.Act != "":
			fmt.Fprintf(&out, "by hand, board %d: %s %d %s%s%s%s%s %v\n", e.Board, e.Act, e.Ply, e.SAN, e.Side, e.Text, e.Feed, e.Keep, e.Left)
		default:
			fmt.Fprintln(&out, "silence of", d.wait)
		}
	}
	return out.String()
}
