package overlay

import (
	"time"

	"clocktell/overlay/wire"
)

// When something is wrong with a page.
const (
	silentAfter = 3 * pingEvery    // without a ping it is silent
	skippedMost = 20               // revisions that a sound page may skip in troubleFor, when several come at once
	troubleFor  = 30 * time.Second // it is in trouble for so long after the last sign, so that rows stay where they are
)

// symptoms are when something was last wrong with a page, in wall time; the zero time is never.
type symptoms struct {
	heard   time.Time // its last ping, at first when it came
	silent  time.Time // when a ping ended a silence
	late    time.Time // when it told of something that it drew late
	behind  time.Time // when it had skipped many revisions
	since   time.Time // begin of the time that skipped counts in
	skipped uint64
	sent    uint64 // states of boards that it had been sent when that time began
}

// pinged takes a ping, with the lateness of what was drawn, in milliseconds.
func (s *symptoms) pinged(figures []int64, now time.Time) {
	if now.Sub(s.heard) > silentAfter {
		s.silent = now
	}
	s.heard = now
	if lateAmong(figures) > 0 {
		s.late = now
	}
}

// skips takes that revisions were skipped, and how many states of boards the page has been sent in
// all. Where moves come in lumps a sound page skips some; it falls behind with one skipped for every two
// sent, as the alert PagesFarBehind has it.
func (s *symptoms) skips(revisions, sent uint64, now time.Time) {
	if now.Sub(s.since) >= troubleFor {
		s.since, s.skipped, s.sent = now, 0, sent
	}
	if s.skipped += revisions; s.skipped > skippedMost && 2*s.skipped > sent-s.sent {
		s.behind = now
	}
}

// trouble says what is wrong with a page, the gravest of it, or "".
func (s *symptoms) trouble(unset bool, now time.Time) string {
	lasts := func(sign time.Time) bool { return now.Sub(sign) < troubleFor }
	switch {
	case now.Sub(s.heard) > silentAfter || lasts(s.silent):
		return wire.TroubleSilent
	case unset:
		return wire.TroubleUnset
	case lasts(s.late):
		return wire.TroubleLate
	case lasts(s.behind):
		return wire.TroubleBehind
	}
	return ""
}

// lateAmong counts what was drawn late.
func lateAmong(figures []int64) (late int) {
	for _, ms := range figures {
		if ms > wire.LateMs {
			late++
		}
	}
	return late
}
