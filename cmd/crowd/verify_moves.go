package main

import (
	"strconv"
	"time"

	"clocktell/overlay/wire"
)

// forget begins anew, as a page does that comes back: boards and states come whole again. But
// it knows what it has seen, and wherever it comes, nothing may be older.
func (v *verifier) forget() {
	if v.before == nil {
		v.before = make(map[string]uint64)
	}
	for number, b := range v.boards {
		what := boardName(number)
		v.before[what] = max(v.before[what], b.rev)
	}
	for what, rev := range v.revs {
		v.before[what] = max(v.before[what], rev)
	}
	v.open, v.clock = false, showTime{}
	v.boards, v.revs = make(map[int]*heldBoard), make(map[string]uint64)
}

func boardName(number int) string { return "board " + strconv.Itoa(number) }

// takeWelcome holds the show to that which the page was sent before: no relay that the crowd
// visits begins its show anew.
func (v *verifier) takeWelcome(f *wire.Welcome) {
	v.open = true
	if f.Version != wire.Version {
		v.breach(breachShape, "version %d, this is for %d", f.Version, wire.Version)
	}
	if v.run != "" && f.Run != v.run {
		v.breach(breachLost, "the show is that of run %s, after run %s", f.Run, v.run)
		v.line, v.seen = 0, 0
		clear(v.before)
	}
	v.run = f.Run
}

// notBefore holds a revision to what the page held before it came back.
func (v *verifier) notBefore(what string, rev uint64) {
	if before := v.before[what]; rev < before {
		v.breach(breachOrder, "%s: revision %d at another place, after %d", what, rev, before)
	}
	delete(v.before, what) // from here on it rises by itself
}

// path is the address of the page's socket: it says what the page has.
func (v *verifier) path() string { return v.want.path(v.run, v.line, v.seen) }

// edgeBehindMost is by how much an edge's clock may be behind that of the relay. It goes by what
// it hears, twice a second, and so is behind by the time that the fastest of the last ten seconds
// took; of an edge that has just come that is a single one, which the bus may take this long to
// store (bus.Options.AckWait). How far it was is printed.
const edgeBehindMost = 1500 * time.Millisecond

// ahead reports whether a receipt is further ahead of the page's time than it may be: at a relay
// not at all. Moves to pages that are held back are held to the arena's time anyway.
func (v *verifier) ahead(by time.Duration) bool {
	if v.edge && by > 0 && v.behind != nil {
		v.behind.add(by)
	}
	return by > 0 && (!v.edge || by > edgeBehindMost)
}
