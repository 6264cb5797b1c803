package tell

import (
	"fmt"

	"clocktell/relay/clock"
)

// fewLegal is so few legal moves that a quick one says nothing; judgement.
const fewLegal = 3

// returned reports whether a side is said to be in preparation after it was said to
// think.
func (s *side) returned() bool { return s.verdict == InPreparation && s.before == Thinking }

// turn says how the verdict came.
func (s *side) turn() string {
	move := own(s.since)
	switch {
	case s.since == 0:
		return ""
	case s.returned():
		return fmt.Sprintf("back in preparation since move %d", move)
	case s.verdict != Thinking:
		return ""
	case s.before != InPreparation:
		return fmt.Sprintf("thinking since move %d", move)
	case s.turned.isTimed() && s.turned.evidence >= littleEvidence:
		return fmt.Sprintf("left preparation on move %d after %s", move, clock.Format(s.turned.move.Spent))
	}
	return fmt.Sprintf("left preparation by move %d", move)
}

// noteTurn keeps the move with which the verdict came, and the first long think.
func (s *side) noteTurn() {
	if s.since == s.ply {
		s.turned = s.last
	}
	if s.firstLong == 0 && s.last.long && s.last.isTimed() {
		s.firstLong, s.firstLongSpent = s.ply, s.last.move.Spent
	}
}

// fastUnknown is Call.FastUnknown.
func (t step) fastUnknown() bool {
	m := t.move
	unknown := m.Known == FirstOutside || m.Known == Outside
	forced := m.Reply != Quiet || m.Rescued || (m.Legal > 0 && m.Legal <= fewLegal)
	return t.outcome == counted && unknown && !forced && t.evidence <= -littleEvidence
}
