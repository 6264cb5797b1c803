package feed

import (
	"context"
	"os"
	"testing"
	"time"

	"go.uber.org/goleak"
)

func TestMain(m *testing.M) {
	if address := os.Getenv(asksAlone); address != "" {
		askAlone(address)
		return
	}
	goleak.VerifyTestMain(m)
}

// event is what a Sink was told, either kind.
type event struct {
	at     time.Time
	took   time.Duration
	reason Reason // "" for an answer
	isNew  bool
	body   string
	err    string
	cause  error

	modified time.Time
	partial  bool
}

// short is the event in a few words: "new a", "same", a Reason.
func (e event) short() string {
	switch {
	case e.partial:
		return "part " + string(e.reason)
	case e.reason != "":
		return string(e.reason)
	case e.isNew:
		return "new " + e.body
	}
	return "same"
}

// shorts are events in short, each with its time since begin.
func shorts(events []event, begin time.Time) []string {
	var out []string
	for _, e := range events {
		out = append(out, e.at.Sub(begin).String()+" "+e.short())
	}
	return out
}

// recorder is a Sink that keeps everything and stops the source after some events.
type recorder struct {
	events []event
	then   func(n int)   // called after the n-th
	limit  int           // stop after so many; 0: none
	during time.Duration // or stop after so long; 0: a day
	stop   func()
	ended  time.Time // when Run returned
}

// context is one that ends when the recorder has heard enough.
func (r *recorder) context(parent context.Context) (context.Context, context.CancelFunc) {
	during := r.during
	if during == 0 {
		during = 24 * time.Hour
	}
	ctx, cancel := context.WithTimeout(parent, during)
	r.stop = cancel
	return ctx, cancel
}

func (r *recorder) Answered(a Answer) {
	r.add(event{at: a.At, took: a.Took, isNew: a.New, body: string(a.Body), modified: a.Modified})
}

func (r *recorder) Failed(f Fault) {
	r.add(event{at: f.At, took: f.Took, reason: f.Reason, err: f.Err.Error(), cause: f.Err, partial: f.Partial})
}

func (r *recorder) add(e event) {
	r.events = append(r.events, e)
	if r.then != nil {
		r.then(len(r.events))
	}
	if r.limit > 0 && len(r.events) == r.limit {
		r.stop()
	}
}

// runOutside runs a source in real time until it has heard once.
func runOutside(t *testing.T, s Source) event {
	t.Helper()
	got := &recorder{limit: 1}
	ctx, cancel := got.context(t.Context())
	defer cancel()
	if err := s.Run(ctx, got); err != nil {
		t.Fatal(err)
	}
	return got.events[0]
}

func TestReasonsListsEachOnce(t *testing.T) {
	seen := map[Reason]bool{}
	for _, r := range Reasons {
		if seen[r] {
			t.Errorf("%s is listed twice", r)
		}
		seen[r] = true
	}
	for _, r := range []Reason{ReasonTimeout, ReasonConnect, ReasonStatus, ReasonTooLarge, ReasonNotPGN, ReasonCut, ReasonFile, ReasonMalformed, ReasonEnded, ReasonRefused} {
		if !seen[r] {
			t.Errorf("%s is not listed", r)
		}
	}
}
