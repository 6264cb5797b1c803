package overlay

import (
	"bytes"
	"cmp"
	"maps"
	"slices"
	"strings"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// Limits of the list of pages, whose length must not grow with a crowd.
const (
	listedFor    = pagesEvery / 2 // it is true enough for so long
	pagesListed  = 100            // pages with a row of their own
	groupsListed = 100            // groups of scenes; more than can be set
)

// listed is the list of pages as it was made last.
type listed struct {
	at      time.Time
	holds   uint64 // revision of the holds in it
	rev     uint64 // grows when it is another one
	message message
}

// list is the frame that lists the pages, and its revision. All who ask within listedFor are told
// the same, encoded once, and nothing new has the old revision: nobody need be sent it again.
func (p *pages) list(holds relay.Holds) (message, uint64) {
	p.listing.Lock()
	defer p.listing.Unlock()
	last := &p.listed
	if now := p.wall(); last.rev == 0 || last.holds != holds.Rev || now.Sub(last.at) >= listedFor {
		last.at, last.holds = now, holds.Rev
		if made := framed(encode(p.frame(holds, now))); !bytes.Equal(made, last.message) {
			last.message = made
			last.rev++
		}
	}
	return last.message, last.rev
}

// row is a page that may be listed.
type row struct {
	page    *connected
	holdMs  *int64
	trouble string
	place   int // the lower, the more it matters
}

// places of pages in the list: what somebody may have to see to comes first, then what the
// producer may look for.
const (
	placeWork  = iota // desk, panel, health
	placeHeld         // a scene that is held back
	placeScene        // another one
	placesMost        // and one that is not in trouble stands so much further down
)

// rowOf says where a page stands in the list. It stays there unless its trouble comes or goes.
func rowOf(c *connected, holds relay.Holds, now time.Time) row {
	r := row{page: c, holdMs: c.held.milli(holds)}
	r.trouble = c.symptoms.trouble(r.holdMs == nil, now)
	switch {
	case !isScene(c.kind):
		r.place = placeWork
	case c.held != held{}:
		r.place = placeHeld
	default:
		r.place = placeScene
	}
	if r.trouble == "" {
		r.place += placesMost
	}
	return r
}

// frame tells of all pages in sums, and of pagesListed one by one: in the order of their places,
// and of equal ones the oldest first, which nobody who comes moves from where it stands.
func (p *pages) frame(holds relay.Holds, now time.Time) wire.Pages {
	p.mu.Lock()
	defer p.mu.Unlock()
	frame := wire.Pages{Type: wire.TypePages, Count: len(p.open), Items: []wire.PageItem{}, Late: p.past.view(now)}
	rows, kinds, groups := make([]row, 0, len(p.open)), map[string]int{}, map[string]int{}
	for c := range p.open {
		r := rowOf(c, holds, now)
		rows = append(rows, r)
		kinds[c.kind]++
		if c.held.group != "" {
			groups[c.held.group]++
		}
		if r.trouble != "" {
			frame.InTrouble++
		}
		frame.Frames += len(c.late)
		frame.LateFrames += lateAmong(c.late)
	}
	slices.SortFunc(rows, func(a, b row) int {
		return cmp.Or(cmp.Compare(a.place, b.place), cmp.Compare(a.page.order, b.page.order))
	})
	for _, r := range rows[:min(len(rows), pagesListed)] {
		frame.Items = append(frame.Items, r.item())
	}
	frame.Kinds = counts(kinds, strings.Compare)
	frame.Groups = counts(groups, func(a, b string) int { return cmp.Or(unsetLast(holds, a, b), strings.Compare(a, b)) })
	frame.MoreGroups = max(0, len(frame.Groups)-groupsListed)
	frame.Groups = frame.Groups[:len(frame.Groups)-frame.MoreGroups]
	return frame
}

// unsetLast compares groups: those whose hold is set come first.
func unsetLast(holds relay.Holds, a, b string) int {
	rank := func(group string) int {
		if _, set := holds.Of(group); set {
			return 0
		}
		return 1
	}
	return cmp.Compare(rank(a), rank(b))
}

// counts lists what was counted, in the order of the names.
func counts(of map[string]int, order func(a, b string) int) []wire.PageCount {
	list := make([]wire.PageCount, 0, len(of))
	for _, name := range slices.SortedFunc(maps.Keys(of), order) {
		list = append(list, wire.PageCount{Name: name, Count: of[name]})
	}
	return list
}

// item is a row on the wire; the caller holds the lock of its page.
func (r row) item() wire.PageItem {
	c := r.page
	return wire.PageItem{
		Page: c.kind, Board: c.board, From: c.from, Since: c.since.UnixMilli(),
		Late: append([]int64{}, c.late...), Superseded: c.superseded,
		Group: c.held.group, HoldMs: r.holdMs, Trouble: r.trouble,
	}
}
