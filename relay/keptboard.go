package relay

import (
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/tell"
)

// keptBoard is a board as it is kept for scenes that are held back. While somebody thinks time
// alone makes most of the revisions, and changes little: then only that is kept.
type keptBoard struct {
	whole  *Board
	passed *passed // since whole; nil: nothing
}

// passed is what time alone has changed, see Advance.
type passed struct {
	rev    uint64
	since  time.Time
	side   clock.Side // on move
	call   tell.Call
	level  tell.Trouble
	ahead  Ahead
	alerts []Alert
}

// keep returns the board as it is kept behind was, which was kept as keeps.
func (b *Board) keep(was *Board, keeps *keptBoard) *keptBoard {
	if !b.ticked || b.Rev != was.Rev+1 {
		return &keptBoard{whole: b.aired(was, keeps.whole)}
	}
	side := b.Turn()
	return &keptBoard{whole: keeps.whole, passed: &passed{
		rev: b.Rev, since: b.Since, side: side, call: b.Calls[side], level: b.Levels[side], ahead: b.Ahead[side], alerts: b.Alerts,
	}}
}

// board returns it as scenes were sent it.
func (k *keptBoard) board() *Board {
	p := k.passed
	if p == nil {
		return k.whole
	}
	next := *k.whole
	next.Rev, next.Since, next.News, next.Keep = p.rev, p.since, false, len(next.Plies)
	next.Calls[p.side], next.Levels[p.side], next.Ahead[p.side], next.Alerts = p.call, p.level, p.ahead, p.alerts
	return &next
}
