package relay_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// moves returns the first n plies of a game that everybody knows (a Ruy Lopez).
func moves(n int) string { return strings.Join(strings.Fields(ruy)[:n], " ") }

// at returns the packet of one game after n plies, clocks and all.
func at(n int) string {
	g := relaytest.Game{Control: "600+5", Table: "1", Moves: moves(n)}
	for i := range n {
		g.Clocks = append(g.Clocks, fmt.Sprintf("0:09:%02d", 59-i))
	}
	return relaytest.Packet(g)
}

func withBackup(t *testing.T) *relaytest.Stage {
	t.Helper()
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(at(10))
	s.TakeFrom(relaytest.BackupName, at(10))
	if len(s.Show.Boards) != 1 || s.Board(1).Feed != relaytest.FeedName {
		t.Fatalf("%d boards, board 1 follows %q; want one board that follows the primary", len(s.Show.Boards), s.Board(1).Feed)
	}
	return s
}

// notesOf returns the show log's lines of that kind.
func notesOf(s *relay.Show, kind relay.NoteKind) []relay.Noted {
	var out []relay.Noted
	for _, n := range s.Log.After(0) {
		if n.Kind == kind {
			out = append(out, n)
		}
	}
	return out
}

// TestFailover: the primary falls silent, the backup leads, and the primary leads
// again when it has been well for a while.
func TestFailover(t *testing.T) {
	s := withBackup(t)
	s.SameFrom(10*time.Second, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, at(11))
	b := s.Board(1)
	if b.Feed != relaytest.BackupName || len(b.Plies) != 11 || b.Held() {
		t.Fatalf("follows %s, %d plies, held %v; want the backup and its move", b.Feed, len(b.Plies), b.Held())
	}
	if len(b.Alerts) == 0 && s.Show.Totals.FeedSwitches != 1 {
		t.Errorf("%d switches, want 1", s.Show.Totals.FeedSwitches)
	}
	s.Take(at(11))
	s.SameFrom(5*time.Second, relaytest.FeedName, relaytest.BackupName)
	if s.Board(1).Feed != relaytest.BackupName {
		t.Error("back to the primary at once: that may flap")
	}
	s.SameFrom(20*time.Second, relaytest.FeedName, relaytest.BackupName)
	if b := s.Board(1); b.Feed != relaytest.FeedName || len(b.Plies) != 11 || b.Correction != nil {
		t.Errorf("follows %s, %d plies, correction %v; want the primary again", b.Feed, len(b.Plies), b.Correction)
	}
	if got := len(notesOf(s.Show, relay.NoteFeed)); got != 2 {
		t.Errorf("%d lines about feeds in the show log, want 2", got)
	}
}

// TestNoFlapping: a primary that is well for seconds only never leads, and the board
// turns once.
func TestNoFlapping(t *testing.T) {
	s := withBackup(t)
	for range 20 {
		s.SameFrom(8*time.Second, relaytest.BackupName)
		s.SameFrom(3*time.Second, relaytest.FeedName, relaytest.BackupName)
	}
	if n := s.Show.Totals.FeedSwitches; n != 1 {
		t.Errorf("%d switches in four minutes, want 1", n)
	}
}

// TestBackupBehind: a backup that has fewer moves takes none back.
func TestBackupBehind(t *testing.T) {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(at(12))
	s.TakeFrom(relaytest.BackupName, at(9))
	s.SameFrom(10*time.Second, relaytest.BackupName)
	b := s.Board(1)
	if b.Feed != relaytest.BackupName || len(b.Plies) != 12 || b.Correction != nil {
		t.Fatalf("follows %s, %d plies, correction %v", b.Feed, len(b.Plies), b.Correction)
	}
	s.TakeFrom(relaytest.BackupName, at(11))
	if got := len(s.Board(1).Plies); got != 12 {
		t.Errorf("%d plies while the backup has 11, want 12", got)
	}
	s.TakeFrom(relaytest.BackupName, at(13))
	if got := len(s.Board(1).Plies); got != 13 {
		t.Errorf("%d plies, want the backup's 13", got)
	}
	s.TakeFrom(relaytest.BackupName, strings.Replace(at(12), "0:09:59", "0:09:58", 1)) // never told: a takeback
	if got := len(s.Board(1).Plies); got != 12 {
		t.Errorf("%d plies after the backup took one back itself, want 12", got)
	}
}

// TestFrozenPrimary: a primary that answers, but never with anything new.
func TestFrozenPrimary(t *testing.T) {
	s := withBackup(t)
	s.TakeFrom(relaytest.BackupName, at(11))
	s.SameFrom(9*time.Second, relaytest.FeedName, relaytest.BackupName)
	if s.Board(1).Feed != relaytest.FeedName {
		t.Error("left the primary before it was behind for long")
	}
	s.SameFrom(3*time.Second, relaytest.FeedName, relaytest.BackupName)
	if b := s.Board(1); b.Feed != relaytest.BackupName || len(b.Plies) != 11 {
		t.Errorf("follows %s, %d plies; want the backup that is ahead", b.Feed, len(b.Plies))
	}
}

// TestBackupOtherwise: another feed writes names, round and moves its own way, and
// has no clocks; the same board shows it, and loses nothing.
func TestBackupOtherwise(t *testing.T) {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(at(8))
	other := func(n int, extra string) string {
		return relaytest.Packet(relaytest.Game{White: "W. Weiss", Black: "N. Noir", Round: "1.1", Moves: strings.Replace(moves(n), "Nf3", "Ng1-f3", 1) + extra})
	}
	s.TakeFrom(relaytest.BackupName, other(8, ""))
	s.SameFrom(10*time.Second, relaytest.BackupName)
	s.TakeFrom(relaytest.BackupName, other(9, ""))
	b := s.Board(1)
	if len(s.Show.Boards) != 1 || b.Feed != relaytest.BackupName || len(b.Plies) != 9 || b.Game != 0 {
		t.Fatalf("%d boards, follows %s, %d plies, game %d", len(s.Show.Boards), b.Feed, len(b.Plies), b.Game)
	}
	if b.Players[0].Name != "Weiss, Wanda" || !b.Control.Known() || !b.Plies[7].Reading.Left.OK {
		t.Errorf("white %q, control %q, reading %+v: lost with the feed", b.Players[0].Name, b.Control, b.Plies[7].Reading)
	}
}

// TestBackupElse: a backup that tells other moves is not followed by itself, but when
// the producer pins it.
func TestBackupElse(t *testing.T) {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.Take(at(10))
	s.TakeFrom(relaytest.BackupName, relaytest.Packet(relaytest.Game{Table: "1", Moves: moves(9) + " d6"}))
	s.SameFrom(20*time.Second, relaytest.BackupName)
	if b := s.Board(1); b.Feed != relaytest.FeedName || len(b.Plies) != 10 {
		t.Fatalf("follows %s, %d plies", b.Feed, len(b.Plies))
	}
	if refused := s.Enter(relay.ByHand{Board: 1, Act: relay.ActPin, Feed: relaytest.BackupName}); refused != "" {
		t.Fatal(refused)
	}
	b := s.Board(1)
	if b.Feed != relaytest.BackupName || b.Plies[9].SAN != "d6" || b.Correction == nil || b.Held() {
		t.Errorf("follows %s, last %s, correction %v, held %v", b.Feed, b.Plies[9].SAN, b.Correction, b.Held())
	}
	s.Enter(relay.ByHand{Board: 1, Act: relay.ActPin, Feed: "nowhere"})
	if s.Board(1).Pinned != relaytest.BackupName {
		t.Error("pinned to a feed that does not have the game")
	}
}

// TestOnlyBackup: with the primary dead from the start the backup makes the boards,
// and the primary finds them.
func TestOnlyBackup(t *testing.T) {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	s.TakeFrom(relaytest.BackupName, at(4))
	s.Take(at(5))
	s.SameFrom(25*time.Second, relaytest.FeedName, relaytest.BackupName)
	if b := s.Board(1); len(s.Show.Boards) != 1 || b.Feed != relaytest.FeedName || len(b.Plies) != 5 {
		t.Errorf("%d boards, follows %s, %d plies", len(s.Show.Boards), b.Feed, len(b.Plies))
	}
}

// TestOlderState: a cache serves what it had; nothing of it is shown, and it is told.
func TestOlderState(t *testing.T) {
	s := relaytest.NewStage()
	for n := 4; n <= 10; n++ {
		s.Take(at(n))
	}
	s.Take(at(6))
	s.Same(20 * time.Second)
	if b := s.Board(1); len(b.Plies) != 10 || b.Correction != nil {
		t.Errorf("%d plies, correction %v: the older state is shown", len(b.Plies), b.Correction)
	}
	s.Take(at(10))
	s.Take(at(11))
	if b := s.Board(1); len(b.Plies) != 11 || b.Correction != nil {
		t.Errorf("%d plies, correction %v", len(b.Plies), b.Correction)
	}
	if older, over := notesOf(s.Show, relay.NoteOlder), notesOf(s.Show, relay.NoteOlderOver); len(older) != 1 || len(over) != 1 ||
		older[0].Was != "10 plies" || older[0].Is != "6 plies" || s.Show.Totals.OlderStates != 1 {
		t.Errorf("told %v and %v, counted %d", older, over, s.Show.Totals.OlderStates)
	}
	if notes := notesOf(s.Show, relay.NoteTakenBack); len(notes) != 0 {
		t.Errorf("taken back: %v", notes)
	}
}

// TestOlderStateThatStays: a feed that keeps to an older state means it.
func TestOlderStateThatStays(t *testing.T) {
	for _, test := range []struct {
		back int
		wait time.Duration
	}{{1, 12 * time.Second}, {3, 32 * time.Second}} {
		s := relaytest.NewStage()
		for n := 4; n <= 10; n++ {
			s.Take(at(n))
		}
		s.Take(at(10 - test.back))
		s.Same(test.wait - 5*time.Second)
		if got := len(s.Board(1).Plies); got != 10 {
			t.Errorf("%d back: %d plies before it is sure, want 10", test.back, got)
		}
		s.Same(5 * time.Second)
		if b := s.Board(1); len(b.Plies) != 10-test.back || b.Correction == nil || b.Correction.Is != "" {
			t.Errorf("%d back: %d plies, correction %v; want it taken back", test.back, len(b.Plies), b.Correction)
		}
	}
}

// TestOlderStateTurnsToBackup: meanwhile a backup leads.
func TestOlderStateTurnsToBackup(t *testing.T) {
	s := relaytest.NewStageOf(relaytest.PlanWithBackup())
	for n := 4; n <= 10; n++ {
		s.Take(at(n))
	}
	s.TakeFrom(relaytest.BackupName, at(10))
	s.Take(at(5))
	s.TakeFrom(relaytest.BackupName, at(11))
	if b := s.Board(1); b.Feed != relaytest.BackupName || len(b.Plies) != 11 {
		t.Errorf("follows %s, %d plies; want the backup", b.Feed, len(b.Plies))
	}
}

// TestVanishedAndSwapped: a game that leaves the packet stays on its board, and
// boards that change places in the packet stay where they are in the show.
func TestVanishedAndSwapped(t *testing.T) {
	a, b := relaytest.Game{White: "Alba, A", Moves: moves(4)}, relaytest.Game{White: "Basil, B", Moves: "d4 d5"}
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(a, b))
	s.Take(relaytest.Packet(b))
	s.Take(relaytest.Packet(b, a))
	for i, want := range []string{"Alba, A", "Basil, B"} {
		if got := s.Board(i + 1).Players[0].Name; got != want {
			t.Errorf("board %d shows %s, want %s", i+1, got, want)
		}
	}
	for _, kind := range []relay.NoteKind{relay.NoteVanished, relay.NoteReturned, relay.NotePlace} {
		if len(notesOf(s.Show, kind)) == 0 {
			t.Errorf("the show log has no line %q", kind)
		}
	}
	if len(s.Board(1).Plies) != 4 || s.Board(1).Correction != nil {
		t.Error("the game that was away has changed")
	}
}
