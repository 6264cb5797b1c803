package relay

import (
	"slices"

	"clocktell/relay/opinion"
)

// AsidesMost is how many positions off the game keep what an engine thinks of them.
const AsidesMost = 64

// aside is the opinion on a position of a side line.
type aside struct {
	place   uint64
	opinion *opinion.Opinion
}

// OpinionOff returns what the engine thinks of a position that no game of the show has
// reached; nil: it has not said, or it is forgotten.
func (s *Show) OpinionOff(place uint64) *opinion.Opinion {
	for i := range s.asides {
		if s.asides[i].place == place {
			return s.asides[i].opinion
		}
	}
	return nil
}

// judgeAside keeps the opinions of the first engine on positions off the game; the one
// that came longest ago gives way to those that are too many.
func (s *Show) judgeAside(e EngineAnswered) {
	for _, a := range e.Answers {
		said := a.Opinion
		if a.Ply != OffGame || e.Second || !said.Supersedes(s.OpinionOff(a.Place)) {
			continue
		}
		kept := slices.DeleteFunc(slices.Clone(s.asides), func(o aside) bool { return o.place == a.Place })
		kept = append(kept, aside{a.Place, &said})
		s.asides = kept[max(0, len(kept)-AsidesMost):]
	}
}

// OpinionAtDesk returns what the engine thinks of the position that the desk looks at;
// nil: it has not said.
func (s *Show) OpinionAtDesk() *opinion.Opinion {
	w, _, ok := s.atDesk()
	if !ok {
		return nil
	}
	if w.Ply == OffGame {
		return s.OpinionOff(w.Place)
	}
	return s.Boards[w.Board-1].OpinionAt(w.Ply)
}

// SecondAtDesk returns what the engine thinks of that position that the first is compared
// with, nil: it has not said, or is not asked.
func (s *Show) SecondAtDesk() *opinion.Opinion {
	w, _, ok := s.atDesk()
	if !ok || w.Ply == OffGame {
		return nil
	}
	return s.Boards[w.Board-1].SecondOpinionAt(w.Ply)
}
