package relay

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

// consistentReadings is how many readings of a side without a contradiction make its
// clock believed again.
const consistentReadings = 2

// addedSteady is how many moves in a row a clock must have been put up for it to be no news any more:
// the feed grants more than its control says. Judgement.
const addedSteady = 3

// addedNews is the least that must have been added to a clock to be worth a word. Judgement.
const addedNews = 30 * time.Second

// doubtCondition holds while one of a side's last readings contradicts the others. A
// clock that has jumped up may be wrong or have been put up (FIDE Laws 6.10.2): its next
// reading tells.
func (b *Board) doubtCondition(side clock.Side, t time.Time) []Alert {
	var out []Alert
	seen, later := 0, -1 // the index of the reading behind it
	for i := len(b.Plies) - 1; i >= 0 && seen < consistentReadings; i-- {
		ply := &b.Plies[i]
		if b.moverOf(i) != side || ply.Reading == (clock.Reading{}) {
			continue
		}
		seen++
		if rise := b.rise(i); ply.Timed.Doubt != "" && (rise == 0 || rise >= startFar) {
			out = append(out, b.doubtAlert(i, later, t))
			if rise == 0 || later >= 0 {
				break // of one that may have been put up again the last time it was is still to tell
			}
		}
		later = i
	}
	return out
}

// doubtAlert is of a contradiction with the ply at index i, with the next reading of the
// side at the index later, -1 if that is still to come.
func (b *Board) doubtAlert(i, later int, t time.Time) Alert {
	ply, side := &b.Plies[i], b.moverOf(i)
	alert := b.alert(AlertClockDoubtful, side, 0, t, prompt.ClockDoubtful(b.in, b.Called(side), b.moveText(i), ply.Timed.Doubt))
	rise := b.rise(i)
	switch {
	case rise > 0 && later < 0:
		alert.Say.Priority = prompt.Silent // was it put up?
		alert.ID += "-rise"
	case rise > 0 && b.evenly(i, later, rise):
		alert = b.alert(AlertTimeAdded, side, 0, t, prompt.TimeAdded(b.in, b.Called(side), b.moveText(i), rise, ply.Timed.Doubt, b.risen(side, 0, i)))
		alert.ID = fmt.Sprintf("%s-%d", alert.ID, i+1)
		if rise < addedNews || b.rises(i) >= addedSteady {
			alert.Say.Priority = prompt.Silent
		}
	}
	alert.Ply = i + 1
	return alert
}

// rises returns with how many own moves in a row, up to the ply at index i, a clock rose.
func (b *Board) rises(i int) int {
	n := 0
	for ; i >= 0 && b.rise(i) >= startFar; i -= 2 {
		n++
	}
	return n
}

// evenSlack is by how much the next move may have taken another time than the clock says
// and the clock still goes on evenly. Judgement.
const evenSlack = 15 * time.Second

// evenly reports whether a clock that rose at the ply at index i has gone on from there:
// it rose again, or the move behind it took about what it says. Where nobody knows how
// long that took, the clock has not lost half of the rise.
func (b *Board) evenly(i, later int, rise time.Duration) bool {
	next := &b.Plies[later].Timed
	if waited := b.waited(later); waited.OK && next.Doubt == "" {
		return (next.Spent - waited.D).Abs() <= evenSlack
	}
	return b.rise(later) > 0 || next.Doubt == "" && b.Plies[i].Timed.Left-next.Left < rise/2
}
