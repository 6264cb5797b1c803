package relay

import "time"

// ByHand is something that the producer did. An entry is made once: another of
// the same ID is taken for the same one, sent again.
type ByHand struct {
	At    time.Time     `json:"-"`
	ID    string        `json:"id"`
	Board int           `json:"board"`
	Act   Act           `json:"act"`
	Ply   int           `json:"ply,omitempty"`   // which ply a move, correction or clock is for, from 1
	SAN   string        `json:"san,omitempty"`   // of a move or correction; a correction without one takes the ply back
	Side  string        `json:"side,omitempty"`  // of a name: "white" or "black"
	Left  time.Duration `json:"left,omitempty"`  // of a clock: the mover's after that ply
	Text  string        `json:"text,omitempty"`  // a name or a result; of a hold or a recording, the group; of quiet, "on" or "off"
	Feed  string        `json:"feed,omitempty"`  // of a pin; "" unpins
	Keep  string        `json:"keep,omitempty"`  // of an answer: "feed" or "hand"
	Asked string        `json:"asked,omitempty"` // of an answer: the question's ID
	For   time.Duration `json:"for,omitempty"`   // of a hold
	// Of the start of a recording: when it was, zero for now, and the timecode it has there.
	Mark     time.Time `json:"mark,omitzero"`
	Timecode string    `json:"timecode,omitempty"`
}

// When returns the time of entry.
func (e ByHand) When() time.Time { return e.At }

// Act is what can be done by hand.
type Act string

// The acts.
const (
	ActMove      Act = "move"    // a ply behind the last one
	ActCorrect   Act = "correct" // another move for the last ply, or none
	ActClock     Act = "clock"   // what a clock showed after a ply
	ActResult    Act = "result"
	ActName      Act = "name"
	ActFreeze    Act = "freeze" // the board stays as it is, whatever its feeds say
	ActThaw      Act = "thaw"
	ActPin       Act = "pin"       // the board follows one feed, however that does
	ActAnswer    Act = "answer"    // to a question: who is right, the feed or the hand
	ActHold      Act = "hold"      // how long a group of scenes is held back
	ActQuiet     Act = "quiet"     // whether the tool tells news to the viewers of itself
	ActRecording Act = "recording" // when a recording began
)

// ofShow reports whether an act is of the whole show and not of a board.
func (a Act) ofShow() bool { return a == ActHold || a == ActQuiet || a == ActRecording }
