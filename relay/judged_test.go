package relay_test

import (
	"testing"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// opined returns an opinion on the position of board 1 after n plies.
func opined(s *relay.Show, n, depth, centipawns int, first bitboard.Move) relay.Judged {
	return relay.Judged{Ply: n, Place: s.Boards[0].Place(n).Hash(), Opinion: opinion.Opinion{
		Depth: depth, Lines: []opinion.Line{{Score: opinion.Score{Centipawns: centipawns}, Depth: depth, Moves: []bitboard.Move{first}}},
	}}
}

// TestTwoEnginesSideBySide: what the engines think is kept apart, prompts hear the first,
// and a board knows where they are not of one mind.
func TestTwoEnginesSideBySide(t *testing.T) {
	s := deskStage(t)
	for n := range 2 {
		s.Apply(relay.EngineAnswered{At: s.Now, Board: 1, Answers: []relay.Judged{opined(s.Show, n, 12, 90, 1)}})
		s.Apply(relay.EngineAnswered{At: s.Now, Board: 1, Second: true, Answers: []relay.Judged{opined(s.Show, n, 8, -20, 2)}})
	}
	b := s.Board(1)
	for n := range 2 {
		first, second := b.OpinionAt(n), b.SecondOpinionAt(n)
		if first == nil || second == nil || first.Depth != 12 || second.Depth != 8 || !b.EnginesDiffer(n) {
			t.Errorf("after %d plies: %+v and %+v, differ: %v", n, first, second, b.EnginesDiffer(n))
		}
	}
	if b.OpinionAt(2) != nil || b.SecondOpinionAt(2) != nil || b.EnginesDiffer(2) {
		t.Error("of a position that nobody has judged there is an opinion")
	}
	s.Apply(relay.EngineAnswered{At: s.Now, Board: 1, Second: true, Answers: []relay.Judged{{Ply: relay.OffGame, Place: 77, Opinion: *b.OpinionAt(0)}}})
	if s.Show.OpinionOff(77) != nil {
		t.Error("of a side line the opinion of the second engine is kept for that of the first")
	}
}

// TestEnginesOfTheShow: each engine has its own state.
func TestEnginesOfTheShow(t *testing.T) {
	s := deskStage(t)
	s.Apply(relay.EngineChanged{At: s.Now, Engine: relay.Engine{Name: "Sounding 3", Since: s.Now}})
	s.Apply(relay.EngineChanged{At: s.Now, Second: true, Engine: relay.Engine{Name: "Plumb 1", Fault: "gone", Restarts: 2}})
	if s.Show.Engine != (relay.Engine{Name: "Sounding 3", Since: s.Now}) || s.Show.Second.Name != "Plumb 1" || s.Show.Second.Restarts != 2 {
		t.Errorf("engines %+v and %+v", s.Show.Engine, s.Show.Second)
	}
}
