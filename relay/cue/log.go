package cue

import (
	"slices"
	"time"

	"clocktell/relay"
)

// Kind says what a cue is about. Sentences of the panel have the kind of their alert.
type Kind string

// The kinds besides those of alerts.
const (
	KindSegment    Kind = "segment"    // another board on the air
	KindGame       Kind = "game"       // another game on a board
	KindResult     Kind = "result"     // a game has ended, or its result is another
	KindCorrection Kind = "correction" // moves were replaced or taken back
	KindLine       Kind = "line"       // a side line is shown to the viewers
	KindQuestion   Kind = "question"   // they are asked to find a move
	KindAnswer     Kind = "answer"     // they are shown it
	KindCaption    Kind = "caption"    // a sentence is on the air
	KindSaid       Kind = "said"       // a commentator said a sentence
	KindNote       Kind = "note"       // one wrote something down
	KindByHand     Kind = "byHand"     // the producer's entry
	KindFeed       Kind = "feed"       // a feed is late, stale, or well again; a board follows another
)

// Cue is one line of the list: something that happened at a moment of the show.
type Cue struct {
	At           time.Time
	Board        int    // 0: the whole show
	White, Black string // who plays there; "" for the whole show
	Kind         Kind
	Title        string // short, for a chapter; "" is none
	Text         string // in the show's language, but what is entered and what feeds do
	Evidence     string // the figures behind it, if any
	OnAir        bool   // it is of the board on the air
}

// Log is what a show has left for an editor.
type Log struct {
	Title        string
	Language     string // its code
	Began, Ended time.Time
	Cues         []Cue // the earliest first
	Marks        []relay.StartMark
	Holds        []relay.Hold // every one that was set, in order
}

// Groups returns the groups of scenes that were held back, in the order in which they were
// set first.
func (l *Log) Groups() []string {
	var out []string
	for _, h := range l.Holds {
		if !slices.Contains(out, h.Group) {
			out = append(out, h.Group)
		}
	}
	return out
}

// Channel returns how a group was held back; "" is a channel that is not.
func (l *Log) Channel(group string) Channel {
	var of Channel
	for _, h := range l.Holds {
		if h.Group == group {
			of = append(of, h)
		}
	}
	return of
}
