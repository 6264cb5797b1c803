package prompt

import "time"

// Budget is what a side's time still has to do, and where it leads.
type Budget struct {
	Move      time.Duration // for each own move still expected
	Usual     time.Duration // its usual think, 0 if it had none yet
	ToControl int           // own moves to the control, 0: none
	Below     time.Duration // the clock that AtMove is about
	AtMove    int           // own move with which the clock gets there at this pace, 0: never
	From, To  int           // own moves between which that likely is; To 0: maybe never
	NoTrouble bool          // at this pace it does not come to trouble
}

// Lead is by how much one clock is ahead of the other.
type Lead struct {
	By          time.Duration
	Mine, Yours time.Duration // budget of the leader and of the other for each own move still expected
	Moves       int           // of the leader's budget that it is worth, 0: not one
}

// Ahead is where a clock is going: what it will show after a move, likely between Low
// and High.
type Ahead struct {
	Move              int
	Middle, Low, High time.Duration
}

// LongThink: a side has thought on its move for longer than its pace explains.
// Usual is its usual think, 0 if it had none yet.
func LongThink(in Language, name string, move int, limit, usual time.Duration) Prompt {
	return in.LongThink(name, move, limit, usual).said(KindClock, Soon)
}

// TimeTrouble: what is left is too little for what is still to come. Limit is the
// clock below which the level, 1 to 3, holds.
func TimeTrouble(in Language, name string, level int, limit time.Duration, b Budget) Prompt {
	priority := Now
	switch level {
	case 1:
		priority = Background
	case 2:
		priority = Soon
	}
	return in.TimeTrouble(name, level, limit, b).said(KindClock, priority)
}

// OnIncrement: every move takes about what it brings, or with a delay what it leaves free.
func OnIncrement(in Language, name string, delay bool, b Budget) Prompt {
	return in.OnIncrement(name, delay, b).said(KindClock, Soon)
}

// FlagNear: there is hardly the time for a quick move.
func FlagNear(in Language, name string, limit time.Duration) Prompt {
	return in.FlagNear(name, limit).said(KindClock, Now)
}

// ToControl: a side short of time nears the control, made with a move.
func ToControl(in Language, name string, move int, b Budget) Prompt {
	return in.ToControl(name, move, b).said(KindClock, Soon)
}

// ClockLead: one side has much more time than the other.
func ClockLead(in Language, name string, l Lead) Prompt {
	return in.ClockLead(name, l).said(KindClock, Background)
}

// overtaken is by how much a clock is ahead that has not only caught up.
const overtaken = 10 * time.Second

// CatchingUp: the clock that was behind by most, after a move, is so by no more than half
// of it; by is negative when it is ahead.
func CatchingUp(in Language, name string, move int, most, by time.Duration) Prompt {
	return in.CatchingUp(name, move, most, by).said(KindClock, Background)
}

// ClockDoubtful: the readings of a clock contradict each other, with a move such as 23.Qh4.
func ClockDoubtful(in Language, name, move, doubt string) Prompt {
	return in.ClockDoubtful(name, move, doubt).said(KindClock, Background)
}

// TimeAdded: a clock was put up by about so much with a move such as 23.Qh4, and has gone
// on evenly since. Doubt is what showed it; again, that it was put up before.
func TimeAdded(in Language, name, move string, by time.Duration, doubt string, again bool) Prompt {
	return in.TimeAdded(name, move, by, doubt, again).said(KindClock, Background)
}

// FeedStale: nothing has come for so long that the picture may be behind.
func FeedStale(in Language, feed string, silence time.Duration) Prompt {
	return in.FeedStale(feed, silence).said(KindFeed, Now)
}
