package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestTimeGoesBack: what is due lies ahead, whatever the producer pins.
func TestTimeGoesBack(t *testing.T) {
	s := withBackup(t)
	s.SameFrom(10*time.Second, relaytest.BackupName) // the board turns
	both(s, 5*time.Minute)                           // and back
	enter(t, s, relay.ByHand{Act: relay.ActPin, Feed: relaytest.BackupName})
	was := s.Show.At
	if due := s.Show.Due(); !due.After(was) {
		t.Errorf("due %v, it is %v", due, was)
	}
	s.Wait(0)
	if s.Show.At.Before(was) {
		t.Errorf("it was %v, and is %v", was, s.Show.At)
	}
}

// TestOlderStateWithMorePlies: the arena takes back two plies and replaces them; a cache then tells the longer state before.
func TestOlderStateWithMorePlies(t *testing.T) {
	s := relaytest.NewStage()
	for n := 4; n <= 10; n++ {
		s.Take(at(n))
	}
	mended := relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Moves: moves(7) + " Nge7"})
	s.Take(mended)
	s.Same(time.Minute)
	s.Take(at(10))
	if b := s.Board(1); b.Plies[7].SAN != "Nge7" {
		t.Errorf("%s: what was taken back a minute ago is believed at once", lastMove(s))
	}
}

// TestOlderStateAtTheEnd: a game that becomes the last of its packet is still known by its texts.
func TestOlderStateAtTheEnd(t *testing.T) {
	other := relaytest.Packet(relaytest.Game{White: "Alba, A", Table: "2", Moves: "d4"})
	s := relaytest.NewStage()
	for n := 4; n <= 10; n++ {
		s.Take(at(n) + other)
	}
	s.Take(other + at(5)) // a cache, and the games in another order
	if b := s.Board(1); len(b.Plies) != 10 {
		t.Errorf("%d plies: a state told before is believed at once", len(b.Plies))
	}
}

// TestRoundMendedByOneFeed: one feed mends its Round tag, the other had it right: the other can be followed.
func TestRoundMendedByOneFeed(t *testing.T) {
	game := func(round string, n int) string {
		return relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Round: round, Moves: moves(n)})
	}
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(game("1", 2)) // left over from the round before
	s.TakeFrom(relaytest.BackupName, game("2", 2))
	s.Take(game("2", 3))
	s.TakeFrom(relaytest.BackupName, game("2", 3))
	both(s, 2*time.Minute)
	for n := 4; n < 20; n++ {
		s.TakeFrom(relaytest.BackupName, game("2", n))
		s.SameFrom(4*time.Second, relaytest.BackupName)
	}
	if b := s.Board(1); b.Feed != relaytest.BackupName {
		t.Errorf("follows %s, silent for over a minute, held %v, %d plies; the backup names the same game and has %d", b.Feed, b.Held(), len(b.Plies), b.Offers[1].Plies())
	}
}

// TestPrimaryNeverAgain: the same the other way round.
func TestPrimaryNeverAgain(t *testing.T) {
	game := func(round string, n int) string {
		return relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Round: round, Moves: moves(n)})
	}
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(game("2", 4))
	s.TakeFrom(relaytest.BackupName, game("1", 4))
	s.TakeFrom(relaytest.BackupName, game("2", 4))
	s.SameFrom(10*time.Second, relaytest.BackupName)
	for n := 4; n < 20; n++ {
		s.Take(game("2", n))
		s.TakeFrom(relaytest.BackupName, game("2", n))
		both(s, 5*time.Second)
	}
	if b := s.Board(1); b.Feed != relaytest.FeedName || b.Game != 0 {
		t.Errorf("follows %s, game %d of the board; the primary has been well for over a minute and names the same game", b.Feed, b.Game)
	}
}

// TestRoundBeforeFromCache: the cache of a backup tells the round before once more while that backup is followed.
func TestRoundBeforeFromCache(t *testing.T) {
	next := relaytest.Packet(relaytest.Game{Round: "2", White: "Alba, A", Black: "Basil, B", Table: "1", Control: "600+5"})
	s := withBackup(t)
	s.Take(next)
	s.TakeFrom(relaytest.BackupName, next)
	s.SameFrom(20*time.Second, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, at(10)) // told before
	if b := s.Board(1); len(b.Plies) != 0 {
		t.Errorf("%s, %d plies: the round before is on the air again", players(b), len(b.Plies))
	}
	s.TakeFrom(relaytest.BackupName, next)
	s.Take(next)
	both(s, 2*time.Minute)
	if b := s.Board(1); b.Feed != relaytest.FeedName {
		t.Errorf("follows %s, game %d; the primary has been well for two minutes", b.Feed, b.Game)
	}
}

// TestNobodyTellsThePly: the backup tells a ply, and takes it back just after the board has turned to the primary, which never had it.
func TestNobodyTellsThePly(t *testing.T) {
	s := withBackup(t)
	s.SameFrom(10*time.Second, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, at(11))
	for range 3 { // the primary is back as the backup falls silent
		s.Same(4 * time.Second)
	}
	if b := s.Board(1); b.Feed != relaytest.FeedName || len(b.Plies) != 11 {
		t.Fatalf("follows %s, %d plies: the test shows nothing", b.Feed, len(b.Plies))
	}
	s.TakeFrom(relaytest.BackupName, strings.Replace(at(10), "0:09:50", "0:09:49", 1))
	both(s, 3*time.Minute)
	if b := s.Board(1); len(b.Plies) != 10 {
		t.Errorf("follows %s, %d plies; for three minutes both feeds have said 10", b.Feed, len(b.Plies))
	}
}

// TestKeptForEver: "by hand" was the wrong answer, and another ply stands behind: it can be undone.
func TestKeptForEver(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(5))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 5, SAN: "Bc4"})
	s.Take(at(6))
	enter(t, s, relay.ByHand{Act: relay.ActAnswer, Keep: "hand", Asked: s.Board(1).Question.ID})
	s.Take(at(8)) // 4. Ba4 cannot be played from c4
	refused := s.Enter(relay.ByHand{Board: 1, Act: relay.ActCorrect, Ply: 5, SAN: "Bb5"})
	if b := s.Board(1); refused != "" || len(b.Plies) != 8 {
		t.Errorf("refused: %s; the board stands at %d plies, held %v, question %v, fault %q", refused, len(b.Plies), b.Held(), b.Question, b.Fault)
	}
}

// TestHeldBehindAMendedFault: a fault that an entry mends lets the clocks run.
func TestHeldBehindAMendedFault(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Moves: moves(4) + " Qh5h8"}))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 5, SAN: "Bb5"})
	s.Same(30 * time.Second)
	if b := s.Board(1); b.Fault == "" && b.Held() {
		t.Errorf("%d plies, no fault, the feed answers, and the clocks are held", len(b.Plies))
	}
}

// TestBrokenByHand: a kept entry makes the feed's next moves unplayable: that is not the feed's fault.
func TestBrokenByHand(t *testing.T) {
	s := withBackup(t)
	s.Take(at(11))
	s.TakeFrom(relaytest.BackupName, at(11))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 11, SAN: "Nc3"})
	further := func(moves string) string {
		return relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Moves: moves})
	}
	s.Take(further(moves(11) + " d6"))
	enter(t, s, relay.ByHand{Act: relay.ActAnswer, Keep: "hand", Asked: s.Board(1).Question.ID})
	s.Take(further(moves(11) + " d6 Rf1")) // back from e1, where the rook is not on the air
	s.Take(further(moves(11) + " d6 Rf1 O-O"))
	for _, o := range s.Board(1).Offers {
		if o.Broken != "" {
			t.Errorf("%s: %q, although its moves go on from each other", o.Feed, o.Broken)
		}
	}
}

// TestAnotherLineCounts: a feed that once told a longer line has not come so far on this one.
func TestAnotherLineCounts(t *testing.T) {
	line := func(moves string) string {
		return relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Moves: moves})
	}
	s := withBackup(t)
	s.Take(line(moves(9) + " d6 c3 a5 d4")) // 13 plies, of them 4 wrong
	s.Take(line(moves(10)))                 // mended
	s.SameFrom(10*time.Second, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, at(12))
	if b := s.Board(1); b.Feed != relaytest.BackupName || len(b.Plies) != 12 {
		t.Fatalf("follows %s, %d plies: the test shows nothing", b.Feed, len(b.Plies))
	}
	s.Same(8 * time.Second) // the primary is back, the backup is silent
	if b := s.Board(1); len(b.Plies) != 12 {
		t.Errorf("follows %s, %d plies: two taken back that it has never told", b.Feed, len(b.Plies))
	}
}

// TestTakebackInQuestion: while a takeback is in question the feed's own ply is not shown as entered by hand.
func TestTakebackInQuestion(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Moves: moves(5) + " Qh5h8"}))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 5})
	if b := s.Board(1); b.Question == nil {
		t.Fatal("not asked: the test shows nothing")
	} else if n := len(b.Plies); n >= 5 && b.Plies[4].ByHand {
		t.Errorf("%s of the feed is marked as entered by hand", b.Plies[4].SAN)
	}
}

// TestWrongBackupAfterAGlitch: one answer that is late does not put a backup on the air that tells something else.
func TestWrongBackupAfterAGlitch(t *testing.T) {
	s := withBackup(t)
	s.TakeFrom(relaytest.BackupName, relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Moves: moves(9) + " d6"}))
	both(s, time.Minute)
	if got := lastMove(s); got != "Be7" {
		t.Fatalf("%s: the test shows nothing", got)
	}
	s.SameFrom(7*time.Second, relaytest.BackupName) // late after 6 s
	if got := lastMove(s); got != "Be7" {
		t.Errorf("%s, of the backup that differs, after 7 s without an answer of the primary", got)
	}
}
