package relaytest

import (
	"fmt"
	"time"

	"clocktell/relay"
)

// Start is when test shows begin. The day means nothing.
var Start = time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)

// FeedName is the name of the primary feed of a Stage, BackupName that of the feed
// behind it.
const (
	FeedName   = "hall"
	BackupName = "hall-b"
)

// Plan is the plan of a Stage: a feed late after 6 and stale after 15 seconds.
func Plan() relay.Plan {
	return relay.Plan{Title: "Test", MaxBoards: 8, Feeds: []relay.FeedPlan{{
		Name: FeedName, Kind: "http", Address: "http://127.0.0.1/", Every: time.Second, Late: 6 * time.Second, Stale: 15 * time.Second,
	}}}
}

// PlanWithBackup is Plan with a second feed of the same games.
func PlanWithBackup() relay.Plan {
	plan := Plan()
	backup := plan.Feeds[0]
	backup.Name, backup.BackupOf = BackupName, FeedName
	plan.Feeds = append(plan.Feeds, backup)
	return plan
}

// Stage is a show led by hand through time.
type Stage struct {
	Show    *relay.Show
	Now     time.Time
	Record  bool          // keep every event that is applied
	Events  []relay.Event // what was kept
	Before  func()        // called before every event, when the time up to it has passed
	intakes map[string]*relay.Intake
	entries int
}

// NewStage returns a stage of Plan at Start.
func NewStage() *Stage { return NewStageOf(Plan()) }

// NewStageOf returns a stage of another plan.
func NewStageOf(plan relay.Plan) *Stage {
	s := &Stage{Show: relay.NewShow(plan, Start), Now: Start, intakes: make(map[string]*relay.Intake)}
	for _, f := range plan.Feeds {
		s.intakes[f.Name] = relay.NewIntake(f.Name)
	}
	return s
}

// Wait lets time pass.
func (s *Stage) Wait(d time.Duration) {
	s.Now = s.Now.Add(d)
	s.Show = s.Show.AdvancedTo(s.Now)
}

// Take lets the primary answer with a text, after a second.
func (s *Stage) Take(text string) { s.TakeFrom(FeedName, text) }

// TakeFrom lets a feed answer with a text, after a second.
func (s *Stage) TakeFrom(feed, text string) { s.Apply(s.packet(feed, text)) }

// Packet returns the event of an answer of the primary a second from now.
func (s *Stage) Packet(text string) relay.Event { return s.packet(FeedName, text) }

func (s *Stage) packet(feed, text string) relay.Event {
	s.Wait(time.Second)
	return s.intakes[feed].Read(s.Now, []byte(text))
}

// Same lets the primary answer that nothing is new, once a second for so long.
func (s *Stage) Same(d time.Duration) { s.SameFrom(d, FeedName) }

// SameFrom lets feeds answer that nothing is new, once a second for so long.
func (s *Stage) SameFrom(d time.Duration, feeds ...string) {
	for range d / time.Second {
		s.Wait(time.Second)
		for _, feed := range feeds {
			s.Apply(relay.FeedAnswered{At: s.Now, Feed: feed})
		}
	}
}

// Fail lets the primary fail, after a second.
func (s *Stage) Fail(reason string) {
	s.Wait(time.Second)
	s.Apply(relay.FeedFailed{At: s.Now, Feed: FeedName, Reason: reason, Text: "it is " + reason})
}

// Enter lets the producer do something, after a second. It returns why it was
// refused, or "".
func (s *Stage) Enter(e relay.ByHand) string {
	s.Wait(time.Second)
	e.At, e.ID = s.Now, s.nextID()
	s.Apply(e)
	return s.became(e.ID)
}

// AtPanel lets a co-host do something, after a second. It returns why it was refused,
// or "".
func (s *Stage) AtPanel(e relay.AtPanel) string {
	s.Wait(time.Second)
	e.At, e.ID = s.Now, s.nextID()
	s.Apply(e)
	return s.became(e.ID)
}

// AtDesk lets a commentator do something, after a second. It returns why it was refused,
// or "".
func (s *Stage) AtDesk(act relay.AtDesk) string {
	s.Wait(time.Second)
	act.At, act.ID = s.Now, s.nextID()
	s.Apply(act)
	return s.became(act.ID)
}

func (s *Stage) nextID() string {
	s.entries++
	return fmt.Sprintf("entry-%d", s.entries)
}

// became returns why an entry was refused, or "".
func (s *Stage) became(id string) string {
	entered, known := s.Show.Entry(id)
	if !known {
		return "the show does not know the entry"
	}
	return entered.Refused
}

// Apply takes an event.
func (s *Stage) Apply(e relay.Event) {
	if s.Before != nil {
		s.Before()
	}
	if s.Record {
		s.Events = append(s.Events, e)
	}
	s.Show = s.Show.Apply(e)
}

// Board returns board n as it is.
func (s *Stage) Board(n int) *relay.Board { return s.Show.Boards[n-1] }
