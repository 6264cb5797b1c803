package feed

import (
	"context"
	"time"
)

// sayEvery is how often a state that does not change is reported.
const sayEvery = time.Second

// teller tells a Sink what looks find: what is new at once, what stays once per second.
type teller struct {
	to  Sink
	now func() time.Time

	// Owned by the goroutine in Run.
	started time.Time // of the look under way
	said    Reason    // of the last report; "" for an answer
	saidAt  time.Time // zero before the first
}

// until is a Sink that hears nothing once ctx has ended, for reports that may follow
// one another without a look at ctx between.
type until struct {
	ctx context.Context
	to  Sink
}

func (u until) Answered(a Answer) {
	if u.ctx.Err() == nil {
		u.to.Answered(a)
	}
}

func (u until) Failed(f Fault) {
	if u.ctx.Err() == nil {
		u.to.Failed(f)
	}
}

// begin begins a look.
func (t *teller) begin() { t.started = t.now() }

// same reports unchanged content.
func (t *teller) same(modified time.Time) {
	if t.due("") {
		t.answer(Answer{Modified: modified})
	}
}

// answer reports a, at once.
func (t *teller) answer(a Answer) {
	a.At, a.Took = t.stamp()
	t.said, t.saidAt = "", a.At
	t.to.Answered(a)
}

// fail reports a fault. The same one again is held back to once per second.
func (t *teller) fail(reason Reason, err error) { t.failed(Fault{Reason: reason, Err: err}) }

func (t *teller) failed(f Fault) {
	if !t.due(f.Reason) {
		return
	}
	f.At, f.Took = t.stamp()
	t.said, t.saidAt = f.Reason, f.At
	t.to.Failed(f)
}

// forget lets whatever comes next be reported at once.
func (t *teller) forget() { t.saidAt = time.Time{} }

// due tells whether a report of this kind may be made now.
func (t *teller) due(kind Reason) bool {
	return t.saidAt.IsZero() || t.said != kind || t.started.Sub(t.saidAt) >= sayEvery
}

func (t *teller) stamp() (time.Time, time.Duration) {
	at := t.now()
	return at, at.Sub(t.started)
}
