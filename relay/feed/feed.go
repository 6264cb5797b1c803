package feed

import (
	"context"
	"time"
)

// Answer is one answer of a source.
type Answer struct {
	At   time.Time     // receipt of the last byte, with its monotonic reading
	Took time.Duration // from the request to the last byte, wall time
	New  bool          // false when the content is what the last answer held
	Body []byte        // the whole content, decoded; nil when New is false; never changed afterwards
}

// Fault is a failed attempt to hear from a source.
type Fault struct {
	At     time.Time
	Took   time.Duration // from the request to the moment it failed
	Reason Reason
	Err    error // for people: what, where and what to do; never holds a secret
}

// Reason classes faults; it is also the metric's label.
type Reason string

// The reasons, all of them.
const (
	ReasonTimeout   Reason = "timeout"   // no complete answer within the limit
	ReasonConnect   Reason = "connect"   // nobody answered: refused, reset, unknown host, TLS
	ReasonStatus    Reason = "status"    // an HTTP status other than 200 and 304, or a 304 for nothing
	ReasonTooLarge  Reason = "too_large" // more bytes than the limit allows
	ReasonNotPGN    Reason = "not_pgn"   // an answer without one tag pair or move: a web page, nothing at all
	ReasonCut       Reason = "cut"       // the answer ended before its announced length
	ReasonFile      Reason = "file"      // the file is missing or cannot be read
	ReasonMalformed Reason = "malformed" // the transfer itself is broken, such as bad gzip
)

// Reasons lists every Reason, for counters that start at zero.
var Reasons = []Reason{ReasonTimeout, ReasonConnect, ReasonStatus, ReasonTooLarge, ReasonNotPGN, ReasonCut, ReasonFile, ReasonMalformed}

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
