package relay

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"time"
)

// startMarksMost is how many recordings of a show can be marked.
const startMarksMost = 100

// startMarkFar is how far from the show's own time a mark may lie: a date that is mistyped
// would put every cue outside its recording.
const startMarkFar = 24 * time.Hour

// StartMark says that a recording began.
type StartMark struct {
	At       time.Time // of its first picture
	Timecode string    // that this has, as 10:00:00:00; "" for zero
	Group    string    // of scenes whose channel is recorded; "" any
}

// startTimecode is what every frame rate can read, but for the number of the frame.
var startTimecode = regexp.MustCompile(`^([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9][:;][0-5][0-9]$`)

// markStart notes that a recording began, now or at a time that is told. It returns that
// in words. A recording that is marked again at the same instant has the later timecode.
func (s *Show) markStart(e ByHand) (string, error) {
	mark := StartMark{At: e.Mark, Timecode: e.Timecode, Group: e.Text}
	if mark.At.IsZero() {
		mark.At = s.At
	}
	if err := mark.check(s.At); err != nil {
		return "", err
	}
	marks := slices.DeleteFunc(slices.Clone(s.Recordings), func(m StartMark) bool { return m.At.Equal(mark.At) && m.Group == mark.Group })
	if len(marks) == startMarksMost {
		return "", fmt.Errorf("%d recordings are marked, which is as many as can be", startMarksMost)
	}
	s.Recordings = append(marks, mark)
	slices.SortStableFunc(s.Recordings, func(a, b StartMark) int { return a.At.Compare(b.At) })
	return mark.told(), nil
}

func (m StartMark) check(now time.Time) error {
	if m.Timecode != "" && !startTimecode.MatchString(m.Timecode) {
		return fmt.Errorf("%.20q is no timecode; one is written 10:00:00:00", m.Timecode)
	}
	if m.At.Sub(now).Abs() > startMarkFar {
		return errors.New("that start of a recording is more than a day away from the show")
	}
	if m.Group == "" {
		return nil
	}
	return CheckHoldGroup(m.Group)
}

func (m StartMark) told() string {
	text := "a recording began"
	if m.Group != "" {
		text = "the recording of " + m.Group + " began"
	}
	text += " at " + m.At.UTC().Format("15:04:05.000 MST")
	if m.Timecode != "" {
		text += ", timecode " + m.Timecode
	}
	return text
}
