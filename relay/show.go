package relay

import (
	"slices"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/desk"
	"clocktell/relay/match"
)

// Plan is what a show is told before it starts.
type Plan struct {
	Title     string
	Feeds     []FeedPlan
	Control   clock.Control // for games whose tags name none
	MaxBoards int           // games beyond are counted, not shown
	Language  string        // of what the panel says, as prompt.LanguageOf has it; "" English
	Match     *match.Match  // the match that the games belong to; nil: none

	CaptionFor time.Duration // how long a sentence stays on the air; 0: until somebody takes it off
}

// Show is the whole state at one moment. It is never changed: Apply and Advance
// return the next one, and share with it all that stayed.
type Show struct {
	At          time.Time
	Began       time.Time
	Title       string
	Boards      []*Board // board n at index n-1
	Feeds       []*Feed  // as planned
	Said        Prompts
	Table       Table
	OnAir       OnAir
	Desk        *desk.State
	Holds       Holds
	Quiet       bool // scenes tell no news of themselves
	Log         Notes
	Entries     []Entered // by hand, the newest last
	Journal     string    // what is wrong with the journal; "" nothing
	Bus         Bus       // between the processes that share the show
	Reference   Reference
	Engine      Engine
	Second      Engine // that the first is compared with
	Match       *Match // nil: none is planned
	Totals      Totals
	ClockErrors []ClockErrorAt // of the last minutes, oldest first
	// Revisions of the parts that are sent as a whole. HeadRev is of what is said of all boards
	// together: how many there are, the title, quiet mode, the match and the reference. HereRev
	// is of what is of this process alone, its journal and its bus; they are sent with the feeds.
	HeadRev, FeedsRev, SourcesRev, OpinionsRev, HereRev uint64

	Recordings []StartMark // that were marked as begun, the earliest first

	plan     Plan
	defaults Defaults
	past     []pastGame  // of the match, finished and no longer shown
	dues     []time.Time // of the boards, see noteDues
	hidden   *hidden     // from scenes; nil: nothing
	ended    int         // board whose result has changed; 0: none
	unjudged bool        // something has happened to the match
	kept     int         // board of which what the engine says has been taken out; 0: none
	asides   []aside     // opinions on positions off the game, the newest last
}

// FaultKey is one kind of fault of one feed.
type FaultKey struct{ Feed, Reason string }

// NewShow returns the show before anything has happened.
func NewShow(plan Plan, at time.Time) *Show {
	s := &Show{At: at, Began: at, Title: plan.Title, Desk: desk.New(), plan: plan, defaults: Defaults{Control: plan.Control, Language: plan.language()}, HeadRev: 1, FeedsRev: 1, SourcesRev: 1, OpinionsRev: 1}
	for _, feed := range plan.Feeds {
		s.Feeds = append(s.Feeds, newFeed(feed, s.defaults.Language, at))
	}
	s.Said.Rev = 1
	s.unjudged = plan.Match != nil
	s.judgeMatch(s)
	s.Said.Rev, s.Table.Rev, s.OnAir.Rev, s.Holds.Rev = 1, 1, 1, 1
	return s
}

// Due returns when time alone may next change the show; zero: never.
func (s *Show) Due() time.Time {
	var due time.Time
	for _, board := range s.dues {
		due = earlier(due, board)
	}
	for _, f := range s.Feeds {
		due = earlier(due, f.Due())
	}
	return earlier(earlier(earlier(due, s.Said.due()), s.airDue()), s.Desk.Due())
}

// Advance returns the show as it is at t with no event since.
func (s *Show) Advance(t time.Time) *Show {
	next := s.at(t)
	for i, f := range next.Feeds {
		if due := f.Due(); !due.IsZero() && !due.After(t) {
			next.setFeed(i, f.judged(t))
		}
	}
	for i := range next.Boards {
		if next.waits(i, s, t) {
			continue
		}
		if due := next.Boards[i].offersDue(s.At); !due.IsZero() && !due.After(t) {
			next.follow(i)
		}
		if due := next.Boards[i].Due(); !due.IsZero() && !due.After(t) {
			next.setBoard(i, next.Boards[i].Advance(t))
		}
	}
	next.judgeMatch(s)
	next.Said = next.Said.faded(t)
	next.OnAir = next.agedAir(t)
	next.OnAir = next.aimedAir()
	next.Desk = s.Desk.Advance(t)
	next.followAtDesk()
	next.noteOpinions(s)
	next.noteDues(s)
	return next
}

// AdvancedTo goes through every instant up to t at which time alone changes
// something.
func (s *Show) AdvancedTo(t time.Time) *Show {
	for due := s.Due(); !due.IsZero() && !due.After(t); due = s.Due() {
		s = s.Advance(due)
	}
	return s
}

// After returns the show after an event. Time passes up to it first, instant by
// instant, as it does in the loop: so the same events always give the same show.
func (s *Show) After(event Event) *Show {
	if passed, ok := event.(TimePassed); ok {
		return s.AdvancedTo(passed.At)
	}
	return s.AdvancedTo(event.When()).Apply(event)
}

// Through is After for those who have to see every state on the way, the last one too.
func (s *Show) Through(event Event, see ...func(*Show)) *Show {
	for due := s.Due(); !due.IsZero() && !due.After(event.When()); due = s.Due() {
		s = s.Advance(due)
		for _, see := range see {
			see(s)
		}
	}
	if _, passed := event.(TimePassed); passed {
		return s
	}
	s = s.Apply(event)
	for _, see := range see {
		see(s)
	}
	return s
}

// Apply returns the show after an event.
func (s *Show) Apply(event Event) *Show {
	at := event.When()
	if at.Before(s.At) {
		at = s.At // two feeds race by a moment; time never goes back
	}
	next := s.at(at)
	switch e := event.(type) {
	case PacketRead:
		next.takePacket(e, at)
	case FeedAnswered:
		next.onFeed(e.Feed, func(f *Feed) *Feed { return f.answered(at, BeatSame) })
	case FeedFailed:
		next.countFault(e)
		e.At = at
		next.onFeed(e.Feed, func(f *Feed) *Feed { return f.failed(e) })
	case ByHand:
		next.takeByHand(e)
	case AtPanel:
		next.takeAtPanel(e)
	case AtDesk:
		next.takeAtDesk(e)
	case JournalState:
		next.Journal = e.Text
		next.HereRev++
	case BusState:
		next.Bus = e.Bus
		next.HereRev++
	default:
		next.takeSlow(event, at)
	}
	next.judgeMatch(s)
	next.OnAir = next.aimedAir()
	next.followAtDesk()
	next.noteOpinions(s)
	next.noteDues(s)
	return next
}

// at returns a copy of s, at t, whose lists may be changed.
func (s *Show) at(t time.Time) *Show {
	next := *s
	next.At = t
	next.Boards = slices.Clone(s.Boards)
	next.Feeds = slices.Clone(s.Feeds)
	return &next
}

// setBoard puts a board's next state in its place, with what follows from it.
func (s *Show) setBoard(i int, next *Board) {
	was := s.Boards[i]
	s.Boards[i] = next
	if next.Rev == was.Rev {
		return
	}
	s.matchTouched(was, next)
	s.markErrors(was, next)
	if was.Feed != next.Feed {
		s.markFollowed()
	}
	s.raise(was.Alerts, next.Alerts, next.juncture())
	s.noteChanges(was, next)
	before := len(was.Plies)
	if next.Game != was.Game {
		before = 0
	}
	s.Totals.Plies += uint64(max(0, len(next.Plies)-before))
	if next.Correction != nil && next.Correction != was.Correction {
		s.Totals.Corrections++
	}
	for side := range next.Calls {
		if was.Calls[side].Verdict != next.Calls[side].Verdict {
			s.Totals.TellChanges++
		}
	}
}

func (s *Show) raise(was, now []Alert, of juncture) {
	s.noteAlerts(was, now, of.board)
	next, raised := s.Said.follow(was, now, of, s.At)
	s.Said = next
	s.Totals.AlertsRaised += uint64(raised)
}
