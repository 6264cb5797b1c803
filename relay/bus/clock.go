package bus

import (
	"slices"
	"time"

	"clocktell/relay"
)

// Limits of following the leader's clock.
const (
	samplesMost = 20                   // beats that the estimate is of: ten seconds
	stepLeast   = 5 * time.Millisecond // by less our clock is not set
)

// clockOf sets show time by that of the leader. A beat comes some time after it was sent,
// never before: of several, the one that shows our clock furthest behind tells most.
type clockOf struct {
	leader string
	behind []time.Duration // of our clock at the leader's last beats, in show time
}

// follow takes what has just come from the leader.
func (c *clockOf) follow(o *Options, leader string, events []relay.Event) {
	if leader != c.leader {
		c.leader, c.behind = leader, nil // another clock
	}
	for _, e := range events {
		if beat, ok := e.(relay.TimePassed); ok {
			c.sample(o, saidAt(beat))
		}
	}
}

func (c *clockOf) sample(o *Options, theirs time.Time) {
	ours := o.Now()
	c.behind = append(c.behind, theirs.Sub(ours))
	c.behind = c.behind[max(0, len(c.behind)-samplesMost):]
	step := slices.Max(c.behind)
	if step.Abs() < stepLeast {
		return
	}
	o.Set(ours.Add(step))
	for i := range c.behind {
		c.behind[i] -= step
	}
}

// saidAt is what time it was where an event comes from, when it was sent.
func saidAt(e relay.Event) time.Time {
	if beat, ok := e.(relay.TimePassed); ok {
		return beat.At.Add(relay.Lag)
	}
	return e.When()
}
