package feed

import (
	"context"
	"time"
)

// Answer is one answer of a source.
type Answer struct {
	At   time.Time     // receipt of the last byte, with its monotonic reading
	Took time.Duration // from the request, or of a stream the first new byte, to the last byte; wall time
	New  bool          // false when the content is what the last answer held
	Body []byte        // the whole content, decoded; nil when New is false; never changed afterwards

	// Modified is when the content was changed by the clock of the machine that holds
	// it, which may be ahead of ours: Last-Modified, or the file's time. Zero: unknown.
	Modified time.Time
}

// Fault is a failed attempt to hear from a source.
type Fault struct {
	At     time.Time
	Took   time.Duration // from the request to the moment it failed
	Reason Reason
	Err    error // for people: what, where and what to do; never holds a secret

	// Partial says that it concerns a part only, such as one file of a folder: answers
	// about the rest come beside it, and the source is not to be called silent.
	Partial bool
}

// Reason classes faults; it is also the metric's label.
type Reason string

// The reasons, all of them.
const (
	ReasonTimeout   Reason = "timeout"   // no complete answer, or push, within the limit
	ReasonConnect   Reason = "connect"   // nobody answered: refused, reset, unknown host, TLS
	ReasonStatus    Reason = "status"    // an HTTP status other than 200 and 304, or a 304 for nothing
	ReasonTooLarge  Reason = "too_large" // more bytes than the limit allows
	ReasonNotPGN    Reason = "not_pgn"   // an answer without one tag pair or move: a web page, nothing at all
	ReasonCut       Reason = "cut"       // the answer ended before its announced length
	ReasonFile      Reason = "file"      // the file or folder is missing or cannot be read, or holds no PGN file
	ReasonMalformed Reason = "malformed" // the transfer itself is broken, such as bad gzip
	ReasonEnded     Reason = "ended"     // the input has ended and cannot begin again
	ReasonRefused   Reason = "refused"   // somebody pushed without the right token; it was turned away
)

// Reasons lists every Reason, for counters that start at zero.
var Reasons = []Reason{ReasonTimeout, ReasonConnect, ReasonStatus, ReasonTooLarge, ReasonNotPGN, ReasonCut, ReasonFile, ReasonMalformed, ReasonEnded, ReasonRefused}

// Sink takes what a source hears. Its methods are called from one goroutine, the
// one in Run, and none is called once Run's context has ended. A slow Sink delays
// the next request.
type Sink interface {
	Answered(Answer)
	Failed(Fault)
}

// Source is one feed. Run blocks until ctx ends, and returns nil then; any other
// return is a configuration that can never work.
type Source interface {
	Run(ctx context.Context, to Sink) error
}
