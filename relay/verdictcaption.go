package relay

import (
	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

// sayAtDesk does what an act at a desk means for the sentence on the air: the verdict of
// the engine is put there or taken off, and a question takes off what the engine said of
// its board. It returns the sentence that is on the air now for it, "" for none.
func (s *Show) sayAtDesk(act AtDesk) string {
	caption := s.OnAir.Caption
	switch {
	case act.Action == "say-verdict":
		on := caption == nil || caption.sees == ""
		if act.On != nil {
			on = *act.On
		}
		if !on && caption != nil && caption.sees != "" {
			s.OnAir = OnAir{Rev: s.OnAir.Rev + 1}
		}
		if on {
			return s.sayVerdict(act)
		}
	case act.Action == "ask" && caption != nil && caption.Board == s.Desk.Challenge.Place.Board && ofEngine(caption.Kind):
		s.OnAir = OnAir{Rev: s.OnAir.Rev + 1}
	}
	return ""
}

// sayVerdict puts on the air what the engine thinks of the position that viewers see of
// the desk's board. The desk has made sure that there is something to be said.
func (s *Show) sayVerdict(act AtDesk) string {
	board := s.Desk.Place.Board
	fen, _ := s.Desk.Sees(board, s.Games())
	v, err := s.Games().Verdict(board, fen)
	if err != nil {
		return ""
	}
	b := s.Boards[board-1]
	move, _ := b.MoveNumber(len(b.Plies))
	caption := Caption{
		Kind: prompt.KindEngine, Board: board, Side: v.Side, Text: v.Sentence, By: act.Who, At: s.At, sees: fen,
		Source: b.in.Source(b.Number, b.Called(clock.White), b.Called(clock.Black), move),
	}
	if s.plan.CaptionFor > 0 {
		caption.Until = s.At.Add(s.plan.CaptionFor)
	}
	s.OnAir = OnAir{Rev: s.OnAir.Rev + 1, Caption: &caption}
	return caption.Text
}

// holds reports whether a sentence on the air is still true.
func (s *Show) holds(c *Caption) bool {
	if c.sees != "" {
		fen, ok := s.Desk.Sees(c.Board, s.Games())
		return ok && fen == c.sees
	}
	return c.Key == "" || s.Said.holds(c.Key)
}

// ofEngine reports whether a sentence is an engine's.
func ofEngine(kind prompt.Kind) bool { return kind == prompt.KindEngine }
