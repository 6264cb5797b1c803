package relay

import (
	"time"

	"clocktell/relay/pgn"
)

// Event is something that happens to the show. Events carry their time, so that
// the same events give the same show again.
type Event interface {
	When() time.Time
}

// PacketRead is an answer of a feed that holds something new, already read.
type PacketRead struct {
	At    time.Time
	Feed  string
	Keys  []Key      // every game of the packet, in its order
	Games []GameRead // the games whose text changed since the packet before
	More  bool       // there are more games than are read of one packet
	Parts []Part     // what makes this packet of the one before: what the journal keeps
}

// GameRead is one game of a packet.
type GameRead struct {
	Index int // place in PacketRead.Keys
	Game  pgn.Game
	Last  bool   // no game follows it in the packet
	Hash  uint64 // of its text: the same text has the same hash as long as the process lives
}

// FeedAnswered is an answer without anything new.
type FeedAnswered struct {
	At   time.Time
	Feed string
}

// FeedFailed is an attempt to hear from a feed that came to nothing.
type FeedFailed struct {
	At     time.Time
	Feed   string
	Reason string // from the fixed list in relay/feed
	Text   string // for people: what, where, what to do
}

// OpeningsLoaded brings the opening names, which take too long to load before
// the first picture.
type OpeningsLoaded struct {
	At   time.Time
	Book OpeningBook
}

// JournalState says that the journal fails, or is well again. It is of this process alone:
// it is not journalled, and lets no time pass.
type JournalState struct {
	Text string // what is wrong and what to do; "" nothing
}

// BusState says how the bus is between the processes that share the show. It is of this
// process alone, as JournalState is.
type BusState struct{ Bus Bus }

// TimePassed says that nothing else has happened up to its time. Where several processes
// let the same show go on, they let time pass by it alone, and so all in the same steps.
// It is not journalled.
type TimePassed struct{ At time.Time }

// When returns no time, at which nothing changes.
func (e JournalState) When() time.Time { return time.Time{} }

// When returns no time, at which nothing changes.
func (e BusState) When() time.Time { return time.Time{} }

// When returns the time up to which nothing else has happened.
func (e TimePassed) When() time.Time { return e.At }

// When returns the time of receipt.
func (e PacketRead) When() time.Time { return e.At }

// When returns the time of the answer.
func (e FeedAnswered) When() time.Time { return e.At }

// When returns the time of the failure.
func (e FeedFailed) When() time.Time { return e.At }

// When returns the time of loading.
func (e OpeningsLoaded) When() time.Time { return e.At }
