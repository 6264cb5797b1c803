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
	frame.Names = append(frame.Names, p.here()...)
	for _, name := range p.elsewhere {
		if !slices.Contains(frame.Names, name) {
			frame.Names = append(frame.Names, name)
		}
	}
	return frame, p.peopleRev, true
}

// People returns who sits at the pages of this server, each once.
func (s *Server) People() []string {
	s.pages.mu.Lock()
	defer s.pages.mu.Unlock()
	return s.pages.here()
}

// here returns who sits at the pages, each once; the caller holds the lock.
func (p *pages) here() []string {
	var names []string
	for _, c := range p.inOrder() {
		if c.who != "" && !slices.Contains(names, c.who) {
			names = append(names, c.who)
		}
	}
	return names
}

// PeopleElsewhere tells the pages who sits at those of other servers of the same show.
func (s *Server) PeopleElsewhere(names []string) {
	s.pages.mu.Lock()
	defer s.pages.mu.Unlock()
	if !slices.Equal(s.pages.elsewhere, names) {
		s.pages.elsewhere = names
		s.pages.peopleRev++
	}
}

// inOrder returns the open pages as they arrived; the caller holds the lock.
func (p *pages) inOrder() []*connected {
	return slices.SortedFunc(maps.Keys(p.open), func(a, b *connected) int { return cmp.Compare(a.order, b.order) })
}
