package main

import (
	"strings"
	"testing"
	"time"
)

// TestLoneLeader: a show that is shared, but that no other process could lead, does not stop
// for the bus. Whoever follows it says that it stands still, and has everything afterwards;
// also what happened when the process was killed before the bus was back.
func TestLoneLeader(t *testing.T) {
	t.Parallel()
	p := newParty(t)
	a, edge := p.serve("a"), p.edge("edge")
	p.within(10*time.Second, "both boards of the feed", func() bool { n, _ := edge.panel.plies(0); return n > 4 })
	p.enter()
	p.bus.kill()
	p.goesOnAlone(a, edge, "does not answer")
	p.bus.start()
	p.within(2*takeoverMost, "all is well again", func() bool { return !a.alarmed("bus") && !edge.alarmed("bus") })
	p.settle("the bus was away")
	p.same()

	p.bus.kill()
	p.goesOnAlone(a, edge, "does not answer")
	p.entering.end() // what is acknowledged now is in the journal alone
	shown, _ := a.panel.plies(0)
	a.kill()
	p.bus.start()
	a.again()
	p.within(2*takeoverMost, "the edge begins anew", func() bool { n, _ := edge.panel.plies(0); return edge.ran() == 2 && n >= shown })
	p.feed.hold()
	p.settle("the process was killed while the bus was away")
	p.entering.exact(t, edge)
	moves, notes := p.entering.acknowledged()
	t.Logf("%d entries acknowledged, %d attempts sent again; none lost, none doubled", len(moves)+notes, p.entering.again)
}

// goesOnAlone: the process that leads shows what comes, and says what is wrong; the other
// says that it stands still.
func (p *party) goesOnAlone(leader, follower *member, says string) {
	p.t.Helper()
	moves, notes := p.entering.acknowledged()
	p.within(2*takeoverMost, "both tell what is wrong", func() bool { return leader.alarmed("goes on by itself") && follower.alarmed(says) })
	stood, _ := follower.panel.plies(0)
	plies := p.feed.plies() + 6
	p.within(2*takeoverMost, "the show goes on", func() bool { n, _ := leader.panel.plies(0); return n >= plies })
	p.within(2*takeoverMost, "entries are acknowledged", func() bool {
		m, n := p.entering.acknowledged()
		return len(m) > len(moves)+2 && n > notes+2
	})
	if n, _ := follower.panel.plies(0); n != stood {
		p.t.Errorf("%s shows %d plies, it stood still at %d", follower.name, n, stood)
	}
	p.watch.check()
}

// alarmed reports that the health page tells of a fault in these words.
func (m *member) alarmed(words string) (yes bool) {
	m.health.sees(func() { yes = !m.health.feeds.Fine && strings.Contains(m.health.feeds.Verdict, words) })
	return yes
}

// verdict returns what the health page says.
func (m *member) verdict() (text string) {
	m.health.sees(func() { text = m.health.feeds.Verdict })
	return text
}

// ran returns how many shows the panel has been shown.
func (m *member) ran() (n int) {
	m.panel.sees(func() { n = m.panel.ran })
	return n
}
