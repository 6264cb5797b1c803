package prompt

import "clocktell/relay/remark"

// MarkKind is how a mark is drawn.
type MarkKind string

// The kinds of marks.
const (
	MarkLook   MarkKind = "look"   // the man spoken of, or a square
	MarkDanger MarkKind = "danger" // from an attacker to its target
	MarkGuard  MarkKind = "guard"  // from a defender to its man
	MarkPlan   MarkKind = "plan"   // a move on offer
)

// Mark is something to point at on the board while a prompt is said.
type Mark struct {
	Kind MarkKind
	From string // a square such as "e4"; "" for a mark of one square
	To   string
}

// Position says what stands on the board. Name is how the side of the remark is called.
func Position(in Language, r *remark.Remark, name string) Prompt {
	p := in.Position(r, name).said(KindFacts, priorities[r.Priority()])
	p.Marks = marksOf(r)
	return p
}

var priorities = [...]Priority{remark.Now: Now, remark.Soon: Soon, remark.Background: Background}

// marksOf returns what a remark points at.
func marksOf(r *remark.Remark) []Mark {
	var m marks
	on := r.Squares()
	switch r.Rule {
	case remark.MateHere, remark.MateThreatened, remark.MateForced:
		m.line(MarkPlan, on[0], on[1])
		m.look(on[2])
	case remark.ForkOffered:
		m.line(MarkPlan, on[0], on[1])
		m.lines(MarkDanger, on[1], on[2:])
	case remark.SkewerOffered:
		m.line(MarkPlan, on[0], on[1])
		m.line(MarkDanger, on[1], on[3])
	case remark.DiscoveryOffered:
		m.line(MarkPlan, on[0], on[1])
		m.line(MarkDanger, on[2], on[3])
		m.lines(MarkDanger, on[1], on[4:])
	case remark.DoubleDuty:
		m.look(on[0])
		m.lines(MarkGuard, on[0], on[1:])
	case remark.GuardRemovable:
		m.line(MarkGuard, on[0], on[1])
		m.line(MarkPlan, on[2], on[0])
	case remark.PieceHangs, remark.PieceTrapped:
		m.look(on[0])
		m.line(MarkDanger, on[1], on[0])
	case remark.TrapOffered, remark.NoSquareLeft:
		m.look(on[0])
		m.line(MarkPlan, on[1], on[2])
	default:
		m.standing(r)
	}
	return m
}

type marks []Mark

func (m *marks) look(squares ...remark.Square) {
	for _, s := range squares {
		*m = append(*m, Mark{Kind: MarkLook, To: s.String()})
	}
}

func (m *marks) line(kind MarkKind, from, to remark.Square) {
	*m = append(*m, Mark{Kind: kind, From: from.String(), To: to.String()})
}

func (m *marks) lines(kind MarkKind, from remark.Square, to []remark.Square) {
	for _, s := range to {
		m.line(kind, from, s)
	}
}

// standing marks what is said of how men stand.
func (m *marks) standing(r *remark.Remark) {
	on := r.Squares()
	switch r.Rule {
	case remark.PinAttacked:
		m.look(on[0])
		m.line(MarkDanger, on[1], on[2])
		m.line(MarkDanger, on[3], on[0])
	case remark.PinLasting:
		m.look(on[0])
		m.line(MarkDanger, on[1], on[2])
	case remark.CastlingPrevented:
		m.look(on[0])
		m.line(MarkDanger, on[2], on[1])
		m.look(on[3:]...)
	case remark.CentreOpen, remark.FileToKing:
		m.look(on...)
	case remark.KnightOutpost:
		m.look(on[0])
		for _, pawn := range on[1:] {
			m.line(MarkGuard, pawn, on[0])
		}
	case remark.PasserProtected, remark.PasserBacked:
		m.look(on[0])
		m.line(MarkGuard, on[1], on[0])
	case remark.Hole:
		m.look(on[0])
		m.line(MarkPlan, on[2], on[0])
	case remark.BackRank:
		m.look(on[0])
		m.look(on[1])
	case remark.BackwardAttacked, remark.IsolatedAttacked:
		m.look(on[0])
		m.line(MarkDanger, on[1], on[0])
	default:
		m.look(on...)
	}
}
