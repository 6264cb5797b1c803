package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// enter makes entries that must be taken.
func enter(t *testing.T, s *relaytest.Stage, entries ...relay.ByHand) {
	t.Helper()
	for _, e := range entries {
		e.Board = 1
		if refused := s.Enter(e); refused != "" {
			t.Fatalf("%s %s%s refused: %s", e.Act, e.SAN, e.Text, refused)
		}
	}
}

func lastMove(s *relaytest.Stage) string {
	b := s.Board(1)
	return b.Plies[len(b.Plies)-1].SAN
}

// TestFeedAgrees: the feed comes back with the moves that were entered, and leads
// again without a word.
func TestFeedAgrees(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	s.Wait(20 * time.Second)
	words := strings.Fields(moves(6))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: words[4]}, relay.ByHand{Act: relay.ActMove, Ply: 6, SAN: words[5]})
	b := s.Board(1)
	if len(b.Plies) != 6 || !b.Plies[5].ByHand || b.Held() {
		t.Fatalf("%d plies, by hand %v, held %v", len(b.Plies), b.Plies[len(b.Plies)-1].ByHand, b.Held())
	}
	s.Take(at(4))
	if got := len(s.Board(1).Plies); got != 6 {
		t.Errorf("%d plies: the feed that is behind took entered ones away", got)
	}
	s.Take(at(5))
	if b := s.Board(1); len(b.Plies) != 6 || b.Plies[4].ByHand || !b.Plies[5].ByHand {
		t.Errorf("%d plies, by hand %v %v; want the first to be the feed's", len(b.Plies), b.Plies[4].ByHand, b.Plies[5].ByHand)
	}
	s.Take(at(7))
	b = s.Board(1)
	if len(b.Plies) != 7 || b.Plies[5].ByHand || b.Hand.Any() || b.Question != nil || b.Correction != nil || !b.Plies[5].Reading.Left.OK {
		t.Errorf("%d plies, entries %+v, question %v, correction %v", len(b.Plies), b.Hand, b.Question, b.Correction)
	}
	if got := len(notesOf(s.Show, relay.NoteAgreed)); got != 2 {
		t.Errorf("%d lines that the feed agrees, want 2", got)
	}
}

// TestFeedDiffers: the air keeps what it has until the producer answers.
func TestFeedDiffers(t *testing.T) {
	differ := func() *relaytest.Stage {
		s := relaytest.NewStage()
		s.Take(at(4))
		enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bc4"})
		s.Take(at(6)) // 3. Bb5 a6
		if b := s.Board(1); b.Question == nil || b.Question.Hand != "Bc4" || b.Question.Feed != "Bb5" || lastMove(s) != "Bc4" || len(b.Plies) != 5 {
			t.Fatalf("question %+v, last move %s", b.Question, lastMove(s))
		}
		return s
	}
	s := differ()
	enter(t, s, relay.ByHand{Act: relay.ActAnswer, Keep: "feed", Asked: s.Board(1).Question.ID})
	if b := s.Board(1); b.Question != nil || len(b.Plies) != 6 || b.Plies[4].SAN != "Bb5" || b.Hand.Any() {
		t.Errorf("feed: question %v, %d plies, %s", b.Question, len(b.Plies), b.Plies[4].SAN)
	}
	s = differ()
	enter(t, s, relay.ByHand{Act: relay.ActAnswer, Keep: "hand", Asked: s.Board(1).Question.ID})
	b := s.Board(1)
	if b.Question != nil || len(b.Plies) != 6 || b.Plies[4].SAN != "Bc4" || b.Plies[5].SAN != "a6" {
		t.Errorf("hand: question %v, %d plies, %s; want the feed's next move behind ours", b.Question, len(b.Plies), lastMove(s))
	}
	s = differ()
	s.Take(strings.Replace(at(6), "Bb5", "Bc4", 1))
	if b := s.Board(1); b.Question != nil || len(b.Plies) != 6 || b.Hand.Any() {
		t.Errorf("mended by the feed: question %v, %d plies", b.Question, len(b.Plies))
	}
	if refused := s.Enter(relay.ByHand{Board: 1, Act: relay.ActAnswer, Keep: "hand", Asked: "another"}); refused == "" {
		t.Error("an answer to nothing was taken")
	}
}

// TestCorrectionByHand: the last ply corrected, while the feed still says the wrong one.
func TestCorrectionByHand(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(5))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 5, SAN: "Bc4"})
	s.Take(strings.Replace(at(5), "0:09:55", "0:09:54", 1))
	if b := s.Board(1); lastMove(s) != "Bc4" || b.Question != nil || b.Correction == nil || b.Correction.Was != "Bb5" || b.Correction.Is != "Bc4" {
		t.Errorf("%s, question %v, correction %+v", lastMove(s), b.Question, b.Correction)
	}
	s.Take(at(6))
	if b := s.Board(1); lastMove(s) != "Bc4" || b.Question == nil {
		t.Errorf("the feed plays on: %s, question %v", lastMove(s), b.Question)
	}
	s = relaytest.NewStage()
	s.Take(at(5))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 5})
	if b := s.Board(1); len(b.Plies) != 4 {
		t.Errorf("%d plies after the fifth was taken back", len(b.Plies))
	}
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bc4"})
	s.Take(strings.Replace(at(6), "Bb5", "Bc4", 1))
	if b := s.Board(1); len(b.Plies) != 6 || b.Hand.Any() {
		t.Errorf("%d plies, entries %+v", len(b.Plies), b.Hand)
	}
}

// TestOwnMoveTakenBack: a move entered by mistake leaves nothing behind.
func TestOwnMoveTakenBack(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bc4"}, relay.ByHand{Act: relay.ActCorrect, Ply: 5})
	if b := s.Board(1); len(b.Plies) != 4 || b.Hand.Any() {
		t.Errorf("%d plies, entries %+v", len(b.Plies), b.Hand)
	}
}

// TestClockByHand: a clock entered stands until the feed says what it says, within
// two seconds, or something else, which is asked.
func TestClockByHand(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	wrong := strings.Replace(at(4), "0:09:56", "0:01:56", 1)
	s.Take(wrong)
	enter(t, s, relay.ByHand{Act: relay.ActClock, Ply: 4, Left: 9*time.Minute + 55*time.Second})
	s.Take(wrong)
	if got := s.Board(1).Plies[3].Timed.Left; got != 9*time.Minute+55*time.Second {
		t.Errorf("clock %v while the feed says the wrong one", got)
	}
	s.Take(at(5))
	if b := s.Board(1); b.Hand.Any() || b.Question != nil || b.Plies[3].Timed.Left != 9*time.Minute+56*time.Second {
		t.Errorf("entries %+v, question %v, clock %v; want the feed's that agrees", b.Hand, b.Question, b.Plies[3].Timed.Left)
	}
	s = relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActClock, Ply: 4, Left: 7 * time.Minute})
	s.Take(strings.Replace(at(5), "0:09:56", "0:08:00", 1))
	b := s.Board(1)
	if len(b.Plies) != 5 || b.Question == nil || b.Question.Kind != relay.AsksClock || b.Plies[3].Timed.Left != 7*time.Minute {
		t.Fatalf("%d plies, question %+v, clock %v", len(b.Plies), b.Question, b.Plies[3].Timed.Left)
	}
	enter(t, s, relay.ByHand{Act: relay.ActAnswer, Keep: "feed", Asked: b.Question.ID})
	if b := s.Board(1); b.Question != nil || b.Plies[3].Timed.Left != 8*time.Minute {
		t.Errorf("question %v, clock %v", b.Question, b.Plies[3].Timed.Left)
	}
}

// TestResultAndNameByHand: entered words stand, and give way to the feed that agrees.
func TestResultAndNameByHand(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActResult, Text: "1-0"}, relay.ByHand{Act: relay.ActName, Side: "black", Text: "Nacht, Nora"})
	s.Take(at(5))
	if b := s.Board(1); b.Result != "1-0" || b.Players[1].Name != "Nacht, Nora" || len(b.Plies) != 5 {
		t.Errorf("result %s, black %q, %d plies", b.Result, b.Players[1].Name, len(b.Plies))
	}
	mended := strings.NewReplacer("Noir, Noel", "Nacht, Nora", " *", " 1-0").Replace(at(5))
	s.Take(mended)
	if b := s.Board(1); b.Hand.Any() || b.Question != nil || b.Result != "1-0" || b.Game != 0 {
		t.Errorf("entries %+v, question %v, result %s, game %d", b.Hand, b.Question, b.Result, b.Game)
	}
	s = relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActResult, Text: "1-0"})
	s.Take(strings.Replace(at(5), " *", " 0-1", 1))
	if b := s.Board(1); b.Result != "1-0" || b.Question == nil || b.Question.Kind != relay.AsksResult || b.Question.Feed != "0-1" {
		t.Errorf("result %s, question %+v", b.Result, b.Question)
	}
}

// TestFreeze: whatever the feed says, a frozen board stays, clocks and all, and goes
// on from what the feed says when it is let go.
func TestFreeze(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActFreeze})
	left := s.Board(1).Left(0, s.Now)
	s.Take(at(6))
	s.Same(30 * time.Second)
	if b := s.Board(1); len(b.Plies) != 4 || !b.Held() || b.Left(0, s.Now) != left {
		t.Errorf("%d plies, held %v, clock %v, want %v", len(b.Plies), b.Held(), b.Left(0, s.Now), left)
	}
	enter(t, s, relay.ByHand{Act: relay.ActThaw})
	if b := s.Board(1); len(b.Plies) != 6 || b.Held() || b.Correction != nil {
		t.Errorf("%d plies, held %v, correction %v", len(b.Plies), b.Held(), b.Correction)
	}
}

// TestNoFeedAtAll: a board begun and led by hand, which a feed takes over later.
func TestNoFeedAtAll(t *testing.T) {
	s := relaytest.NewStage()
	s.Fail("connect")
	enter(t, s,
		relay.ByHand{Act: relay.ActName, Side: "white", Text: "Weiss, Wanda"}, relay.ByHand{Act: relay.ActName, Side: "black", Text: "Noir, Noel"},
		relay.ByHand{Act: relay.ActMove, Ply: 1, SAN: "e4"}, relay.ByHand{Act: relay.ActMove, Ply: 2, SAN: "e5"},
		relay.ByHand{Act: relay.ActClock, Ply: 2, Left: 9 * time.Minute})
	b := s.Board(1)
	if len(b.Plies) != 2 || b.Players[0].Name != "Weiss, Wanda" || b.Plies[1].Timed.Left != 9*time.Minute {
		t.Fatalf("%d plies, white %q", len(b.Plies), b.Players[0].Name)
	}
	s.Take(at(3))
	b = s.Board(1)
	if len(s.Show.Boards) != 1 || len(b.Plies) != 3 || len(b.Hand.Moves) != 0 || b.Feed != relaytest.FeedName || b.Game != 0 {
		t.Errorf("%d boards, %d plies, entries %+v, follows %q, game %d", len(s.Show.Boards), len(b.Plies), b.Hand, b.Feed, b.Game)
	}
}

// TestRefused: what cannot be done is refused with a reason and changes nothing, and
// an entry sent twice is done once.
func TestRefused(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	before := s.Board(1)
	for _, e := range []relay.ByHand{
		{Board: 1, Act: relay.ActMove, Ply: 5, SAN: "Qxf7"}, {Board: 1, Act: relay.ActMove, Ply: 4, SAN: "Bc4"}, {Board: 1, Act: relay.ActMove, Ply: 5, SAN: ""},
		{Board: 1, Act: relay.ActCorrect, Ply: 3, SAN: "Bc4"}, {Board: 1, Act: relay.ActClock, Ply: 9}, {Board: 1, Act: relay.ActClock, Ply: 4, Left: -time.Second},
		{Board: 1, Act: relay.ActResult, Text: "2-0"}, {Board: 1, Act: relay.ActName, Side: "white", Text: " "}, {Board: 1, Act: relay.ActName, Side: "green", Text: "A"},
		{Board: 1, Act: relay.ActPin, Feed: "nowhere"}, {Board: 7, Act: relay.ActMove, Ply: 1, SAN: "e4"}, {Board: 1, Act: "dance"}, {Board: 0, Act: relay.ActFreeze},
		{Board: 1, Act: relay.ActName, Side: "white", Text: strings.Repeat("x", 81)},
	} {
		if s.Enter(e) == "" {
			t.Errorf("%+v was taken", e)
		}
	}
	if now := s.Board(1); now.FEN != before.FEN || now.Result != before.Result || now.Players != before.Players || now.Hand.Any() || len(s.Show.Boards) != 1 {
		t.Errorf("a refused entry changed the board: %+v", now.Hand)
	}
	e := relay.ByHand{At: s.Now, ID: "once", Board: 1, Act: relay.ActMove, Ply: 5, SAN: "Bc4"}
	s.Apply(e)
	s.Apply(e)
	if entered, ok := s.Show.Entry("once"); !ok || entered.Refused != "" || len(s.Board(1).Plies) != 5 {
		t.Errorf("sent twice: %+v, %d plies", entered, len(s.Board(1).Plies))
	}
}
