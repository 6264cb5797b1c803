package feed

import (
	"fmt"
	"time"
)

// same reports an unchanged file.
func (w *watch) same() {
	if w.due("") {
		w.answer(Answer{})
	}
}

// answer reports a, at once.
func (w *watch) answer(a Answer) {
	a.At, a.Took = w.stamp()
	w.said, w.saidAt = "", a.At
	w.to.Answered(a)
}

// fail reports a fault. The same one again is held back to once per second.
func (w *watch) fail(reason Reason, err error) {
	if !w.due(reason) {
		return
	}
	f := Fault{Reason: reason, Err: err}
	f.At, f.Took = w.stamp()
	w.said, w.saidAt = reason, f.At
	w.to.Failed(f)
}

func (w *watch) failLarge() {
	w.fail(ReasonTooLarge, fmt.Errorf("feed file %s is larger than %d bytes; is this the PGN file? If so, raise the size limit", w.o.Path, w.o.MaxBytes))
}

// due tells whether a report of this kind may be made now.
func (w *watch) due(kind Reason) bool {
	return w.saidAt.IsZero() || w.said != kind || w.started.Sub(w.saidAt) >= sayEvery
}

func (w *watch) stamp() (time.Time, time.Duration) {
	at := w.o.Now()
	return at, at.Sub(w.started)
}
