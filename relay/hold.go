package relay

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"time"
)

// Limits of what scenes are held back by.
const (
	HoldMost       = 30 * time.Minute
	holdGroupsMost = 50 // groups whose hold can be set
)

// HoldCatchUp is how long a group takes to catch up, in show time, when its hold
// becomes shorter. It goes through everything that lies between in its order, because a
// cut would leave moves out.
const HoldCatchUp = 5 * time.Second

// Holds says how long each group of scenes is held back.
type Holds struct {
	Rev    uint64
	Groups []Hold // in the order in which they were set first
}

// Hold is how long the scenes of a group are held back.
type Hold struct {
	Group string
	For   time.Duration // of show time
	Since time.Time     // when it was set to that
	From  time.Duration // how far behind the show the group was then
}

// Of returns the hold of a group; false: it has not been set.
func (h Holds) Of(group string) (Hold, bool) {
	i := slices.IndexFunc(h.Groups, func(g Hold) bool { return g.Group == group })
	if i < 0 {
		return Hold{}, false
	}
	return h.Groups[i], true
}

// Behind returns how far behind the show the group is at t, how fast its past goes by,
// 1 being the pace of the show, and how long that pace lasts; 0: for good. A hold that
// became longer says so at once: it is for the pages to stay where they are until the
// past has caught up.
func (h Hold) Behind(t time.Time) (behind time.Duration, pace float64, lasts time.Duration) {
	gap, gone := h.From-h.For, max(0, t.Sub(h.Since))
	if gap <= 0 || gone >= HoldCatchUp {
		return h.For, 1, 0
	}
	left := float64(HoldCatchUp-gone) / float64(HoldCatchUp)
	return h.For + time.Duration(float64(gap)*left), 1 + float64(gap)/float64(HoldCatchUp), HoldCatchUp - gone
}

var (
	holdSeconds = regexp.MustCompile(`^[0-9]{1,6}(\.[0-9]{1,3})?$`)
	holdGroup   = regexp.MustCompile(`^[a-z][a-z0-9-]{0,23}$`)
)

// ParseHold reads a number of seconds, such as 12 or 7.5.
func ParseHold(text string) (time.Duration, error) {
	seconds, err := strconv.ParseFloat(text, 64)
	if !holdSeconds.MatchString(text) || err != nil {
		return 0, fmt.Errorf("%.20q is no hold; a hold is a number of seconds, such as 12 or 7.5", text)
	}
	hold := time.Duration(seconds*1000+0.5) * time.Millisecond
	if hold > HoldMost {
		return 0, fmt.Errorf("a hold has at most %.0f seconds, not %.20s", HoldMost.Seconds(), text)
	}
	return hold, nil
}

// CheckHoldGroup reports a name that no group can have.
func CheckHoldGroup(name string) error {
	if !holdGroup.MatchString(name) {
		return errors.New("the name of a group has 1 to 24 small letters, figures and hyphens, and begins with a letter")
	}
	return nil
}

// setHold holds a group back by so long from now on. It returns that in words.
func (s *Show) setHold(e ByHand) (string, error) {
	if err := e.checkHold(); err != nil {
		return "", err
	}
	set := Hold{Group: e.Text, For: e.For, Since: s.At, From: e.For}
	groups := slices.Clone(s.Holds.Groups)
	if i := slices.IndexFunc(groups, func(g Hold) bool { return g.Group == e.Text }); i >= 0 {
		set.From, _, _ = groups[i].Behind(s.At)
		groups[i] = set
	} else if len(groups) < holdGroupsMost {
		groups = append(groups, set)
	} else {
		return "", fmt.Errorf("there are %d groups, which is as many as can be; use one of them", holdGroupsMost)
	}
	s.Holds = Holds{Rev: s.Holds.Rev + 1, Groups: groups}
	return fmt.Sprintf("group %s is held back by %s s", set.Group, strconv.FormatFloat(set.For.Seconds(), 'f', -1, 64)), nil
}

func (e ByHand) checkHold() error {
	if e.For < 0 || e.For > HoldMost {
		return fmt.Errorf("a hold has 0 to %.0f seconds", HoldMost.Seconds())
	}
	return CheckHoldGroup(e.Text)
}
