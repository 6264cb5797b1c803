package relay

import (
	"slices"
	"time"
)

// Noted is one line of the show log: something that happened, with what was before
// and what is now.
type Noted struct {
	Seq     uint64 // from 1, without gaps
	At      time.Time
	Board   int // 0: the whole show
	Kind    NoteKind
	Ply     int // on the board, from 1; 0: none in particular
	Was, Is string
	Text    string // what else there is to say
	Engine  bool   // an engine says so
}

// NoteKind says what a line of the show log tells.
type NoteKind string

// The kinds of notes.
const (
	NoteGame      NoteKind = "game"      // another game on the board
	NoteMoves     NoteKind = "moves"     // plies were added
	NoteReplaced  NoteKind = "replaced"  // plies were replaced by others
	NoteTakenBack NoteKind = "takenBack" // plies were taken back
	NoteClock     NoteKind = "clock"     // a reading changed after its ply
	NoteResult    NoteKind = "result"    // the result changed
	NotePlayer    NoteKind = "player"    // a name, title or rating changed
	NoteControl   NoteKind = "control"   // the time control changed
	NoteFault     NoteKind = "fault"     // the game cannot be shown on, or can again
	NoteVanished  NoteKind = "vanished"  // a feed no longer has the game
	NoteReturned  NoteKind = "returned"  // it has it again
	NotePlace     NoteKind = "place"     // the game stands elsewhere in the feed's packet
	NoteOlder     NoteKind = "older"     // a feed jumped back to an older state, which is not shown
	NoteOlderOver NoteKind = "olderOver" // ... and forward again
	NoteFeed      NoteKind = "feed"      // the board follows another feed
	NoteFeedState NoteKind = "feedState" // a feed is late, stale, or well again
	NoteByHand    NoteKind = "byHand"    // the producer's entry
	NotePanel     NoteKind = "panel"     // what a co-host did at the panel
	NoteDesk      NoteKind = "desk"      // what was done at a desk
	NoteRefused   NoteKind = "refused"   // an entry that could not be made
	NoteAsked     NoteKind = "asked"     // feed and entry differ: the producer is asked
	NoteAgreed    NoteKind = "agreed"    // the feed says what was entered, and leads again
	NoteRaised    NoteKind = "raised"    // an alert
	NoteCleared   NoteKind = "cleared"   // an alert that no longer holds
	NoteTell      NoteKind = "tell"      // another verdict on a side
	NoteUncounted NoteKind = "uncounted" // a game of the match's players does not count for it; without Is it does now
)

// NoteKinds lists every NoteKind.
var NoteKinds = []NoteKind{
	NoteGame, NoteMoves, NoteReplaced, NoteTakenBack, NoteClock, NoteResult, NotePlayer, NoteControl, NoteFault, NoteVanished,
	NoteReturned, NotePlace, NoteOlder, NoteOlderOver, NoteFeed, NoteFeedState, NoteByHand, NotePanel, NoteDesk, NoteRefused, NoteAsked, NoteAgreed,
	NoteRaised, NoteCleared, NoteTell, NoteUncounted,
}

// How many lines of the show log stay in memory; the journal keeps them all.
const (
	notesKept  = 5000
	notesChunk = 64
)

// Notes is the newest part of the show log. Like everything in a Show it is never
// changed: adding to it copies one chunk at the most.
type Notes struct {
	Total  uint64 // lines since the show began
	chunks [][]Noted
	newest []Noted
}

func (l Notes) with(n Noted) Notes {
	l.Total++
	n.Seq = l.Total
	l.newest = append(slices.Clip(l.newest), n)
	if len(l.newest) == notesChunk {
		l.chunks = append(slices.Clip(l.chunks[max(0, len(l.chunks)-notesKept/notesChunk):]), l.newest)
		l.newest = nil
	}
	return l
}

// After returns the lines kept behind that number, oldest first.
func (l Notes) After(seq uint64) []Noted {
	var out []Noted
	for _, chunk := range append(slices.Clip(l.chunks), l.newest) {
		if n := len(chunk); n > 0 && chunk[n-1].Seq > seq {
			out = append(out, chunk[max(0, n-int(chunk[n-1].Seq-seq)):]...)
		}
	}
	return out
}

// note adds a line to the show log.
func (s *Show) note(n Noted) {
	n.At = s.At
	s.Log = s.Log.with(n)
}
