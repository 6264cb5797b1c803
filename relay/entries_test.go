package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// cutAt returns at(n) broken off behind the first m plies and their clocks.
func cutAt(n, m int) string {
	text := at(n)
	ply := strings.Fields(moves(n))[m]
	i := strings.Index(text, "\n\n")
	j := strings.Index(text[i:], ply)
	cut := text[:i+j]
	return strings.TrimRight(cut, "0123456789. \n")
}

// TestFeedIsARevision: a board that turns to another feed is another revision: pages are told which.
func TestFeedIsARevision(t *testing.T) {
	s := withBackup(t)
	before := s.Board(1)
	s.Enter(relay.ByHand{Board: 1, Act: relay.ActPin, Feed: relaytest.BackupName})
	if b := s.Board(1); b.Feed != before.Feed && b.Rev == before.Rev {
		t.Errorf("follows %s after %s, revision %d both", b.Feed, before.Feed, b.Rev)
	}
}

// TestOfferIsARevision: so is another state of an offer that is not followed, for the producer.
func TestOfferIsARevision(t *testing.T) {
	s := withBackup(t)
	s.SameFrom(time.Second, relaytest.FeedName, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, at(11))
	rev := s.Show.SourcesRev
	s.TakeFrom(relaytest.BackupName, at(12))
	if s.Show.SourcesRev == rev {
		t.Errorf("the backup has %d plies, SourcesRev is %d as before", s.Board(1).Offers[1].Plies(), rev)
	}
}

// TestDoubtIsARevision: and a doubt that comes with its feed's state.
func TestDoubtIsARevision(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	rev := s.Show.SourcesRev
	s.Wait(7 * time.Second)
	if doubt := s.Show.OfferDoubt(s.Board(1).Offers[0]); doubt != "" && s.Show.SourcesRev == rev {
		t.Errorf("doubt %q, SourcesRev %d as before", doubt, rev)
	}
}

// TestEntryWhileWaiting: entries are shown although the feed turned to has not come as far.
func TestEntryWhileWaiting(t *testing.T) {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(at(6))
	s.TakeFrom(relaytest.BackupName, at(4))
	enter(t, s, relay.ByHand{Act: relay.ActPin, Feed: relaytest.BackupName}, relay.ByHand{Act: relay.ActMove, Ply: 7, SAN: "Bxc6"},
		relay.ByHand{Act: relay.ActName, Side: "white", Text: "Marlow, Anna"})
	if b := s.Board(1); len(b.Plies) != 7 || b.Players[0].Name != "Marlow, Anna" {
		t.Errorf("%d plies, white %q, question %v", len(b.Plies), b.Players[0].Name, b.Question)
	}
}

// TestNameUnderBackup: a name entered by hand outlasts a turn to the backup and back.
func TestNameUnderBackup(t *testing.T) {
	s := withBackup(t)
	enter(t, s, relay.ByHand{Act: relay.ActName, Side: "white", Text: "Marlow, Anna"}, relay.ByHand{Act: relay.ActPin, Feed: relaytest.BackupName},
		relay.ByHand{Act: relay.ActPin, Feed: relaytest.FeedName})
	if b := s.Board(1); b.Players[0].Name != "Marlow, Anna" && b.Question == nil {
		t.Errorf("white %q, entries %+v, question %v", b.Players[0].Name, b.Hand, b.Question)
	}
}

// TestResultAndCut: a text that breaks off does not agree with a result entered by hand.
func TestResultAndCut(t *testing.T) {
	s := relaytest.NewStage()
	g := relaytest.Game{Moves: moves(4)}
	s.Take(relaytest.Packet(g))
	enter(t, s, relay.ByHand{Act: relay.ActResult, Text: "1-0"})
	g.Result = "none"
	s.Take(strings.TrimRight(g.PGN(), "\n "))
	g.Result = ""
	s.Take(relaytest.Packet(g))
	if b := s.Board(1); b.Result != "1-0" && b.Question == nil {
		t.Errorf("result %s, entries %+v, question %v", b.Result, b.Hand, b.Question)
	}
}

// TestEntryBecomesIllegal: the feed mends a ply below an entered move, which then cannot be played: that is asked.
func TestEntryBecomesIllegal(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bb5"})
	s.Take(strings.Replace(at(4), "1. e4", "1. d4", 1))
	if b := s.Board(1); b.Question == nil && len(b.Plies) < 5 {
		t.Errorf("%d plies, fault %q, entries %+v", len(b.Plies), b.Fault, b.Hand)
	}
}

// TestTakebackAndCut: a text that breaks off does not agree with a takeback.
func TestTakebackAndCut(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(5))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 5})
	s.Take(cutAt(5, 4))
	s.Take(at(5))
	if b := s.Board(1); len(b.Plies) != 4 && b.Question == nil {
		t.Errorf("%d plies, entries %+v, question %v", len(b.Plies), b.Hand, b.Question)
	}
}

// TestQuestionOfCut: half a text is no reason to ask.
func TestQuestionOfCut(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bb5"})
	s.Take(cutAt(4, 2))
	if b := s.Board(1); b.Question != nil {
		t.Errorf("asked %+v because of half a text", b.Question)
	}
}

// TestQuestionOfHalfWord: nor is half a word.
func TestQuestionOfHalfWord(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bb5"})
	text := at(5)
	s.Take(text[:strings.Index(text, "Bb5")+1])
	if b := s.Board(1); b.Question != nil {
		t.Errorf("asked %+v because of half a word", b.Question)
	}
}

// TestTakebackUnderCut: a ply that stands although the feed's text broke off before it can be taken back.
func TestTakebackUnderCut(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(5))
	s.Take(cutAt(5, 3))
	if n := len(s.Board(1).Plies); n != 5 {
		t.Fatalf("%d plies after the cut", n)
	}
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 5})
	if b := s.Board(1); len(b.Plies) != 4 && b.Question == nil {
		t.Errorf("%d plies, entries %+v", len(b.Plies), b.Hand)
	}
}

// TestClockUnderCut: and its clock entered.
func TestClockUnderCut(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(5))
	s.Take(cutAt(5, 3))
	enter(t, s, relay.ByHand{Act: relay.ActClock, Ply: 5, Left: time.Minute})
	if b := s.Board(1); b.Plies[4].Timed.Left != time.Minute && b.Question == nil {
		t.Errorf("clock %v, entries %+v", b.Plies[4].Timed.Left, b.Hand)
	}
}

// TestOwnMoveUnderCut: and an own move be taken back.
func TestOwnMoveUnderCut(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bb5"})
	s.Take(cutAt(5, 4))
	if q := s.Board(1).Question; q != nil {
		t.Fatalf("asked %+v", q)
	}
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 5})
	if b := s.Board(1); len(b.Plies) != 4 {
		t.Errorf("%d plies, entries %+v", len(b.Plies), b.Hand)
	}
}

// TestMovesWhileFrozen: a frozen board takes the producer's moves, one after the other.
func TestMovesWhileFrozen(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActFreeze}, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bb5"})
	refused := s.Enter(relay.ByHand{Board: 1, Act: relay.ActMove, Ply: 6, SAN: "a6"})
	enter(t, s, relay.ByHand{Act: relay.ActThaw})
	if b := s.Board(1); refused != "" || len(b.Plies) != 6 {
		t.Errorf("ply 6 refused: %q, %d plies after the thaw", refused, len(b.Plies))
	}
}

// TestResultMakesRematch: a result by hand does not make a correction look like the next game.
func TestResultMakesRematch(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(6))
	enter(t, s, relay.ByHand{Act: relay.ActResult, Text: "1-0"})
	s.Take(strings.Replace(at(5), "Bb5", "Bc4", 1))
	if b := s.Board(1); b.Game != 0 || b.Result != "1-0" && b.Question == nil {
		t.Errorf("game %d, result %s, entries %+v, correction %v", b.Game, b.Result, b.Hand, b.Correction)
	}
}

// TestClockOfAnotherMove: a clock entered for one move does not stand behind another.
func TestClockOfAnotherMove(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(5))
	enter(t, s, relay.ByHand{Act: relay.ActClock, Ply: 5, Left: time.Minute})
	s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Moves: moves(4) + " d4"}))
	if b := s.Board(1); len(b.Hand.Clocks) > 0 && b.Question == nil {
		t.Errorf("clock %+v, entered for Bb5, stands behind %s", b.Hand.Clocks, lastMove(s))
	}
}

// TestNameUnderQuestion: other entries are shown while a move is in question.
func TestNameUnderQuestion(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bc4"})
	s.Take(at(6))
	enter(t, s, relay.ByHand{Act: relay.ActName, Side: "white", Text: "Marlow, Anna"})
	if b := s.Board(1); b.Players[0].Name != "Marlow, Anna" {
		t.Errorf("white %q while a move is in question", b.Players[0].Name)
	}
}

// TestClocksInOrder: entered clocks stand in order of plies.
func TestClocksInOrder(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActClock, Ply: 4, Left: time.Minute}, relay.ByHand{Act: relay.ActClock, Ply: 3, Left: time.Minute})
	if c := s.Board(1).Hand.Clocks; c[0].Ply > c[1].Ply {
		t.Errorf("clocks of plies %d, %d: not in order of plies", c[0].Ply, c[1].Ply)
	}
}

// TestRefusedBeginsBoard: a refused entry begins no board.
func TestRefusedBeginsBoard(t *testing.T) {
	s := relaytest.NewStage()
	if refused := s.Enter(relay.ByHand{Board: 1, Act: relay.ActMove, Ply: 1, SAN: "e5"}); refused == "" || len(s.Show.Boards) != 0 {
		t.Errorf("refused %q, %d boards", refused, len(s.Show.Boards))
	}
}
