package tell

import (
	"time"

	"clocktell/relay/clock"
)

// Trouble is a side's time trouble, by these levels:
//
//	1  the clock will fall below level 2 or a tenth of the base time, whichever is
//	   more, within ten own moves, more likely than not; or the budget is below
//	   half the pace of the control
//	2  the clock is below a minute or six increments, whichever is more
//	3  the clock is below a third of that; or the side lives on the increment: its
//	   last three moves took about one increment each and three are not left
//
// Limits shrink for controls so short that a minute is more than a fifth of what the
// side started with. A delay counts as an increment; of it, moves may leave as much
// unused as they like. A level ends when the clock, less a fifth, would no longer make
// it: 25 % above. So do OnIncrement and FlagNear, each of which makes level 3.
type Trouble struct {
	Level int // 0 none, 1 to 3
	// OnIncrement says that the side plays on its increment, or delay.
	OnIncrement bool
	Limit       time.Duration // clock below which the level holds, for 0 and 1 as Below
	Budget      time.Duration // for each own move still expected
	Usual       time.Duration // median of the last moves thought out, 0 if none
	ToControl   int           // own moves to the control, 0: none
	Chance      float64       // that the clock falls below Below within ten own moves
	Forecast    bool          // enough own moves were timed for Chance and AtMove to count
	Below       time.Duration // clock the forecast is about
	AtMove      int           // own move with which the clock gets there at this pace, 0: never
	From, To    int           // own moves between which that is, four times in five; To beyond any game: maybe never
	FlagAt      time.Duration // clock below which the flag is near
	FlagNear    bool          // there is hardly the time for a quick move
	Reason      string        // why the level holds, "" for 0
	Evidence    string        // figures
}

// Trouble returns how a side stands with left on its clock. Was is the level that
// stood before.
func (f Filter) Trouble(who clock.Side, left time.Duration, was int) Trouble {
	return f.TroubleAfter(who, left, Trouble{Level: was})
}

// TroubleAfter returns the same where all that stood before is known, so that
// OnIncrement and FlagNear do not come and go with every second either.
func (f Filter) TroubleAfter(who clock.Side, left time.Duration, was Trouble) Trouble {
	s := &f.sides[who&1]
	left = max(0, left)
	t := f.outlook(s, left)
	stood := part(left, 1/troubleClear)
	for level := 3; level >= 1; level-- {
		if f.holds(s, level, left) || was.Level >= level && f.holds(s, level, stood) {
			t.Level = level
			break
		}
	}
	t.OnIncrement = f.livesOnIncrement(s, left) || was.OnIncrement && f.livesOnIncrement(s, stood)
	t.FlagNear = left < t.FlagAt || was.FlagNear && stood < t.FlagAt
	if t.OnIncrement || t.FlagNear {
		t.Level = 3
	}
	if t.Level > 1 {
		t.Limit = troubleAt(f.of(s), t.Level)
	}
	t.Reason, t.Evidence = f.troubleReason(s, t, left), t.figures()
	return t
}

// holds reports whether a clock makes a level.
func (f *Filter) holds(s *side, level int, left time.Duration) bool {
	switch level {
	case 3:
		return left < troubleAt(f.of(s), 3) || f.livesOnIncrement(s, left)
	case 2:
		return left < troubleAt(f.of(s), 2)
	}
	if !f.of(s).Known() {
		return false
	}
	forecast := s.drift.moves >= troubleFrom && f.chance(s, left) >= troubleChance
	return forecast || f.budget(s, left).Seconds() < troubleBudget*f.p.pace(f.of(s), own(s.ply)+1)
}

// troubleAt returns the clock below which level 2 or 3 holds.
func troubleAt(c clock.Control, level int) time.Duration {
	limit := max(troubleLimit, troubleIncrements*allowance(c, 1))
	switch {
	case c.Start() > 0:
		limit = min(limit, part(c.Start(), troubleShare))
	case c.Known():
		limit = troubleIncrements * allowance(c, 1) // all time comes from increments
	}
	if level == 3 {
		return limit / severePart
	}
	return limit
}

// livesOnIncrement reports whether the last moves each took about the increment, or no
// more than the delay gives besides.
func (f *Filter) livesOnIncrement(s *side, left time.Duration) bool {
	c := f.of(s)
	inc, all := c.Increment(own(s.ply)+1), allowance(c, own(s.ply)+1)
	if all == 0 || left >= livingClock*all {
		return false
	}
	var buf [kept]int32
	got := s.paces.last(&buf, livingMoves, false)
	for _, ms := range got {
		spent := time.Duration(ms) * time.Millisecond
		if spent < part(inc, 1-livingNear) || spent > part(all, 1+livingNear) {
			return false
		}
	}
	return len(got) == livingMoves
}

// budget returns the time for each own move still expected, increment and delay
// counted.
func (f *Filter) budget(s *side, left time.Duration) time.Duration {
	made := own(s.ply)
	c := f.of(s)
	moves := c.MovesToControl(made)
	if moves == 0 {
		moves = max(movesLeftLeast, int(f.p.movesPerGame)-made)
	}
	return left/time.Duration(moves) + allowance(c, made+1)
}
