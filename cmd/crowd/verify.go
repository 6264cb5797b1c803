package main

import (
	"slices"
	"strconv"
	"time"

	"clocktell/overlay/wire"
)

// heldBoard is a board as a page holds it.
type heldBoard struct {
	rev          uint64
	table, round int
	sans         []string
	result       string
}

// truth is what has been played.
type truth interface {
	plyAt(table, round, index int) (ply, bool)
	stands(table int) (round, plies int, result string)
}

// verifier holds the frames of one page to the protocol and to the truth. Its methods are
// called in the order of the frames.
type verifier struct {
	truth  truth
	want   want
	breach func(b breach, format string, args ...any)

	edge   bool       // it is at an edge
	behind *histogram // by how much edges' clocks were behind; nil: it is not counted

	open   bool // the welcome has come
	clock  showTime
	boards map[int]*heldBoard
	revs   map[string]uint64

	// What stays when the page comes back, to the same relay or to another one.
	run    string            // of the show; "": none yet
	line   uint64            // of the log, the last; 0: none yet
	seen   int64             // when the newest of its boards came, show time
	before map[string]uint64 // revisions that it held, by what they are of
}

// news is what a frame has brought.
type news struct {
	again  int       // board that must be asked for; 0: none
	at     int64     // when the relay received the packet, show time; 0: no packet, or the page has just come
	played time.Time // the newest move that it shows, if the page did not have it; zero: none
}

// take verifies a frame that had come whole at that time.
func (v *verifier) take(f *frame, now time.Time) news {
	if v.open != (f.kind != wire.TypeWelcome) {
		v.breach(breachOrder, "%s before or after the welcome", f.kind)
	}
	if !v.want.takes(f.kind) && !(v.edge && f.kind == wire.TypeTime) {
		v.breach(breachUnasked, "a frame %s", f.kind)
	}
	switch f.kind {
	case wire.TypeWelcome:
		v.takeWelcome(&f.welcome)
	case wire.TypeBoard:
		return v.takeBoard(f.board, now)
	case wire.TypeLog:
		v.takeLines(f.lines)
	}
	if revved[f.kind] {
		v.rises(f.kind, v.revs[f.kind], f.rev)
		if based[f.kind] && f.base != v.revs[f.kind] {
			v.breach(breachLost, "%s: what follows on revision %d, where %d is held", f.kind, f.base, v.revs[f.kind])
		}
		if f.kind != wire.TypeFeeds { // which tells of the process as well
			v.notBefore(f.kind, f.rev)
		}
		v.revs[f.kind] = f.rev
	}
	return news{}
}

// rises holds a revision to the one before it.
func (v *verifier) rises(what string, was, is uint64) {
	switch {
	case is == was && was != 0:
		v.breach(breachDoubled, "%s: revision %d came twice", what, is)
	case is < was:
		v.breach(breachOrder, "%s: revision %d after %d", what, is, was)
	}
}

func (v *verifier) takeLines(lines []uint64) {
	for _, seq := range lines {
		switch {
		case v.line == 0 || seq == v.line+1:
		case seq <= v.line:
			v.breach(breachDoubled, "log: line %d after line %d", seq, v.line)
			continue
		default:
			v.breach(breachLost, "log: line %d after line %d", seq, v.line)
		}
		v.line = seq
	}
}

func (v *verifier) takeBoard(f *boardFrame, now time.Time) news {
	what := boardName(f.Board)
	if !v.want.has(f.Board) {
		v.breach(breachUnasked, "%s", what)
	}
	v.notTooNew(f, now)
	was := v.boards[f.Board]
	if was != nil {
		v.rises(what, was.rev, f.Rev)
	}
	v.notBefore(what, f.Rev)
	is, ok := merge(was, f)
	if !ok {
		v.breach(breachLost, "%s: an update on revision %d, which is not held", what, f.Base)
		return news{again: f.Board}
	}
	v.boards[f.Board] = is
	v.seen = max(v.seen, f.At)
	known := 0
	if was != nil && was.table == is.table && was.round == is.round {
		known = len(was.sans)
	}
	n := news{}
	for i := f.Keep; i < len(is.sans); i++ {
		if played := v.isTrue(is, i); i >= known {
			n.played = played
		}
	}
	if was == nil {
		return news{} // what was played before it came does not tell how late frames are
	}
	n.at = f.At
	return n
}

// merge puts an update onto the board held, as static/lib/merge.js does; ok is false where
// it follows on another revision.
func merge(was *heldBoard, f *boardFrame) (*heldBoard, bool) {
	is := &heldBoard{rev: f.Rev, result: f.Result}
	is.table, _ = strconv.Atoi(f.Table)
	is.round, _ = strconv.Atoi(f.Round)
	if f.Base != 0 {
		if was == nil || was.rev != f.Base || f.Keep > len(was.sans) {
			return nil, false
		}
		is.sans = slices.Clip(was.sans[:f.Keep])
		if f.Keep == len(was.sans) {
			is.sans = was.sans
		}
	}
	for _, p := range f.Plies {
		is.sans = append(is.sans, p.SAN)
	}
	return is, true
}

// isTrue holds a ply to what has been played, and when; it returns when.
func (v *verifier) isTrue(b *heldBoard, i int) time.Time {
	played, ok := v.truth.plyAt(b.table, b.round, i)
	if !ok || played.san != b.sans[i] {
		v.breach(breachUntrue, "table %d, round %d, ply %d: %s", b.table, b.round, i+1, b.sans[i])
		return time.Time{}
	}
	return played.at
}

// notTooNew holds the time of a frame to the relay's time as the page was told it, which
// is held back when the page is, and moves to the hold that the address asks for.
func (v *verifier) notTooNew(f *boardFrame, now time.Time) {
	if _, most, ok := v.clock.bounds(now); ok && v.ahead(time.UnixMilli(f.At).Sub(most)) {
		v.breach(breachTooNew, "board %d: received %v after the page's time", f.Board, time.UnixMilli(f.At).Sub(most))
	}
	if len(f.Plies) == 0 || v.want.hold == 0 {
		return
	}
	table, _ := strconv.Atoi(f.Table)
	round, _ := strconv.Atoi(f.Round)
	last, ok := v.truth.plyAt(table, round, f.Keep+len(f.Plies)-1)
	if ok && now.Sub(last.at) < v.want.hold {
		v.breach(breachTooNew, "table %d: a move of %v ago, with a hold of %v", table, now.Sub(last.at), v.want.hold)
	}
}
