package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

// both lets both feeds answer that nothing is new for so long.
func both(s *relaytest.Stage, d time.Duration) {
	s.SameFrom(d, relaytest.FeedName, relaytest.BackupName)
}

func players(b *relay.Board) string { return b.Players[0].Name + " - " + b.Players[1].Name }

// TestNextRoundBeforeBackup: the primary pairs the next round while the backup still lists the one before.
func TestNextRoundBeforeBackup(t *testing.T) {
	s := withBackup(t)
	s.Take(relaytest.Packet(relaytest.Game{Round: "2", White: "Alba, A", Black: "Basil, B", Table: "1", Control: "600+5"}))
	both(s, 15*time.Second)
	if b := s.Board(1); len(b.Plies) != 0 || b.Feed != relaytest.FeedName {
		t.Errorf("%s shows %d plies of the round before, follows %s", players(b), len(b.Plies), b.Feed)
	}
}

// TestNextRoundThenSilence: the same, and the primary falls silent at once.
func TestNextRoundThenSilence(t *testing.T) {
	s := withBackup(t)
	s.Take(relaytest.Packet(relaytest.Game{Round: "2", White: "Alba, A", Black: "Basil, B", Table: "1", Control: "600+5", Moves: "e4 e5"}))
	s.SameFrom(20*time.Second, relaytest.BackupName)
	if b := s.Board(1); len(b.Plies) != 2 {
		t.Errorf("%s shows %d plies of the round before, follows %s", players(b), len(b.Plies), b.Feed)
	}
}

// TestNextRoundInAnotherOrder: the backup lists the next round in another order.
func TestNextRoundInAnotherOrder(t *testing.T) {
	g := func(white, table, round string) relaytest.Game {
		return relaytest.Game{White: white, Black: "B-" + white, Table: table, Round: round, Moves: "e4 e5"}
	}
	a, b := g("Anton", "1", "1"), g("Berta", "2", "1")
	c, d := g("Cecil", "1", "2"), g("Doris", "2", "2")
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(relaytest.Packet(a, b))
	s.TakeFrom(relaytest.BackupName, relaytest.Packet(b, a))
	s.Take(relaytest.Packet(c, d))
	s.TakeFrom(relaytest.BackupName, relaytest.Packet(c, d))
	for _, b := range s.Show.Boards {
		for _, o := range b.Offers {
			if o.Key.White != b.Players[0].Name {
				t.Errorf("board %d shows %s, and %s offers %s for it", b.Number, b.Players[0].Name, o.Feed, o.Key.White)
			}
		}
	}
	d.Moves = "e4 e5 Nf3"
	c.Moves = "e4 e5 Bc4"
	s.TakeFrom(relaytest.BackupName, relaytest.Packet(c, d))
	s.SameFrom(20*time.Second, relaytest.BackupName)
	if got := lastMove(s); got != "Bc4" {
		t.Errorf("board 1, %s, shows %s, which is the other board's", players(s.Board(1)), got)
	}
}

// TestBackFromBackupOtherwise: back from a backup that writes round and names its own way it is still the same game.
func TestBackFromBackupOtherwise(t *testing.T) {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(at(8))
	other := func(n int) string {
		return relaytest.Packet(relaytest.Game{White: "W. Weiss", Black: "N. Noir", Round: "1.1", Moves: moves(n)})
	}
	s.TakeFrom(relaytest.BackupName, other(8))
	s.SameFrom(10*time.Second, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, other(9))
	seen := s.Board(1).Plies[0].Seen
	s.Take(at(9))
	both(s, 30*time.Second)
	if b := s.Board(1); b.Game != 0 || !b.Plies[0].Seen.Equal(seen) {
		t.Errorf("follows %s: game %d of the board, its first ply seen at %v, was %v", b.Feed, b.Game, b.Plies[0].Seen, seen)
	}
}

// TestAwaitsForEver: a ply is taken back at the arena while the primary is silent; both feeds say so then.
func TestAwaitsForEver(t *testing.T) {
	s := withBackup(t)
	s.Take(at(12))
	s.TakeFrom(relaytest.BackupName, at(11))
	s.SameFrom(10*time.Second, relaytest.BackupName) // the primary is silent
	s.Take(at(11))                                   // and has never told 11 plies
	both(s, 3*time.Minute)
	if b := s.Board(1); len(b.Plies) != 11 {
		t.Errorf("follows %s, %d plies; both feeds have said 11 for three minutes", b.Feed, len(b.Plies))
	}
}

// TestStuckWithDeadBackup: the backup tells a wrong ply and dies; the primary, well again, is followed in the end.
func TestStuckWithDeadBackup(t *testing.T) {
	s := withBackup(t)
	s.SameFrom(10*time.Second, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Moves: moves(10) + " d4"}))
	s.Take(at(11))
	for n := 12; n < 40; n++ {
		s.Take(at(n))
		s.Same(4 * time.Second)
	}
	if b := s.Board(1); b.Feed != relaytest.FeedName {
		t.Errorf("after two minutes follows %s, held %v, %d plies; the primary is well and has %d", b.Feed, b.Held(), len(b.Plies), b.Offers[0].Plies())
	}
}

// TestStuckWithFrozenBackup: so it is when the backup answers, but never with anything new.
func TestStuckWithFrozenBackup(t *testing.T) {
	s := withBackup(t)
	s.SameFrom(10*time.Second, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Moves: moves(10) + " d4"}))
	s.Take(at(11))
	for n := 12; n < 40; n++ {
		s.Take(at(n))
		both(s, 4*time.Second)
	}
	if b := s.Board(1); b.Feed != relaytest.FeedName {
		verdict, fine := s.Show.Verdict()
		t.Errorf("after two minutes follows %s with %d plies; the primary is well and has %d; verdict %q, %v", b.Feed, len(b.Plies), b.Offers[0].Plies(), verdict, fine)
	}
}

// TestHandBlocksFailover: a correction by hand that stands against both feeds does not keep the board from turning.
func TestHandBlocksFailover(t *testing.T) {
	s := withBackup(t)
	s.Take(at(11))
	s.TakeFrom(relaytest.BackupName, at(11))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 11, SAN: "Qe1"})
	s.SameFrom(30*time.Second, relaytest.BackupName)
	if b := s.Board(1); b.Feed != relaytest.BackupName || b.Held() {
		t.Errorf("follows %s, held %v: the primary is silent and both feeds said the same", b.Feed, b.Held())
	}
}

// TestHandBlocksNextGame: nor does an entry that stands keep the next game from the board.
func TestHandBlocksNextGame(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(5))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 5, SAN: "Bc4"})
	s.Take(at(6))
	enter(t, s, relay.ByHand{Act: relay.ActAnswer, Keep: "hand", Asked: s.Board(1).Question.ID})
	s.Take(relaytest.Packet(relaytest.Game{Round: "2", White: "Alba, A", Black: "Basil, B", Table: "1", Moves: "d4 d5"}))
	s.Same(time.Minute)
	if b := s.Board(1); b.Players[0].Name != "Alba, A" {
		t.Errorf("round 2 is on, the board shows %s, question %+v", players(b), b.Question)
	}
}

// TestAnswerHandChangesNothing: the feed takes back what an entry stands on, and the producer says: by hand.
func TestAnswerHandChangesNothing(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(5))
	enter(t, s, relay.ByHand{Act: relay.ActMove, Ply: 6, SAN: "a6"})
	s.Take(strings.Replace(at(4), "0:09:59", "0:09:58", 1)) // ply 5 taken back, never told before
	q := s.Board(1).Question
	if q == nil {
		t.Fatal("not asked: the test shows nothing")
	}
	refused := s.Enter(relay.ByHand{Board: 1, Act: relay.ActAnswer, Keep: "hand", Asked: q.ID})
	if now := s.Board(1).Question; now != nil && now.ID == q.ID && refused == "" {
		t.Errorf("answered hand, nothing refused, and asked the same again: %+v", now)
	}
}

// think is a game in the middle of a think, its feed silent since.
func think() *relaytest.Stage {
	s := relaytest.NewStage()
	s.Take(at(9))
	s.Take(at(10))
	s.Wait(16 * time.Second) // stale after 15: the clocks are held
	return s
}

// TestEntryMovesHeldClock: an entry that has nothing to do with clocks does not let a held clock jump.
func TestEntryMovesHeldClock(t *testing.T) {
	s := think()
	left := s.Board(1).Left(clock.White, s.Now)
	s.Wait(5 * time.Minute)
	if got := s.Board(1).Left(clock.White, s.Now); got != left {
		t.Fatalf("the clock is not held: %v, %v", got, left)
	}
	enter(t, s, relay.ByHand{Act: relay.ActName, Side: "black", Text: "Nacht, Nora"})
	if b := s.Board(1); b.Left(clock.White, s.Now) != left {
		t.Errorf("White's clock jumps from %v to %v with a name", left, b.Left(clock.White, s.Now))
	}
}

// TestEntryRaisesAlerts: nor raise alerts about the time nobody listened.
func TestEntryRaisesAlerts(t *testing.T) {
	s := think()
	s.Wait(5 * time.Minute)
	before := len(s.Board(1).Alerts)
	enter(t, s, relay.ByHand{Act: relay.ActName, Side: "black", Text: "Nacht, Nora"})
	if b := s.Board(1); len(b.Alerts) > before {
		t.Errorf("said of a held clock: %s", b.Alerts[len(b.Alerts)-1].Say.Text)
	}
}

// TestEntryMovesFrozenClock: nor does it move a frozen board's clock.
func TestEntryMovesFrozenClock(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(10))
	enter(t, s, relay.ByHand{Act: relay.ActFreeze})
	left := s.Board(1).Left(clock.White, s.Now)
	s.Same(time.Minute)
	enter(t, s, relay.ByHand{Act: relay.ActName, Side: "black", Text: "Nacht, Nora"})
	if b := s.Board(1); b.Left(clock.White, s.Now) != left {
		t.Errorf("frozen, White's clock jumps from %v to %v with a name", left, b.Left(clock.White, s.Now))
	}
}

// TestCutThenOlder: a text that breaks off does not open the door for a cache's older state.
func TestCutThenOlder(t *testing.T) {
	s := relaytest.NewStage()
	for n := 4; n <= 10; n++ {
		s.Take(at(n))
	}
	s.Take(cutAt(10, 6))
	s.Take(at(5))
	if b := s.Board(1); len(b.Plies) != 10 {
		t.Errorf("%d plies: five taken back at once, which the feed had told before (10 s or 30 s are meant)", len(b.Plies))
	}
}

// TestOlderInheritsShortWait: from one ply back to five: the longer step back has the longer wait.
func TestOlderInheritsShortWait(t *testing.T) {
	s := relaytest.NewStage()
	for n := 4; n <= 10; n++ {
		s.Take(at(n))
	}
	s.Take(at(9))
	s.Same(8 * time.Second)
	s.Take(at(5))
	s.Same(2 * time.Second)
	if b := s.Board(1); len(b.Plies) != 10 {
		t.Errorf("%d plies: five taken back 3 s after the feed first said so", len(b.Plies))
	}
}

// TestSeveralGamesBack: several games that go back at once look like a cache.
func TestSeveralGamesBack(t *testing.T) {
	s := relaytest.NewStage()
	packet := func(n int) string {
		g := relaytest.Game{Table: "1", Moves: moves(n)}
		h := relaytest.Game{White: "Alba, A", Table: "2", Moves: moves(n)}
		return relaytest.Packet(g, h)
	}
	s.Take(packet(9))
	s.Take(packet(10))
	s.Take(packet(9))
	s.Same(15 * time.Second)
	if b := s.Board(1); len(b.Plies) != 10 {
		t.Errorf("%d plies: every game one ply back, believed after 10 s and not 30", len(b.Plies))
	}
}

// TestRenamedAndMoved: one feed mends a name and lists the game elsewhere in the same packet.
func TestRenamedAndMoved(t *testing.T) {
	a, b := relaytest.Game{White: "Alba, A", Moves: moves(10)}, relaytest.Game{White: "Basil, B", Moves: "d4 d5 c4"}
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(a, b))
	a.White = "Alba, Anna"
	s.Take(relaytest.Packet(b, a))
	if len(s.Show.Boards) != 2 {
		t.Errorf("%d boards for two games: Black's name, ten plies and the family name are not enough", len(s.Show.Boards))
	}
}

// TestHiddenBlamed: a game that only the backup has is no matter of max_boards.
func TestHiddenBlamed(t *testing.T) {
	s := withBackup(t)
	s.TakeFrom(relaytest.BackupName, at(10)+relaytest.Packet(relaytest.Game{White: "Alba, A", Black: "Basil, B", Table: "2", Moves: "d4"}))
	verdict, fine := s.Show.Verdict()
	if strings.Contains(verdict, "max_boards") {
		t.Errorf("verdict %q, %v: there is room for %d boards", verdict, fine, relaytest.Plan().MaxBoards)
	}
}

// TestVerdictOfStaleBackup: a stale backup is not said to be followed.
func TestVerdictOfStaleBackup(t *testing.T) {
	s := withBackup(t)
	s.Same(20 * time.Second)
	if verdict, _ := s.Show.Verdict(); strings.Contains(verdict, "a backup is followed") {
		t.Errorf("verdict %q while board 1 follows %s", verdict, s.Board(1).Feed)
	}
}

// TestResultOfMate: mate on the board, and the producer enters the result before the arena does.
func TestResultOfMate(t *testing.T) {
	s := relaytest.NewStage()
	g := relaytest.Game{Moves: "f3 e5 g4 Qh4#"}
	s.Take(relaytest.Packet(g))
	enter(t, s, relay.ByHand{Act: relay.ActResult, Text: "0-1"})
	if q := s.Board(1).Question; q != nil {
		t.Errorf("asked %+v: nobody said anything else", q)
	}
}

// TestWholeAgain: a text that broke off before its next game stands again, whole: then it is believed.
func TestWholeAgain(t *testing.T) {
	game := func(moves string) relaytest.Game {
		return relaytest.Game{White: "Alba, A", Moves: moves, Result: "none"}
	}
	other := relaytest.Game{White: "Basil, B", Moves: "d4"}
	short := relaytest.Packet(game("e4 e5 Nf3"), other)
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(game("e4 e5 Nf3 Nc6"), other))
	s.Take(short[:strings.LastIndex(short, "[Event")]) // cut between the games
	s.Take(short)
	s.Same(time.Minute)
	if b := s.Board(1); len(b.Plies) != 3 {
		t.Errorf("%d plies; the feed has said 3 for a minute, in a whole text", len(b.Plies))
	}
}

// TestFeedOfAnOlderPlan: a show goes on from its journal under a plan whose feed has another name.
func TestFeedOfAnOlderPlan(t *testing.T) {
	plan := relaytest.Plan()
	plan.Feeds[0].Name = "arena"
	show := relay.NewShow(plan, relaytest.Start)
	show = show.After(relay.NewIntake("hall").Read(relaytest.Start.Add(time.Second), []byte(at(4))))
	if len(show.Boards) == 1 && len(show.Boards[0].Plies) == 0 {
		t.Errorf("an empty board, revision %d; want the game of the feed that is no more, or no board", show.Boards[0].Rev)
	}
}

// TestClockQuestionWhileFrozen: a question about a clock on a frozen board can be answered.
func TestClockQuestionWhileFrozen(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(4))
	enter(t, s, relay.ByHand{Act: relay.ActClock, Ply: 4, Left: 7 * time.Minute})
	s.Take(strings.Replace(at(4), "0:09:56", "0:08:00", 1))
	enter(t, s, relay.ByHand{Act: relay.ActFreeze})
	s.Take(strings.Replace(at(4), "0:09:56", "0:05:00", 1))
	for range 3 {
		q := s.Board(1).Question
		if q == nil {
			return
		}
		enter(t, s, relay.ByHand{Act: relay.ActAnswer, Keep: "hand", Asked: q.ID})
	}
	t.Errorf("answered three times, still asked: %+v", s.Board(1).Question)
}

// TestTurnTakesBackBehindCorrection: a turn to a feed that has not come so far takes nothing back behind a kept correction.
func TestTurnTakesBackBehindCorrection(t *testing.T) {
	s := withBackup(t)
	s.Take(at(11))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 11, SAN: "Qe1"})
	s.Take(at(12))
	enter(t, s, relay.ByHand{Act: relay.ActAnswer, Keep: "hand", Asked: s.Board(1).Question.ID})
	s.Take(at(14))
	s.TakeFrom(relaytest.BackupName, at(12))
	if n := len(s.Board(1).Plies); n != 14 {
		t.Fatalf("%d plies: the test shows nothing", n)
	}
	enter(t, s, relay.ByHand{Act: relay.ActPin, Feed: relaytest.BackupName})
	if b := s.Board(1); len(b.Plies) != 14 {
		t.Errorf("%d plies after a turn to a feed that has only come so far, correction %+v", len(b.Plies), b.Correction)
	}
}

// TestBackupInFigurines: a backup that writes figurines, or squares, has the same game.
func TestBackupInFigurines(t *testing.T) {
	for _, words := range []string{"e4 e5 ♘f3 ♞c6 ♗b5", "e2e4 e7e5 g1f3 b8c6 f1b5"} {
		s := relaytest.NewStageOf(relaytest.PlanWithBackup())
		s.Take(at(5))
		s.TakeFrom(relaytest.BackupName, relaytest.Packet(relaytest.Game{Control: "600+5", Table: "1", Moves: words}))
		s.SameFrom(20*time.Second, relaytest.BackupName)
		if b := s.Board(1); b.Feed != relaytest.BackupName {
			t.Errorf("%s: follows %s, %d offers", words, b.Feed, len(b.Offers))
		}
	}
}

// TestNewGamesOfBackup: with the primary silent for long, games that begin later at the backup are shown.
func TestNewGamesOfBackup(t *testing.T) {
	s := withBackup(t)
	s.SameFrom(10*time.Minute, relaytest.BackupName)
	more := relaytest.Game{White: "Alba, A", Black: "Basil, B", Table: "2", Moves: "d4"}
	for n := range 5 {
		more.Moves = moves(n + 1)
		s.TakeFrom(relaytest.BackupName, at(10)+relaytest.Packet(more))
	}
	if len(s.Show.Boards) != 2 {
		t.Errorf("%d boards, %d hidden", len(s.Show.Boards), s.Show.Feeds[1].Hidden)
	}
}

// TestResultLostInTurn: a turn to a backup that is behind does not reopen a finished game.
func TestResultLostInTurn(t *testing.T) {
	s := withBackup(t)
	s.Take(at(11))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 11, SAN: "Qe1"})
	over := strings.Replace(at(11), " *", " 1-0", 1)
	s.Take(over)
	s.TakeFrom(relaytest.BackupName, at(9))
	if s.Board(1).Result != "1-0" {
		t.Fatalf("result %s: the test shows nothing", s.Board(1).Result)
	}
	enter(t, s, relay.ByHand{Act: relay.ActPin, Feed: relaytest.BackupName})
	if b := s.Board(1); b.Result != "1-0" {
		t.Errorf("result %s, %d plies after a turn to a feed that has not come so far", b.Result, len(b.Plies))
	}
}

// TestSameFamilies: two pairs of the same family names, listed the other way round by the backup.
func TestSameFamilies(t *testing.T) {
	x := relaytest.Game{White: "Holm, Arne", Black: "Lind, Bea"}
	y := relaytest.Game{White: "Holm, Carl", Black: "Lind, Dora"}
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(relaytest.Packet(x, y))
	s.TakeFrom(relaytest.BackupName, relaytest.Packet(y, x))
	for _, b := range s.Show.Boards {
		for _, o := range b.Offers {
			if o.Key.White != b.Players[0].Name {
				t.Errorf("board %d shows %s, and %s offers %s for it, although the names are the same to the letter", b.Number, b.Players[0].Name, o.Feed, o.Key.White)
			}
		}
	}
}

// TestDoubleOfOneGame: two feeds that differ in moves make no double of a game they name alike.
func TestDoubleOfOneGame(t *testing.T) {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.TakeFrom(relaytest.BackupName, relaytest.Packet(relaytest.Game{Table: "1", Moves: "e4 e5 Nf3 d6 Bc4 Be7"}))
	s.Take(at(6))
	if len(s.Show.Boards) != 1 {
		t.Errorf("%d boards for one game: same event, round, table and names", len(s.Show.Boards))
	}
}

// TestOlderAndGone: an older state of a game that the feed no longer has at all is not believed.
func TestOlderAndGone(t *testing.T) {
	other := relaytest.Packet(relaytest.Game{White: "Alba, A", Table: "2", Moves: "d4"})
	s := relaytest.NewStage()
	s.Take(at(9) + other)
	s.Take(at(10) + other)
	s.Take(at(9) + other)
	s.Take(other)
	s.Same(20 * time.Second)
	if b := s.Board(1); len(b.Plies) != 10 {
		t.Errorf("%d plies: taken back by a feed that had said so for one second and has had no such game since", len(b.Plies))
	}
}

// TestStartOfBackup: a backup without the FEN tag takes the start away from nobody.
func TestStartOfBackup(t *testing.T) {
	text := "[White \"Alba, A\"]\n[Black \"Basil, B\"]\n[SetUp \"1\"]\n[FEN \"4k3/4p3/8/8/8/8/4P3/4K3 b - - 0 39\"]\n\n39... e5 40. e4 Kd7 *\n"
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(text)
	bare := strings.Join(strings.Split(text, "\n")[:2], "\n") + "\n" + strings.SplitN(text, "\n", 5)[4]
	s.TakeFrom(relaytest.BackupName, bare)
	s.SameFrom(10*time.Second, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, strings.Replace(bare, "Kd7", "Kd7 41. Kd2", 1))
	b := s.Board(1)
	if number, side := b.MoveNumber(0); number != 39 || side != clock.Black || b.Fault != "" {
		t.Errorf("follows %s: the first ply is %d of %s, %d plies, fault %q", b.Feed, number, side, len(b.Plies), b.Fault)
	}
}

// TestFlapsAroundIllegal: a primary with an unplayable word is not followed again and again.
func TestFlapsAroundIllegal(t *testing.T) {
	s := withBackup(t)
	s.Take(at(11))
	s.TakeFrom(relaytest.BackupName, at(11))
	for n := range 20 {
		bad := relaytest.Game{Control: "600+5", Table: "1", Moves: moves(11) + " Qa8" + strings.Repeat(" Kh1 Kh8", n)}
		s.Take(relaytest.Packet(bad))
		both(s, 25*time.Second)
	}
	if n := s.Show.Totals.FeedSwitches; n > 2 {
		t.Errorf("%d switches", n)
	}
}

// TestCutIsNoVanishing: a packet that breaks off makes no game behind it vanish.
func TestCutIsNoVanishing(t *testing.T) {
	second := relaytest.Packet(relaytest.Game{White: "Alba, A", Table: "2", Moves: "d4"})
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	for range 10 {
		s.Take(at(10) + second)
		s.TakeFrom(relaytest.BackupName, at(10)+second)
		both(s, 25*time.Second)
		s.Take(cutAt(10, 5))
	}
	if n := s.Show.Totals.FeedSwitches; n > 0 {
		t.Errorf("%d switches, %d lines that a game vanished, in a feed that broke off ten times", n, len(notesOf(s.Show, relay.NoteVanished)))
	}
}

// TestThawInSilence: thawed while its feed is silent, a board's clock stays where it was held.
func TestThawInSilence(t *testing.T) {
	s := think()
	left := s.Board(1).Left(clock.White, s.Now)
	enter(t, s, relay.ByHand{Act: relay.ActFreeze})
	s.Wait(3 * time.Minute)
	enter(t, s, relay.ByHand{Act: relay.ActThaw})
	if b := s.Board(1); b.Left(clock.White, s.Now) != left {
		t.Errorf("held %v, White's clock %v, was held at %v; nothing has been heard since", b.Held(), b.Left(clock.White, s.Now), left)
	}
}

// TestNeverHeld: a correction entered just before a feed falls silent does not keep its clock running.
func TestNeverHeld(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(at(9))
	s.Take(at(10))
	enter(t, s, relay.ByHand{Act: relay.ActCorrect, Ply: 10, SAN: "d6"})
	s.Wait(5 * time.Minute)
	if b := s.Board(1); !b.Held() {
		t.Errorf("the feed has been silent for %v, nothing was entered since; not held, White has %v", 5*time.Minute, b.Left(clock.White, s.Now))
	}
}
