package relay

import (
	"fmt"
	"slices"
	"time"

	"clocktell/relay/prompt"
)

// FeedPlan is what is known of a feed before it says anything.
type FeedPlan struct {
	Name, Kind, Address string        // Address without credentials
	BackupOf            string        // the feed that carries the same games and comes first; "" none
	Every               time.Duration // planned time between answers, in show time
	Late, Stale         time.Duration // silences that make it late and stale, in show time
	Clocks              ClockPlan
}

// FeedState says how a feed does.
type FeedState string

// The states. A feed that never answered is waiting until it is stale.
const (
	FeedWaiting FeedState = "waiting"
	FeedOK      FeedState = "ok"
	FeedLate    FeedState = "late"
	FeedStale   FeedState = "stale"
)

const readingMax = 20 // lines about what could not be read

// Feed is one feed at one moment; like a Board it is never changed.
type Feed struct {
	FeedPlan
	State     FeedState
	Started   time.Time
	LastGood  time.Time
	LastNew   time.Time
	LastFault *FeedFault
	Faults    int      // in a row
	Games     int      // in the last packet
	Hidden    int      // of them, for which the show has no room
	LeftOut   LeftOut  // of them, for other reasons
	More      bool     // the packet has more games than are read
	Reading   []string // what could not be read in its games
	Alert     *Alert   // raised while it is stale
	Learnt    Learnt   // of its delay
	Followed  []Span   // when some board followed it, of the last minutes, oldest first
	in        prompt.Language
	beats     rhythm

	keys         []Key // of the games of the last packet
	distinctKeys bool  // each of them once
}

// LeftOut counts games that are on no board although there is room.
type LeftOut struct {
	Unmatched int // a backup has them and its primary has not
	Untagged  int // moves without a tag before them, such as behind a result
	Twice     int // a game of the same players with the same moves is in the packet
}

// FeedFault is the last failure of a feed.
type FeedFault struct {
	At     time.Time
	Reason string
	Text   string
}

func newFeed(plan FeedPlan, in prompt.Language, at time.Time) *Feed {
	return &Feed{FeedPlan: plan, in: in, State: FeedWaiting, Started: at}
}

func (f *Feed) beat(at time.Time, kind BeatKind) *Feed {
	next := *f
	next.beats = f.beats.with(Beat{At: at, Kind: kind})
	return &next
}

func (f *Feed) answered(at time.Time, kind BeatKind) *Feed {
	next := f.beat(at, kind)
	next.LastGood, next.Faults = at, 0
	if kind == BeatNew {
		next.LastNew = at
	}
	return next.judged(at)
}

func (f *Feed) failed(e FeedFailed) *Feed {
	next := f.beat(e.At, BeatFault)
	next.LastFault, next.Faults = &FeedFault{At: e.At, Reason: e.Reason, Text: e.Text}, f.Faults+1
	return next.judged(e.At)
}

// silentSince is when the feed was last heard of.
func (f *Feed) silentSince() time.Time {
	if f.LastGood.IsZero() {
		return f.Started
	}
	return f.LastGood
}

// judged sets state and alert as they are at t.
func (f *Feed) judged(t time.Time) *Feed {
	next := *f
	silence := t.Sub(f.silentSince())
	switch {
	case silence >= f.Stale:
		next.State = FeedStale
	case f.LastGood.IsZero():
		next.State = FeedWaiting
	case silence >= f.Late:
		next.State = FeedLate
	default:
		next.State = FeedOK
	}
	next.Alert = nil
	if next.State == FeedStale {
		next.Alert = f.Alert
		if next.Alert == nil {
			next.Alert = f.staleAlert(t, silence)
		}
	}
	return &next
}

func (f *Feed) staleAlert(t time.Time, silence time.Duration) *Alert {
	return &Alert{
		ID:   fmt.Sprintf("feed-%s-%s", f.Name, AlertFeedStale),
		Kind: AlertFeedStale, At: t, Say: prompt.FeedStale(f.in, f.Name, silence),
	}
}

// Due returns when silence alone next changes the state; zero: never.
func (f *Feed) Due() time.Time {
	switch f.State {
	case FeedOK:
		return f.LastGood.Add(f.Late)
	case FeedLate, FeedWaiting:
		return f.silentSince().Add(f.Stale)
	}
	return time.Time{}
}

// distinct reports that no two games of a packet have the same key. That is mostly known
// from the packet before.
func (f *Feed) distinct(keys []Key) bool {
	if slices.Equal(keys, f.keys) {
		return f.distinctKeys
	}
	seen := make(map[Key]struct{}, len(keys))
	for _, key := range keys {
		seen[key] = struct{}{}
	}
	return len(seen) == len(keys)
}
