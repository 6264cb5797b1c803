package overlay

import (
	"reflect"
	"sync"
	"sync/atomic"

	"clocktell/relay"
)

// ledger is what working surfaces are told row by row, each of one thing: they are sent those rows
// that are others than they hold, so that news costs what its thing has to tell and not what the
// hall has. All pages may know the same of it, and things only come, none goes. Changes are counted
// here and not in a show's revisions, for a page may look at a show that is older than what
// another has looked at.
type ledger[Thing comparable, Row, Frame any] struct {
	count  *atomic.Uint64 // of encodings, of the whole server
	rev    func(*relay.Show) uint64
	things func(*relay.Show) []Thing
	row    func(*relay.Show, Thing) Row
	stands func(*relay.Show, Thing, Row) bool // a row of what is the same thing still, but for what it tells of others
	frame  func(show *relay.Show, base uint64, rows []Row) Frame

	mu      sync.Mutex // protects following
	at      uint64     // the revision that the rows are of
	changes uint64     // so often they were of another
	rows    []ledgerRow[Thing, Row]
	newest  ledgerNews // what a page was sent last, for those that hold the same
}

// ledgerRow is of the thing at its place.
type ledgerRow[Thing comparable, Row any] struct {
	thing Thing
	row   Row
	since uint64 // the change that made it so
}

// ledgerHeld is how much of a ledger a page holds. The zero value is nothing of it.
type ledgerHeld struct{ rev, changes uint64 }

// ledgerNews is a frame that brings pages from what they hold to what there is.
type ledgerNews struct {
	from, to ledgerHeld
	message  message
}

// news appends the frame that brings a page from what it holds to a show, if that is something else.
func (l *ledger[Thing, Row, Frame]) news(out []message, held *ledgerHeld, show *relay.Show) []message {
	rev := l.rev(show)
	if held.rev == rev {
		return out
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.newest.from != *held || l.newest.to.rev != rev {
		frame, to := l.since(*held, show)
		l.newest = ledgerNews{from: *held, to: to, message: framed(encode(frame))}
		l.count.Add(1)
	}
	*held = l.newest.to
	return append(out, l.newest.message)
}

// since returns what news encodes, and what a page holds with it.
func (l *ledger[Thing, Row, Frame]) since(held ledgerHeld, show *relay.Show) (Frame, ledgerHeld) {
	if rev := l.rev(show); l.at != rev {
		l.changes++
		l.look(show)
		l.at = rev // should it break off, the next page looks again
	}
	changed := []Row{}
	for _, row := range l.rows {
		if row.since > held.changes {
			changed = append(changed, row.row)
		}
	}
	return l.frame(show, held.rev, changed), ledgerHeld{l.at, l.changes}
}

// look brings the rows up to a show.
func (l *ledger[Thing, Row, Frame]) look(show *relay.Show) {
	things := l.things(show)
	l.rows = l.rows[:min(len(l.rows), len(things))]
	for i, thing := range things {
		if i == len(l.rows) {
			l.rows = append(l.rows, ledgerRow[Thing, Row]{thing, l.row(show, thing), l.changes})
			continue
		}
		held := &l.rows[i]
		if thing == held.thing && l.stands(show, thing, held.row) {
			continue
		}
		held.thing = thing
		if row := l.row(show, thing); !reflect.DeepEqual(row, held.row) {
			held.row, held.since = row, l.changes
		}
	}
}
