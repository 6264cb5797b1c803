package relay_test

import (
	"testing"

	"clocktell/relay"
	"clocktell/relay/prompt"
	"clocktell/relay/relaytest"
)

// answer is what a reference says of the positions of board 1, by ply.
func answer(s *relaytest.Stage, games map[int]relay.Known) relay.ReferenceAnswered {
	b := s.Board(1)
	e := relay.ReferenceAnswered{At: s.Now, Board: 1, Game: b.Game}
	for _, asked := range b.Unanswered(60) {
		known, ok := games[asked.Ply]
		if ok {
			e.Answers = append(e.Answers, relay.KnownPosition{Ply: asked.Ply, Place: asked.Place, Known: known})
		}
	}
	return e
}

var reached = map[int]relay.Known{
	0: {Games: 300}, 1: {Games: 280}, 2: {Games: 214},
	3: {Games: 214, Last: relay.KnownGame{White: "Abenov, Temir", Black: "Brandvold, Signe", Event: "Open", Year: 2021, Went: "Nc6"},
		Moves: []relay.KnownMove{{SAN: "Nc6", Games: 200}}},
	4: {},
}

func alertOf(b *relay.Board, kind relay.AlertKind) (relay.Alert, bool) {
	for _, a := range b.Alerts {
		if a.Kind == kind {
			return a, true
		}
	}
	return relay.Alert{}, false
}

// TestNovelty: the first move that no game counted played is told with how many came so
// far and how the last of them went on, and cleared after six plies.
func TestNovelty(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Moves: "e4"}
	s.Take(game.PGN())
	game.Moves = "e4 e5 Nf3 h5"
	s.Take(game.PGN())
	s.Apply(answer(s, reached))
	if got := s.Board(1).Novelty(); got != 3 {
		t.Fatalf("the novelty is at index %d, want 3", got)
	}
	a, ok := alertOf(s.Board(1), relay.AlertNovelty)
	if !ok || a.Side != "black" || a.Ply != 4 {
		t.Fatalf("alert %+v, %v", a, ok)
	}
	if want := "Move two is new: of over 200 games here, none played h5."; a.Say.Text != want {
		t.Errorf("says %q, want %q", a.Say.Text, want)
	}
	if want := "most played: Nc6 200 of 214; last game: Abenov, Temir – Brandvold, Signe, Open 2021, Nc6"; a.Say.Evidence != want {
		t.Errorf("evidence %q, want %q", a.Say.Evidence, want)
	}
	game.Moves += " d4 d5 Nc3 Nc6 a3"
	s.Take(game.PGN())
	if _, ok := alertOf(s.Board(1), relay.AlertNovelty); !ok {
		t.Error("cleared before six plies have passed")
	}
	game.Moves += " a6"
	s.Take(game.PGN())
	if _, ok := alertOf(s.Board(1), relay.AlertNovelty); ok {
		t.Error("not cleared after six plies")
	}
}

// TestTranspositionIsNoNovelty: what counts is the position, not the move that led to it.
func TestTranspositionIsNoNovelty(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Moves: "d4"}.PGN())
	s.Take(relaytest.Game{Moves: "d4 Nf6 c4"}.PGN())
	s.Apply(answer(s, map[int]relay.Known{0: {Games: 9}, 1: {Games: 9}, 2: {Games: 9, Moves: []relay.KnownMove{{SAN: "Nf3", Games: 9}}}, 3: {Games: 4}}))
	if got := s.Board(1).Novelty(); got != -1 {
		t.Errorf("the novelty is at index %d, want none", got)
	}
	first, second := relaytest.NewStage(), relaytest.NewStage()
	first.Take(relaytest.Game{Moves: "d4 Nf6 c4 e6"}.PGN())
	second.Take(relaytest.Game{Moves: "c4 e6 d4 Nf6"}.PGN())
	if a, b := first.Board(1).Place(4).Hash(), second.Board(1).Place(4).Hash(); a != b {
		t.Errorf("one position has the hashes %x and %x", a, b)
	}
}

// TestAnswerForAnotherMove: an answer that comes after its move was corrected is dropped,
// and the new position is asked about.
func TestAnswerForAnotherMove(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Moves: "e4"}.PGN())
	s.Take(relaytest.Game{Moves: "e4 e5"}.PGN())
	late := answer(s, reached)
	s.Take(relaytest.Game{Moves: "e4 c5"}.PGN())
	s.Apply(late)
	b := s.Board(1)
	if b.KnownAt(1) == nil || b.KnownAt(2) != nil {
		t.Errorf("after 1. e4: %v, after the corrected move: %v", b.KnownAt(1), b.KnownAt(2))
	}
	if asked := b.Unanswered(60); len(asked) != 1 || asked[0].Ply != 2 {
		t.Errorf("asks %v, want ply 2 alone", asked)
	}
	if asked := b.Unanswered(1); len(asked) != 0 {
		t.Errorf("asks %v beyond the depth of the reference", asked)
	}
}

// TestAnswerOfAnotherGame: an answer for the game before says nothing of this one, and
// one for a board that is not there does no harm.
func TestAnswerOfAnotherGame(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Moves: "e4"}.PGN())
	e := answer(s, reached)
	e.Game++
	s.Apply(e)
	e.Board, e.Game = 7, 0
	s.Apply(e)
	if s.Board(1).KnownAt(0) != nil {
		t.Error("an answer of another game was taken")
	}
}

// TestFoundUnderWay: what happened before anybody listened is no news.
func TestFoundUnderWay(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Moves: "e4 e5 Nf3 h5"}.PGN())
	s.Apply(answer(s, reached))
	if _, ok := alertOf(s.Board(1), relay.AlertNovelty); ok {
		t.Error("a novelty of before the show is told as news")
	}
	if s.Board(1).Novelty() != 3 {
		t.Error("but it is one")
	}
}

// TestRare: the last few games are worth a word before the novelty comes.
func TestRare(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Moves: "e4"}.PGN())
	s.Take(relaytest.Game{Moves: "e4 a6"}.PGN())
	s.Apply(answer(s, map[int]relay.Known{0: {Games: 9}, 1: {Games: 6}, 2: {Games: 2, Last: relay.KnownGame{White: "A", Black: "B", Year: 2020, Went: "d4"}}}))
	a, ok := alertOf(s.Board(1), relay.AlertRare)
	if want := "Only two games have come to this position."; !ok || a.Say.Text != want || a.Say.Priority != prompt.Background {
		t.Errorf("%v, %+v", ok, a.Say)
	}
	if want := "after move 1, a6; last: A – B 2020, d4"; a.Say.Evidence != want {
		t.Errorf("evidence %q, want %q", a.Say.Evidence, want)
	}
}

// TestReferenceHoldsPreparation: a move that the reference knows holds the tell back, the
// first it does not lets it go.
func TestReferenceHoldsPreparation(t *testing.T) {
	play := func(known map[int]relay.Known) float64 {
		s := relaytest.NewStage()
		game := relaytest.Game{Control: "900+10", Moves: "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6", Clocks: []string{
			"0:15:06", "0:15:06", "0:15:12", "0:15:12", "0:15:18", "0:15:18", "0:15:22", "0:15:22",
		}}
		s.Take(game.PGN())
		if known != nil {
			s.Apply(answer(s, known))
		}
		return s.Board(1).Calls[0].Thinking
	}
	in, out := map[int]relay.Known{}, map[int]relay.Known{0: {Games: 9}}
	for ply := range 9 {
		in[ply] = relay.Known{Games: 9}
	}
	for ply := 1; ply < 9; ply++ {
		out[ply] = relay.Known{}
	}
	without, inside, outside := play(nil), play(in), play(out)
	if !(inside < without && without < outside) {
		t.Errorf("thinking: %.3f in the reference, %.3f without one, %.3f outside; want them to rise", inside, without, outside)
	}
}

// TestAnotherReference: what one reference has answered does not stand when another is
// attached, as after a restart with a filter; and the fold over the answers alone, as the
// journal makes it, comes to the same.
func TestAnotherReference(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Moves: "e4"}.PGN())
	all, some := relay.Reference{Games: 300, Depth: 60}, relay.Reference{Games: 300, Depth: 60, Counted: "since 2010"}
	first := answer(s, map[int]relay.Known{0: {Games: 300}, 1: {Games: 280}})
	first.From = all.Name()
	s.Apply(relay.ReferenceAttached{At: s.Now, Reference: all})
	s.Apply(first)
	s.Apply(relay.ReferenceAttached{At: s.Now, Reference: all})
	if len(s.Board(1).Unanswered(60)) != 0 {
		t.Fatal("the same reference is asked again")
	}
	folded := *s
	s.Apply(relay.ReferenceAttached{At: s.Now, Reference: some})
	if asked := s.Board(1).Unanswered(60); len(asked) != 2 {
		t.Fatalf("asks %v of another reference, want both positions", asked)
	}
	second := answer(s, map[int]relay.Known{0: {Games: 90}, 1: {Games: 70}})
	second.From = some.Name()
	s.Apply(second)
	folded.Apply(second)
	for n := range 2 {
		if live, again := s.Board(1).KnownAt(n), folded.Board(1).KnownAt(n); live == nil || again == nil || live.Games != again.Games || live.Games > 90 {
			t.Errorf("after %d plies: %+v, folded %+v", n, live, again)
		}
	}
}

// TestSetUpBoard: a board that begins at move 29 is asked about up to where games are
// followed, and not so many plies beyond: there the reference knows nothing of anything.
func TestSetUpBoard(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Moves: "Kd2 Kd7 Kd3 Kd6"}
	s.Take(tagged(game.PGN(), `SetUp "1"`, `FEN "4k3/8/8/8/8/8/4P3/4K3 w - - 0 30"`))
	asked := s.Board(1).Unanswered(60)
	if len(asked) != 3 || asked[2].Ply != 2 {
		t.Errorf("asks %v, want the start at ply 58 of a game, and two plies", asked)
	}
}
