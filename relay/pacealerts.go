package relay

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

// What the clocks show when little else happens. Something makes it worth a word, with one ply; it is told
// in the next silence within a few plies if it is so then, in the figures of that moment, those of the running
// clock among them. All numbers are judgement.
const (
	paceWait   = 6 // plies
	paceLife   = 6 // plies for which it stands once told
	quietPlies = 2 // for which nothing else may have been raised
	gapAgain   = 6 // plies within which one clock is not compared with the other again
)

// pace is what may be told of the clocks. Say has the words of this moment; false: it is not so, or no more.
type pace struct {
	what string
	side clock.Side
	ply  int // that made it worth a word, from 1
	gap  bool
	say  func() (prompt.Prompt, bool)
}

// id is the same for the same news, behind the board's and the game's.
func (p *pace) id() string {
	if p.gap {
		return fmt.Sprintf("-%s-%s-%d", paceGap, p.what, p.ply)
	}
	return fmt.Sprintf("-%s-%d", p.what, p.ply)
}

// paceGap marks in an ID that the clocks were compared.
const paceGap = "gap"

// paceConditions lists what was told and stands, and if there is silence the next to tell.
func (b *Board) paceConditions(t time.Time, silent bool) []Alert {
	var out []Alert
	for _, a := range b.Alerts {
		if a.Kind == AlertPace && a.Ply <= len(b.Plies) && len(b.Plies)-a.Ply < paceLife && strings.HasSuffix(a.ID, b.paceMark(a.Ply)) {
			out = append(out, a)
		}
	}
	if !silent || b.Plies == nil || !b.Control.Known() || b.hosts(clock.White) || b.hosts(clock.Black) {
		return out
	}
	compared := b.compared()
	for _, p := range b.paces(t) {
		a := b.alert(AlertPace, p.side, 0, t, prompt.Prompt{})
		a.ID += p.id()
		if p.what == "bothbelow" || p.what == "level" || p.what == "above" {
			a.Side = "" // it is of both
		}
		known := slices.ContainsFunc(b.Alerts, func(was Alert) bool { return strings.HasPrefix(was.ID, a.ID+"-") })
		if known || p.gap && compared && p.what != "slow" {
			continue
		}
		if say, ok := p.say(); ok {
			a.ID += b.paceMark(len(b.Plies))
			say.Evidence += a.Say.Evidence // that a clock is estimated
			a.Say = say
			return append(out, a)
		}
	}
	return out
}

// paceMark changes when the clocks after so many plies turn out to be others.
func (b *Board) paceMark(plies int) string {
	mark := fmt.Sprintf("-%d", plies)
	for _, ply := range b.Plies[max(0, plies-2):plies] {
		mark += fmt.Sprintf("-%d", ply.Timed.Left/time.Second)
	}
	return mark
}

// compared reports whether the clocks have been compared lately, in whatever words.
func (b *Board) compared() bool {
	return b.comparedBy(AlertClockLead, AlertCatchingUp, AlertTimeTrouble)
}

// comparedBy is compared for what paces and these kinds have said.
func (b *Board) comparedBy(kinds ...AlertKind) bool {
	return slices.ContainsFunc(b.Alerts, func(a Alert) bool {
		switch {
		case a.Say.Priority == prompt.Silent || a.Ply <= len(b.Plies)-gapAgain:
			return false
		case a.Kind == AlertPace:
			return strings.Contains(a.ID, "-"+paceGap+"-")
		}
		return slices.Contains(kinds, a.Kind)
	})
}

// paces returns what the last plies made worth a word, the latest first.
func (b *Board) paces(t time.Time) []pace {
	var out []pace
	n := len(b.Plies)
	for i := n - 1; i >= max(2, n-paceWait); i-- {
		if !b.clocked(i) || !b.clocked(i-1) || !b.clocked(n-1) || !b.clocked(n-2) || b.Plies[i].Within == unknownWithin {
			continue
		}
		add := func(what string, side clock.Side, gap bool, say func() (prompt.Prompt, bool)) {
			out = append(out, pace{what, side, i + 1, gap, say})
		}
		b.thinkPaces(i, add)
		b.stockPaces(i, t, add)
		b.roundPaces(i, t, add)
	}
	return out
}

// addPace takes what a ply made worth a word.
type addPace func(what string, side clock.Side, gap bool, say func() (prompt.Prompt, bool))

// clocked reports whether the clock of the ply at an index was read, and its time is known.
func (b *Board) clocked(i int) bool {
	timed := &b.Plies[i].Timed
	return timed.LeftQuality == clock.QualityRead && timed.SpentQuality != clock.QualityNone
}

// lastOf returns the index of a side's last ply, with two plies at least.
func (b *Board) lastOf(side clock.Side) int {
	if n := len(b.Plies); b.moverOf(n-1) == side {
		return n - 1
	}
	return len(b.Plies) - 2
}

// evenPlies reports whether the last n own moves up to the ply at an index have known times, and no time
// was added to the clock with any of them: sums over them tell something.
func (b *Board) evenPlies(i, n int) bool {
	first := i - 2*(n-1)
	if first < 0 {
		return false
	}
	for j := i; j >= first; j -= 2 {
		if b.Plies[j].Timed.SpentQuality == clock.QualityNone || b.rise(j) > 0 {
			return false
		}
	}
	return true
}

// troubled reports that time trouble of a side has been told.
func (b *Board) troubled() bool {
	for _, side := range bothSides {
		if _, told := b.saying(AlertTimeTrouble, side); told || b.Levels[side].Level > 1 {
			return true
		}
	}
	return false
}

// quietBefore reports that of what stands nothing worth a word was raised within the last plies, nor is
// anything now.
func (b *Board) quietBefore(now []Alert) bool {
	for i := range b.Alerts {
		if a := &b.Alerts[i]; a.Say.Priority != prompt.Silent && a.Ply > len(b.Plies)-quietPlies {
			return false
		}
	}
	for i := range now {
		if now[i].Say.Priority != prompt.Silent && !hasAlert(b.Alerts, now[i].ID) {
			return false
		}
	}
	return true
}
