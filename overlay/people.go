package overlay

import (
	"cmp"
	"maps"
	"slices"

	"clocktell/overlay/wire"
)

// sits takes who says to sit at a page.
func (p *pages) sits(c *connected, name string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if c.who != name {
		c.who = name
		p.peopleRev++
	}
}

// who returns who sits at a page, "" unknown.
func (p *pages) who(c *connected) string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return c.who
}

// people lists who sits at the pages, if that is other than at a revision.
func (p *pages) people(held uint64) (frame wire.People, rev uint64, news bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.peopleRev == held {
		return wire.People{}, held, false
	}
	frame = wire.People{Type: wire.TypePeople, Names: []string{}}
	for _, c := range p.inOrder() {
		if c.who != "" && !slices.Contains(frame.Names, c.who) {
			frame.Names = append(frame.Names, c.who)
		}
	}
	return frame, p.peopleRev, true
}

// inOrder returns the open pages as they arrived; the caller holds the lock.
func (p *pages) inOrder() []*connected {
	return slices.SortedFunc(maps.Keys(p.open), func(a, b *connected) int { return cmp.Compare(a.order, b.order) })
}
