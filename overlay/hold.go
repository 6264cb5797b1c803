package overlay

import (
	"errors"
	"net/url"
	"regexp"
	"sync"
	"time"

	"clocktell/relay"
)

// held says by how much a page is held back, as its address does. The zero value is a
// page that is not.
type held struct {
	by    time.Duration // of show time
	group string        // whose hold the producer sets; "" then it is by
}

var (
	errHeldPage = errors.New("only scenes are held back")
	errTwoHolds = errors.New("the address names more than one hold")
)

var isNumber = regexp.MustCompile(`^[0-9.+-]`)

// heldBy reads the hold of a page's address. One that makes no sense is an error and not
// a page without a hold, which would be sent the present.
func heldBy(query url.Values, kind pageKind) (held, error) {
	if !query.Has("hold") {
		return held{}, nil
	}
	text := query.Get("hold")
	switch {
	case !kind.held:
		return held{}, errHeldPage
	case len(query["hold"]) > 1:
		return held{}, errTwoHolds
	case isNumber.MatchString(text):
		by, err := relay.ParseHold(text)
		return held{by: by}, err
	}
	return held{group: text}, relay.CheckHoldGroup(text)
}

// behind returns by how much the page is to stay behind the show at now, how fast its
// past goes by, and how long that lasts; 0: for good. Of a group that has not been set
// nobody knows.
func (h held) behind(holds relay.Holds, now time.Time) (by time.Duration, pace float64, lasts time.Duration, known bool) {
	if h.group == "" {
		return h.by, 1, 0, true
	}
	hold, known := holds.Of(h.group)
	by, pace, lasts = hold.Behind(now)
	return by, pace, lasts, known
}

// sight is how far a page sees: up to an instant of the past that never goes back and
// never leaves anything out, however its hold changes.
type sight struct {
	held  held
	begun bool
	to    time.Time // the latest instant it saw
}

// view is where a page stands. Its time, too, is At.
type view struct {
	at    time.Time
	pace  float64       // at which it goes on, 1 being that of the show; 0: it stands
	lasts time.Duration // of show time; 0: as long as the hold is what it is
	blank bool          // nothing is shown, because nobody knows what may be
}

// look returns where the page stands at now. Where the hold has become longer, it has
// seen more than it should by now, and stands until the past has caught up.
func (s *sight) look(holds relay.Holds, now time.Time) view {
	by, pace, lasts, known := s.held.behind(holds, now)
	at := now.Add(-by)
	switch {
	case !known && s.begun:
		return view{at: s.to}
	case !known:
		return view{at: now.Add(-relay.HoldMost), blank: true}
	case s.begun && at.Before(s.to):
		stands := time.Duration(float64(s.to.Sub(at)) / pace)
		if lasts > 0 {
			stands = min(stands, lasts)
		}
		return view{at: s.to, lasts: max(stands, 1)}
	}
	s.begun, s.to = true, at
	return view{at: at, pace: pace, lasts: lasts}
}

// wait returns in how much show time a page that sees so far has something new to see,
// if next is when the next show came; 0: not before it is told.
func (v view) wait(next time.Time) time.Duration {
	if v.blank {
		return 0
	}
	wait := v.lasts
	if v.pace > 0 && !next.IsZero() {
		due := max(1, time.Duration(float64(next.Sub(v.at))/v.pace))
		if wait == 0 || due < wait {
			wait = due
		}
	}
	return wait
}

// framesByHold keeps the frames of pages that are held alike, as long as there are any.
type framesByHold struct {
	make func() *frames

	mu   sync.Mutex // protects following
	open map[held]*sharedFrames
}

type sharedFrames struct {
	frames *frames
	pages  int
}

// take returns the frames of a hold; who takes them gives them back.
func (f *framesByHold) take(h held) *frames {
	f.mu.Lock()
	defer f.mu.Unlock()
	shared := f.open[h]
	if shared == nil {
		shared = &sharedFrames{frames: f.make()}
		f.open[h] = shared
	}
	shared.pages++
	return shared.frames
}

func (f *framesByHold) giveBack(h held) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if shared := f.open[h]; shared.pages > 1 {
		shared.pages--
		return
	}
	delete(f.open, h)
}
