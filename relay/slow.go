package relay

import "time"

// takeSlow takes what took longer than a move may wait, and comes back as an event: the
// reference, the engine, the opening names.
func (s *Show) takeSlow(event Event, at time.Time) {
	switch e := event.(type) {
	case ReferenceAttached:
		if e.Reference != s.Reference {
			s.HeadRev++
		}
		s.Reference = e.Reference
		for i, b := range s.Boards {
			s.setBoard(i, b.asksAnew(e.Reference, at))
		}
	case ReferenceAnswered:
		if i := e.Board - 1; i >= 0 && i < len(s.Boards) {
			e.At = at
			s.setBoard(i, s.Boards[i].answered(e))
		}
	case EngineChanged:
		if e.Second {
			s.Second = e.Engine
		} else {
			s.Engine = e.Engine
		}
		s.FeedsRev++
	case EngineAnswered:
		if i := e.Board - 1; i >= 0 && i < len(s.Boards) {
			e.At = at
			s.judgeAside(e)
			s.setBoard(i, s.Boards[i].judged(e))
		}
	case OpeningsLoaded:
		s.defaults.Book = e.Book
		s.nameOpenings(at)
	}
}

func (s *Show) nameOpenings(at time.Time) {
	for i, b := range s.Boards {
		named := *b
		named.Opening = s.defaults.opening(b)
		if named.Opening != b.Opening {
			named.Keep = len(b.Plies)
			s.setBoard(i, b.succeeded(&named, at, false))
		}
	}
}
