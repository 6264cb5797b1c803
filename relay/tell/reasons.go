package tell

import (
	"fmt"
	"math"
	"time"

	"clocktell/relay/clock"
)

// Thresholds of wording, in log odds or chances in a hundred; judgement.
const (
	littleEvidence = 1 // below this a time "says little"
	changeLeast    = 5 // a smaller change is not worth a sentence
	quickLeast     = 3 // moves in a row worth naming
	coarseStep     = 5 * time.Second
)

// reasons returns what speaks for a side's probability, strongest first: its last
// move, the run it ends, the clock, the reference, and what is wrong with the feed.
func (f *Filter) reasons(s *side) []string {
	if s.ply == 0 {
		return nil
	}
	list := make([]string, 0, 5)
	for _, reason := range []string{
		s.last.reason(), s.runReason(), f.clockReason(s), s.knownReason(), s.last.coarseReason(),
	} {
		if reason != "" {
			list = append(list, reason)
		}
	}
	return list
}

// reason says what the last own move is worth.
func (t step) reason() string {
	m, spent := t.move, span(t.move.Spent)
	switch {
	case t.outcome == missing:
		return fmt.Sprintf("no time for move %d", own(m.Ply))
	case t.outcome == frozen:
		return fmt.Sprintf("%s on a low clock says nothing of preparation", spent)
	case t.outcome == onlyMove:
		return fmt.Sprintf("%s for the only legal move says nothing", spent)
	case math.Abs(t.evidence) < littleEvidence:
		return fmt.Sprintf("%s %s says little", spent, m.Reply.onReply())
	case t.evidence > 0 && t.usual > 0 && times(m.Spent, t.usual) != "":
		return fmt.Sprintf("%s, %s its median of %s", spent, times(m.Spent, t.usual), span(max(t.usual, time.Second)))
	case t.evidence > 0:
		return fmt.Sprintf("%s %s is a think", spent, m.Reply.onReply())
	}
	return fmt.Sprintf("%s %s is preparation's pace", spent, m.Reply.onReply())
}

// runReason names a run of quick moves.
func (s *side) runReason() string {
	if s.quick < quickLeast {
		return ""
	}
	return fmt.Sprintf("%d quick moves in a row, %s in all", s.quick, clock.Format(s.quickIn))
}

// clockReason states the clock against its start. It is a fact beside the
// probability: its readings are counted already, move by move.
func (f *Filter) clockReason(s *side) string {
	start := f.of(s).Start()
	if s.left == 0 || start == 0 || len(f.of(s).Periods) > 1 {
		return ""
	}
	switch diff := s.left - start; {
	case diff >= time.Second:
		return fmt.Sprintf("clock %s above its start", clock.Format(diff))
	case diff <= -time.Second:
		return fmt.Sprintf("clock %s below its start", clock.Format(-diff))
	}
	return "clock as at its start"
}

// knownReason says how the last own move stands to the reference.
func (s *side) knownReason() string {
	number, spent := own(s.ply), span(s.last.move.Spent)
	switch {
	case s.last.fastUnknown() && s.last.move.Known == FirstOutside:
		return fmt.Sprintf("move %d is the first outside the reference games, and took %s", number, spent)
	case s.last.fastUnknown():
		return fmt.Sprintf("%s outside the reference games, the last in %s with nothing to hurry it", moves(s.outside), spent)
	}
	switch s.last.move.Known {
	case InReference:
		return fmt.Sprintf("move %d is in the reference games", number)
	case FirstOutside:
		return fmt.Sprintf("move %d is the first outside the reference games", number)
	case Outside:
		return fmt.Sprintf("%s outside the reference games", moves(s.outside))
	}
	return ""
}

// coarseReason says that a time is less exact than it looks.
func (t step) coarseReason() string {
	switch {
	case !t.isTimed():
		return ""
	case t.move.Quality == clock.QualityEstimated:
		return "time estimated from receipts"
	case t.move.Resolution >= coarseStep:
		return fmt.Sprintf("clock read in steps of %s: coarse", span(t.move.Resolution))
	}
	return ""
}

// changed says why the last own move moved the probability.
func (s *side) changed() string {
	from, to := inHundred(s.last.before), inHundred(s.thinking)
	if s.last.outcome == nothing || max(from-to, to-from) < changeLeast {
		return ""
	}
	return fmt.Sprintf("%s: thinking %d → %d in 100", s.last.cause(to > from), from, to)
}

// cause names the move that moved the probability. Where its time says nothing, or
// points the other way, the number of the move did it.
func (t step) cause(rose bool) string {
	number := own(t.move.Ply)
	switch {
	case t.outcome == missing:
		return fmt.Sprintf("no time for move %d, and fewer are prepared that deep", number)
	case t.outcome == onlyMove:
		return fmt.Sprintf("move %d was the only one, and fewer are prepared that deep", number)
	case rose && t.evidence < littleEvidence:
		return fmt.Sprintf("%s on move %d says little, and fewer are prepared that deep", clock.Format(t.move.Spent), number)
	case t.usual == 0:
		return fmt.Sprintf("%s on move %d", clock.Format(t.move.Spent), number)
	}
	return fmt.Sprintf("%s on move %d after a median of %s", clock.Format(t.move.Spent), number, clock.Format(t.usual))
}

// runningReason says what a clock still running is worth.
func runningReason(elapsed, usual time.Duration, timed int) string {
	if timed == 0 || times(elapsed, usual) == "" {
		return fmt.Sprintf("over %s on this move", span(stepped(elapsed)))
	}
	return fmt.Sprintf("over %s on this move, its median is %s", span(stepped(elapsed)), span(max(usual, time.Second)))
}

// stepped cuts a running time to a step that people would say, so that the
// sentence changes now and then and not with every second.
func stepped(elapsed time.Duration) time.Duration {
	switch {
	case elapsed < 5*time.Second:
		return elapsed.Truncate(time.Second)
	case elapsed < 10*time.Second:
		return 5 * time.Second
	case elapsed < time.Minute:
		return elapsed.Truncate(10 * time.Second)
	case elapsed < 5*time.Minute:
		return elapsed.Truncate(30 * time.Second)
	}
	return elapsed.Truncate(time.Minute)
}
