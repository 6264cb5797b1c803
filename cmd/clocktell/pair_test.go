package main

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"syscall"
	"testing"
	"time"
)

// rounds is how many faults TestPair makes: go test ./cmd/clocktell -run TestPair -args -rounds 200
var rounds = flag.Int("rounds", 8, "how many faults TestPair makes")

// takeoverMost is how long nothing may change anywhere after a fault of the process that leads:
// the goal that the project has set itself.
const takeoverMost = 5 * time.Second

// TestPair lets a leader, a standby and an edge serve one show and its feed go on, while
// people enter moves and notes anywhere, and lets one of them or the bus fail again and again.
// Every page holds what it is shown against what all others are: see watch.
func TestPair(t *testing.T) {
	t.Parallel()
	p := newPair(t)
	kinds := pairFaults()
	for n := range *rounds {
		if n%len(kinds) == 0 {
			p.random.Shuffle(len(kinds), func(i, k int) { kinds[i], kinds[k] = kinds[k], kinds[i] })
		}
		p.round(kinds[n%len(kinds)])
		if t.Failed() {
			return
		}
	}
	p.end()
}

// pair is a show of two processes, one of which leads, and an edge.
type pair struct {
	*party
	a, b, e *member
	random  *rand.Rand
	took    []time.Duration
	counts  map[string]int
	away    *member // where the wanderer does not go
}

// pairFault makes one fault and mends it. It ends when the show goes on.
type pairFault struct {
	name string
	make func(p *pair, leader, other *member)
}

func pairFaults() []pairFault {
	return []pairFault{
		{"leader killed", func(p *pair, leader, _ *member) { p.without(leader, leader.kill, leader.again) }},
		{"leader told to end", func(p *pair, leader, _ *member) { p.without(leader, leader.terminate, leader.again) }},
		{"leader cut off", func(p *pair, leader, _ *member) { p.without(leader, leader.proxy.cut, leader.proxy.mend) }},
		{"leader's line stalled", func(p *pair, leader, _ *member) { p.without(leader, leader.proxy.stall, leader.proxy.mend) }},
		{"leader stopped for longer than the lease", func(p *pair, leader, _ *member) {
			p.without(leader, func() { leader.signal(syscall.SIGSTOP) }, func() { leader.signal(syscall.SIGCONT) })
		}},
		{"standby killed", func(p *pair, _, other *member) { p.beside(other) }},
		{"edge killed", func(p *pair, _, _ *member) { p.beside(p.e) }},
		{"bus killed", func(p *pair, _, _ *member) { p.withoutBus() }},
	}
}

func newPair(t *testing.T) *pair {
	p := &pair{party: newParty(t), random: rand.New(rand.NewPCG(11, uint64(*rounds))), counts: make(map[string]int)}
	p.a = p.serve("a", "--pair")
	p.b = p.serve("b", "--pair")
	p.e = p.party.edge("edge")
	p.e.proxy.slow(5 * time.Millisecond)
	p.within(10*time.Second, "both boards of the feed", func() bool { n, _ := p.e.panel.plies(0); return n > 4 })
	p.enter()
	at := 0
	p.wanderer = p.watch.openMoving("wanderer", "health", func() string {
		for at++; p.members[at%3] == p.awayNow(); at++ {
		}
		return p.members[at%3].address
	})
	return p
}

func (p *pair) awayNow() *member {
	p.watch.mu.Lock()
	defer p.watch.mu.Unlock()
	return p.away
}

func (p *pair) setAway(m *member) {
	p.watch.mu.Lock()
	p.away = m
	p.watch.mu.Unlock()
	p.wanderer.leave()
}

// round makes a fault, and checks that everything has come everywhere afterwards.
func (p *pair) round(f pairFault) {
	p.counts[f.name]++
	led, err := p.bus.leader()
	if err != nil {
		p.t.Fatal(err)
	}
	leader := p.leads(led.by)
	if leader == nil || leader == p.e {
		p.t.Fatalf("%q leads", led.by)
	}
	other := p.a
	if leader == p.a {
		other = p.b
	}
	began := time.Now()
	f.make(p, leader, other)
	p.setAway(nil) // at once: who was cut off or has just come must not show it what is old
	p.settle(f.name)
	if testing.Verbose() {
		p.t.Logf("%s (%s): %v", f.name, leader.name, time.Since(began).Round(time.Millisecond))
	}
}

// without lets the leader fail, and mends that when another one leads and has shown something.
func (p *pair) without(leader *member, fail, mend func()) {
	before, err := p.bus.leader()
	if err != nil {
		p.t.Fatal(err)
	}
	p.setAway(leader)
	began := time.Now()
	fail()
	p.within(2*takeoverMost, "another leader", func() bool {
		now, err := p.bus.leader()
		return err == nil && now.seq > before.seq && now.by != "" && now.by != before.by
	})
	p.shows(began, p.feed.plies()+1, leader)
	mend()
}

// shows waits until a page shows a ply that only who leads now can have brought there.
func (p *pair) shows(began time.Time, plies int, but *member) {
	p.t.Helper()
	var at time.Time
	p.within(3*takeoverMost, fmt.Sprintf("ply %d of the feed", plies), func() bool {
		for _, m := range p.members {
			if _, first := m.panel.plies(plies); m != but && !first.IsZero() && (at.IsZero() || first.Before(at)) {
				at = first
			}
		}
		return !at.IsZero()
	})
	took := at.Sub(began)
	p.took = append(p.took, took)
	if took > takeoverMost {
		p.t.Errorf("nothing changed for %v", took)
	}
}

// beside kills a process that does not lead and starts it again: nobody waits for it.
func (p *pair) beside(m *member) {
	p.setAway(m)
	began, plies := time.Now(), p.feed.plies()
	m.kill()
	p.within(takeoverMost, "the show goes on", func() bool { return p.feed.plies() > plies+2 })
	if took := time.Since(began); took > 2*time.Second {
		p.t.Errorf("the feed stood still for %v because of a process that does not lead", took)
	}
	m.again()
}

// withoutBus kills the bus and starts it again after a while.
func (p *pair) withoutBus() {
	p.bus.kill()
	<-time.After(time.Duration(p.random.Int64N(int64(2 * time.Second))))
	p.bus.start()
	p.shows(time.Now(), p.feed.plies()+1, nil)
}
