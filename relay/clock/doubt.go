package clock

import (
	"fmt"
	"time"
)

// impossible names why no player can have spent that, or returns "". Without a
// control a rise may be an increment, so it is no contradiction.
func (c Control) impossible(prev Timed, move int, spent time.Duration) string {
	switch {
	case !c.Known():
		return ""
	case spent < -rounding && c.grants(move) > 0:
		return fmt.Sprintf("clock rose by %s more than its increment", Format(-spent))
	case spent < -rounding:
		return fmt.Sprintf("clock rose by %s", Format(-spent))
	case spent > prev.Left+rounding:
		return fmt.Sprintf("clock fell by %s with its increment, but only %s was left", Format(spent), Format(prev.Left))
	}
	return ""
}

// mismatch names a time spent that is not what the clock says.
func mismatch(spent, fall, grants time.Duration) string {
	if grants == 0 {
		return fmt.Sprintf("emt %s but the clock fell by %s", Format(spent), Format(fall))
	}
	return fmt.Sprintf("emt %s but the clock says %s, increment counted", Format(spent), Format(fall+grants))
}
