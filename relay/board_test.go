package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

func sans(b *relay.Board) string {
	var out []string
	for _, p := range b.Plies {
		out = append(out, p.SAN)
	}
	return strings.Join(out, " ")
}

func wantSANs(t *testing.T, b *relay.Board, want string) {
	t.Helper()
	if got := sans(b); got != want {
		t.Errorf("plies = %q, want %q", got, want)
	}
}

func TestAppendedPlies(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4"}))
	first := s.Board(1)
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4 e5 Nf3"}))
	b := s.Board(1)
	wantSANs(t, b, "e4 e5 Nf3")
	wantSANs(t, first, "e4")
	if b.Rev != first.Rev+1 || b.Keep != 1 || b.Correction != nil {
		t.Errorf("rev %d after %d, keep %d, correction %v", b.Rev, first.Rev, b.Keep, b.Correction)
	}
	// PGN 16.1.4 gives the position after 1.e4 c5 2.Nf3; this is its sister with e5.
	if want := "rnbqkbnr/pppp1ppp/8/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2"; b.FEN != want {
		t.Errorf("FEN = %s, want %s", b.FEN, want)
	}
}

func TestNothingNew(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Moves: "e4 e5"}
	s.Take(relaytest.Packet(game))
	before := s.Board(1)
	s.Take(relaytest.Packet(game) + "\n% a line that says nothing\n")
	if after := s.Board(1); after.Rev != before.Rev {
		t.Errorf("rev %d, want still %d", after.Rev, before.Rev)
	}
}

func TestCorrection(t *testing.T) {
	for _, test := range []struct {
		name, before, after, was, is string
		ply                          int
	}{
		{"replaced move", "e4 e5 Nf3", "e4 e5 Nc3", "Nf3", "Nc3", 3},
		{"replaced and went on", "e4 e5 Nf3", "e4 c5 Nf3 d6", "e5", "c5", 2},
		{"takeback", "e4 e5 Nf3", "e4 e5", "Nf3", "", 3},
		{"takeback of everything", "e4", "", "e4", "", 1},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := relaytest.NewStage()
			s.Take(relaytest.Packet(relaytest.Game{Moves: test.before}))
			s.Take(relaytest.Packet(relaytest.Game{Moves: test.after}))
			b := s.Board(1)
			wantSANs(t, b, test.after)
			c := b.Correction
			if c == nil || c.Was != test.was || c.Is != test.is || c.Ply != test.ply || !c.At.Equal(s.Now) {
				t.Errorf("correction = %+v, want ply %d %q to %q", c, test.ply, test.was, test.is)
			}
			if s.Show.Totals.Corrections != 1 {
				t.Errorf("%d corrections counted", s.Show.Totals.Corrections)
			}
		})
	}
}

// TestCorrectionKeepsTheClockRunning: the clock of the side on move runs from
// the press, not from the moment the arena mended its entry.
func TestCorrectionKeepsTheClockRunning(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4 e5"}))
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4 e5 Nf3"}))
	pressed := s.Now
	s.Same(10 * time.Second)
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4 e5 Nc3"}))
	if b := s.Board(1); !b.Anchor.Equal(pressed) {
		t.Errorf("clock runs from %v, want from %v", b.Anchor, pressed)
	}
}

// TestHalfWrittenGame: a text that breaks off takes nothing back and adds no
// half of a move.
func TestHalfWrittenGame(t *testing.T) {
	castled := "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6"
	for _, test := range []struct{ name, cutBehind, want string }{
		{"in a move number", " 3", castled},
		{"behind a move", "Bb5", castled},
		{"in a tag", `[White "We`, castled},
		{"in a comment", "Nc6", castled},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := relaytest.NewStage()
			text := relaytest.Packet(relaytest.Game{Moves: castled})
			s.Take(text)
			at := strings.Index(text, test.cutBehind)
			if at < 0 {
				t.Fatalf("%q is not in the text", test.cutBehind)
			}
			s.Take(text[:at+len(test.cutBehind)])
			wantSANs(t, s.Board(1), test.want)
			s.Take(text)
			wantSANs(t, s.Board(1), castled)
			if s.Board(1).Correction != nil {
				t.Errorf("correction %+v for a text that was only cut", s.Board(1).Correction)
			}
		})
	}
}

// TestHalfCastling: O-O at the very end of a text may still become O-O-O.
func TestHalfCastling(t *testing.T) {
	s := relaytest.NewStage()
	before := "d4 d5 Nc3 Nc6 Bf4 Bf5 Qd2 Qd7"
	s.Take(relaytest.Packet(relaytest.Game{Moves: before}))
	text := relaytest.Game{Moves: before + " O-O-O", Result: "none"}.PGN()
	s.Take(strings.TrimSuffix(strings.TrimRight(text, " \n"), "-O"))
	wantSANs(t, s.Board(1), before)
	s.Take(text)
	wantSANs(t, s.Board(1), before+" O-O-O")
}

// TestIllegalMove: the game is shown up to it, with the fault named, and the
// other game is not touched.
func TestIllegalMove(t *testing.T) {
	s := relaytest.NewStage()
	good := relaytest.Game{White: "Alba, A", Moves: "d4 d5", Table: "2"}
	bad := relaytest.Game{White: "Basil, B", Moves: "e4 e5 Nf3 Qh5 Bc4", Table: "1"}
	text := strings.Replace(relaytest.Packet(bad, good), "Qh5", "Qh3", 1)
	s.Take(text)
	wantSANs(t, s.Board(1), "e4 e5 Nf3")
	wantSANs(t, s.Board(2), "d4 d5")
	if got, want := s.Board(1).Fault, "move 2...Qh3: Qh3 is not a legal move; the game is shown up to 2.Nf3"; got != want {
		t.Errorf("fault = %q, want %q", got, want)
	}
	s.Same(30 * time.Second)
	if b := s.Board(1); !b.Held() || b.Left(clock.Black, s.Now) != b.Last(clock.Black).Left {
		t.Errorf("held %v, Black has %v: the clock runs on a board that cannot follow its game", b.Held(), b.Left(clock.Black, s.Now))
	}
	if s.Board(2).Held() {
		t.Error("the good board is held too")
	}
	s.Take(relaytest.Packet(relaytest.Game{White: "Basil, B", Moves: "e4 e5 Nf3 Qh4 Bc4", Table: "1"}, good))
	wantSANs(t, s.Board(1), "e4 e5 Nf3 Qh4 Bc4")
	if s.Board(1).Fault != "" || s.Board(1).Held() {
		t.Errorf("fault %q, held %v; want neither any more", s.Board(1).Fault, s.Board(1).Held())
	}
}

func TestClocksAndSpentTimes(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3", Clocks: []string{"0:10:03", "0:10:02", "0:09:38"}}))
	b := s.Board(1)
	for i, want := range []time.Duration{2 * time.Second, 3 * time.Second, 30 * time.Second} {
		if got := b.Plies[i].Timed; got.Spent != want || got.SpentQuality != clock.QualityRead {
			t.Errorf("ply %d: spent %v (%v), want %v read", i+1, got.Spent, got.SpentQuality, want)
		}
	}
	if side, running := b.Running(); side != clock.Black || !running {
		t.Errorf("clock of %v runs: %v, want Black's", side, running)
	}
	s.Same(4 * time.Second)
	if got := s.Board(1).Left(clock.Black, s.Now); got != 598*time.Second {
		t.Errorf("Black has %v, want 598 s: 602 less 4", got)
	}
}

// TestLateClock: the clock of a move often comes one poll after the move.
func TestLateClock(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Control: "600+5", Moves: "e4 e5", Clocks: []string{"0:10:03", ""}}
	s.Take(relaytest.Packet(game))
	before := s.Board(1)
	game.Clocks[1] = "0:09:00"
	s.Take(relaytest.Packet(game))
	b := s.Board(1)
	if got := b.Plies[1].Timed.Spent; got != 65*time.Second {
		t.Errorf("spent %v, want 65 s", got)
	}
	if b.Keep != 1 || b.Correction != nil {
		t.Errorf("keep %d, correction %v; want 1 and none", b.Keep, b.Correction)
	}
	if got := before.Plies[1].Timed.SpentQuality; got == clock.QualityRead {
		t.Errorf("the revision before changed under its readers: %v", got)
	}
}

// TestNoClocksAtAll: both sides keep an estimated clock, whatever came together.
func TestNoClocksAtAll(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Moves: ""}))
	for _, moves := range []string{"e4", "e4 e5", "e4 e5 Nf3 Nc6", "e4 e5 Nf3 Nc6 Bb5", "e4 e5 Nf3 Nc6 Bb5 a6"} {
		s.Same(4 * time.Second)
		s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Moves: moves}))
	}
	for i, ply := range s.Board(1).Plies {
		if ply.Timed.LeftQuality != clock.QualityEstimated {
			t.Errorf("ply %d: clock %v %v, want an estimate", i+1, ply.Timed.Left, ply.Timed.LeftQuality)
		}
	}
	if got := s.Board(1).Plies[5].Timed.Spent; got != 5*time.Second {
		t.Errorf("ply 6 took %v, want the 5 s between its receipt and the one before", got)
	}
}

// TestMissingClock: without any clock in the feed, times come from receipts and
// say so.
func TestMissingClock(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Moves: ""}))
	s.Same(3 * time.Second)
	s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Moves: "e4"}))
	s.Same(9 * time.Second)
	s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Moves: "e4 e5"}))
	timed := s.Board(1).Plies[1].Timed
	if timed.Spent != 10*time.Second || timed.SpentQuality != clock.QualityEstimated {
		t.Errorf("spent %v (%v), want 10 s estimated", timed.Spent, timed.SpentQuality)
	}
	if timed.Left != 595*time.Second || timed.LeftQuality != clock.QualityEstimated {
		t.Errorf("left %v (%v), want 595 s estimated", timed.Left, timed.LeftQuality)
	}
}

// TestJoinedLate: of a game found under way nobody knows when its last move was
// made, so its running clock is not sure; from the next move on it is.
func TestJoinedLate(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4 e5 Nf3"}))
	if s.Board(1).AnchorSure() {
		t.Error("the clock of a game joined late is taken as sure")
	}
	s.Same(2 * time.Second)
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4 e5 Nf3 Nc6"}))
	if !s.Board(1).AnchorSure() {
		t.Error("the clock is not sure after a move that came live")
	}
}

func TestLateTimeControl(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Moves: "e4 e5 Nf3", Clocks: []string{"0:10:03", "0:10:02", "0:09:38"}}
	s.Take(relaytest.Packet(game))
	game.Control = "600+5"
	s.Take(relaytest.Packet(game))
	if got := s.Board(1).Plies[0].Timed.Spent; got != 2*time.Second {
		t.Errorf("spent %v, want 2 s once the control is known", got)
	}
}

func TestResultStopsTheClock(t *testing.T) {
	s := relaytest.NewStage()
	drawn := relaytest.Game{Moves: "e4 e5", Result: "1/2-1/2"}
	s.Take(relaytest.Packet(drawn))
	if _, running := s.Board(1).Running(); running {
		t.Error("a clock runs after the result")
	}
	s.Take(relaytest.Packet(drawn, relaytest.Game{White: "Maat, M", Table: "9", Moves: "f3 e5 g4 Qh4#"}))
	if _, running := s.Board(2).Running(); running {
		t.Error("a clock runs after mate")
	}
}

func TestStartPosition(t *testing.T) {
	// PGN 16.1.4 prints this position.
	text := "[White \"A\"]\n[Black \"B\"]\n[SetUp \"1\"]\n[FEN \"4k3/8/8/8/8/8/4P3/4K3 w - - 5 39\"]\n\n39. e4 Kd7 *\n"
	s := relaytest.NewStage()
	s.Take(text)
	b := s.Board(1)
	wantSANs(t, b, "e4 Kd7")
	if number, side := b.MoveNumber(1); number != 39 || side != clock.Black {
		t.Errorf("ply 2 is move %d of %v, want 39 of Black", number, side)
	}
	if got := b.HalfMove(0); got != 77 {
		t.Errorf("ply 1 is half-move %d, want 77", got)
	}
	s = relaytest.NewStage()
	s.Take("[White \"A\"]\n[Black \"B\"]\n[SetUp \"1\"]\n[FEN \"4k3/8/8/8/8/8/4P3/4K3 b - - 5 39\"]\n\n39... Kd7 40. e4 *\n")
	b = s.Board(1)
	if number, side := b.MoveNumber(0); number != 39 || side != clock.Black || b.HalfMove(0) != 78 {
		t.Errorf("ply 1 is move %d of %v, half-move %d; want 39 of Black, 78", number, side, b.HalfMove(0))
	}
}
