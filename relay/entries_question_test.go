package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// What TestRandomHands of package overlay found, and the fewest deeds that it takes.

// textOf is the packet of a game without clocks.
func textOf(moves string) string { return relaytest.Packet(relaytest.Game{Table: "1", Moves: moves}) }

func settle(t *testing.T, s *relaytest.Stage, keep string) {
	t.Helper()
	q := s.Board(1).Question
	if q == nil {
		t.Fatalf("nothing is asked: the board shows %q", shownLine(s))
	}
	enter(t, s, relay.ByHand{Act: relay.ActAnswer, Keep: keep, Asked: q.ID})
}

// shownLine returns the moves that board 1 shows.
func shownLine(s *relaytest.Stage) string {
	var sans []string
	for i := range s.Board(1).Plies {
		sans = append(sans, s.Board(1).Plies[i].SAN)
	}
	return strings.Join(sans, " ")
}

func wantLine(t *testing.T, s *relaytest.Stage, when, want string) {
	t.Helper()
	if got := shownLine(s); got != want {
		t.Errorf("%s: the board shows %q, want %q; question %+v, entries %+v", when, got, want, s.Board(1).Question, s.Board(1).Hand.Moves)
	}
}

// TestQuestionKeepsEntries: while one entered move is asked about, one before it stands,
// and it does so after either answer, though the feed's next move does not fit it.
func TestQuestionKeepsEntries(t *testing.T) {
	asked := func() *relaytest.Stage {
		s := relaytest.NewStage()
		s.Take(textOf("e4 Nf6"))
		enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 3, SAN: "Bd3"})
		s.Take(textOf("e4 Nf6 d4 Nh5 Bg5"))
		settle(t, s, "hand")
		wantLine(t, s, "kept", "e4 Nf6 Bd3 Nh5") // the bishop on c1 cannot come out
		enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 4, SAN: "g6"})
		wantLine(t, s, "asked", "e4 Nf6 Bd3 Nh5")
		return s
	}
	s := asked()
	settle(t, s, "hand")
	wantLine(t, s, "by hand is right", "e4 Nf6 Bd3 g6")
	s = asked()
	settle(t, s, "feed")
	wantLine(t, s, "the feed is right", "e4 Nf6 Bd3 Nh5")
}

// TestEntryBeforeWhatDoesNotFit: a kept entry is corrected, and the feed's moves cannot be
// played behind it: the entry is shown, and nothing behind it that does not fit.
func TestEntryBeforeWhatDoesNotFit(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(textOf("e4 e5"))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 2, SAN: "e6"})
	s.Take(textOf("e4 e5 Nf3 Nc6"))
	settle(t, s, "hand")
	wantLine(t, s, "kept", "e4 e6 Nf3 Nc6")
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 2, SAN: "Nc6"})
	wantLine(t, s, "corrected", "e4 Nc6 Nf3")
	if b := s.Board(1); b.Fault == "" {
		t.Error("nobody is told why the game stops there")
	}
}

// TestAnswerBehindAllShown: an answer for a move that is not on the board yet is taken
// once; the question does not come again.
func TestAnswerBehindAllShown(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(textOf("e4 e5 Nf3 Kh8 d4"))
	wantLine(t, s, "the feed's fourth ply is none", "e4 e5 Nf3")
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 4, SAN: "Nc6"})
	settle(t, s, "hand")
	wantLine(t, s, "answered", "e4 e5 Nf3 Nc6 d4")
	if q := s.Board(1).Question; q != nil {
		t.Errorf("asked again: %+v", q)
	}
}

// wantClock holds the clock after a ply of board 1 to one entered by hand.
func wantClock(t *testing.T, s *relaytest.Stage, ply int, want time.Duration) {
	t.Helper()
	if got := s.Board(1).Plies[ply-1].Reading.Left; got.D != want || !got.OK {
		t.Errorf("the clock after ply %d is %v, entered was %v", ply, got, want)
	}
}

// TestClockUnderUnplayable: a clock is entered for a ply that stands because what the feed
// says there now cannot be played.
func TestClockUnderUnplayable(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(textOf("b3 e6"))
	s.Take(textOf("b3 Ra1a1"))
	enter(t, s, relay.ByHand{Act: relay.ActClock, Ply: 2, Left: 5 * time.Minute})
	wantClock(t, s, 2, 5*time.Minute)
	s.Take(textOf("b3 Ra1a1 d4"))
	wantClock(t, s, 2, 5*time.Minute)
	if got := len(s.Board(1).Hand.Clocks); got != 1 {
		t.Errorf("%d clocks entered stand, want 1", got)
	}
}

// TestClockWhileWaiting: a clock is entered for a ply that the feed followed, which has
// been turned to, has not come to yet.
func TestClockWhileWaiting(t *testing.T) {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(at(4))
	s.Take(at(5))
	s.Take(at(4)) // older
	s.TakeFrom(relaytest.BackupName, at(4))
	if got := s.Board(1).Feed; got != relaytest.BackupName {
		t.Fatalf("follows %s", got)
	}
	enter(t, s, relay.ByHand{Act: relay.ActClock, Ply: 5, Left: 5 * time.Minute})
	wantClock(t, s, 5, 5*time.Minute)
}

// TestClockInSquares: a feed that writes moves as two squares leaves an entered clock alone.
func TestClockInSquares(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(textOf("e2e4 e7e5 g1f3"))
	enter(t, s, relay.ByHand{Act: relay.ActClock, Ply: 3, Left: 5 * time.Minute})
	wantClock(t, s, 3, 5*time.Minute)
}

// TestEntryWhileWaitingForBackup: the backup that the board has turned to has not come as
// far, so that what the primary said of a ply does not make an entry for it needless.
func TestEntryWhileWaitingForBackup(t *testing.T) {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(textOf("b3 g5"))
	s.TakeFrom(relaytest.BackupName, textOf("b3 g5"))
	s.Take(textOf("b3 g5 Bb2 f5 Ra1a1"))
	if got := s.Board(1).Feed; got != relaytest.BackupName {
		t.Fatalf("follows %s", got)
	}
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 4, SAN: "f5"})
	s.Take(textOf("b3 g5 Bb2"))
	wantLine(t, s, "the primary has taken it back", "b3 g5 Bb2 f5")
	s.TakeFrom(relaytest.BackupName, textOf("b3 g5 Bb2 f5"))
	wantLine(t, s, "the backup says it", "b3 g5 Bb2 f5")
}

// frozen lets things happen while the board is frozen, and thaws it.
func frozen(t *testing.T, s *relaytest.Stage, meanwhile func()) {
	t.Helper()
	enter(t, s, relay.ByHand{Act: relay.ActFreeze})
	meanwhile()
	enter(t, s, relay.ByHand{Act: relay.ActThaw})
}

// TestResultWhileFrozen: that a game is not over is entered while the feed, which is not
// heard, says that it is: that is asked.
func TestResultWhileFrozen(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(textOf("a3 Nc6"))
	frozen(t, s, func() {
		s.Take(relaytest.Packet(relaytest.Game{Table: "1", Moves: "a3 Nc6 e3", Result: "1-0"}))
		enter(t, s, relay.ByHand{Act: relay.ActResult, Text: "*"})
	})
	if b := s.Board(1); b.Result != "*" || b.Question == nil || b.Question.Kind != relay.AsksResult || b.Question.Feed != "1-0" {
		t.Errorf("result %s, question %+v", b.Result, b.Question)
	}
}

// TestResultInQuestion: the same while a move is in question.
func TestResultInQuestion(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(textOf("b4"))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 2, SAN: "h6"})
	s.Take(relaytest.Packet(relaytest.Game{Table: "1", Moves: "b4 g6 g3", Result: "1-0"}))
	enter(t, s, relay.ByHand{Act: relay.ActResult, Text: "*"})
	settle(t, s, "hand")
	if b := s.Board(1); b.Result != "*" || b.Question == nil || b.Question.Kind != relay.AsksResult {
		t.Errorf("result %s, question %+v", b.Result, b.Question)
	}
	wantLine(t, s, "by hand is right", "b4 h6 g3")
}

// TestTakebackWhileFrozen: a move entered and taken back on a frozen board is asked about
// when the feed turns out to have it, and forgotten when it has another.
func TestTakebackWhileFrozen(t *testing.T) {
	for said, want := range map[string]string{"e4 e5": "e4", "e4 c5": "e4 c5", "e4": "e4"} {
		s := relaytest.NewStage()
		s.Take(textOf("e4"))
		frozen(t, s, func() {
			enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 2, SAN: "e5"})
			s.Take(textOf(said))
			enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 2})
		})
		wantLine(t, s, said, want)
		if asked := s.Board(1).Question != nil; asked != (said == "e4 e5") {
			t.Errorf("%s: asked %v", said, asked)
		}
	}
}

// TestNameEnteredUnderBackup: a name is entered as the primary wrote it before the board
// turned to its backup, and the primary comes back with another: that is asked.
func TestNameEnteredUnderBackup(t *testing.T) {
	named := func(name string) string {
		return relaytest.Packet(relaytest.Game{Table: "1", White: name, Moves: "c4 h5"})
	}
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(named("Alder, I"))
	s.TakeFrom(relaytest.BackupName, named("Alder, Ida"))
	enter(t, s, relay.ByHand{Act: relay.ActPin, Feed: relaytest.BackupName},
		relay.ByHand{Act: relay.ActName, Side: "white", Text: "Alder, I"})
	s.Take(named("Alden, I"))
	enter(t, s, relay.ByHand{Act: relay.ActPin, Feed: relaytest.FeedName})
	if b := s.Board(1); b.Players[0].Name != "Alder, I" || b.Question == nil || b.Question.Kind != relay.AsksName {
		t.Errorf("%s, question %+v", b.Players[0].Name, b.Question)
	}
}

// TestRookThatStays: a feed's word that cannot be played agrees with no entry, though it
// has the same piece and square.
func TestRookThatStays(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(textOf("a3 Na6 h3 e6 Rh2 Qe7 Ra2 Qf6 d4 h5 Ra1a1"))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 11, SAN: "Ra1"})
	wantLine(t, s, "entered", "a3 Na6 h3 e6 Rh2 Qe7 Ra2 Qf6 d4 h5 Ra1")
}
