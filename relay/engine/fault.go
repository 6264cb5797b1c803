package engine

import "fmt"

// Reason is a kind of fault of an engine, in a word.
type Reason string

// The reasons. After the first seven the process is ended and another one started;
// the others are counted, and what they came with is dropped.
const (
	FaultStart   Reason = "start"   // the command cannot be started
	FaultSilent  Reason = "silent"  // it does not say uciok or readyok in time
	FaultHang    Reason = "hang"    // a search does not end, not even when told to
	FaultExit    Reason = "exit"    // the process has ended
	FaultClosed  Reason = "closed"  // it has closed its input or output
	FaultFlood   Reason = "flood"   // it says more than anybody can use
	FaultUseless Reason = "useless" // search after search without a line, or nothing but rubbish
	FaultLong    Reason = "long"    // a line longer than lineMost
	FaultRubbish Reason = "rubbish" // a line that is no text, or with figures that are none
	FaultIllegal Reason = "illegal" // a move that cannot be played
	FaultStray   Reason = "stray"   // a bestmove that nobody has asked for
	FaultEmpty   Reason = "empty"   // a search without a line
)

// Reasons are all of them, so that each has its counter from the start.
var Reasons = []Reason{
	FaultStart, FaultSilent, FaultHang, FaultExit, FaultClosed, FaultFlood, FaultUseless,
	FaultLong, FaultRubbish, FaultIllegal, FaultStray, FaultEmpty,
}

// Fault is an error that ends an engine's process.
type Fault struct {
	Reason Reason
	Err    error // what happened, for people
}

func (f *Fault) Error() string { return f.Err.Error() }

// Unwrap returns the cause.
func (f *Fault) Unwrap() error { return f.Err }

func faultf(reason Reason, format string, args ...any) *Fault {
	return &Fault{Reason: reason, Err: fmt.Errorf(format, args...)}
}
