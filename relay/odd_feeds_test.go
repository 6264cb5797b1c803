package relay_test

import (
	"runtime"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

// TestSameGame: what a feed may mend without its game being taken for another.
func TestSameGame(t *testing.T) {
	base := relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3", Clocks: []string{"0:10:03", "0:10:02", "0:08:20"}}
	for _, test := range []struct {
		name  string
		mend  func(g *relaytest.Game)
		plies int
		fresh bool
	}{
		{"a name", func(g *relaytest.Game) { g.White = "Weiss, Wanda M." }, 4, false},
		{"a name and the last move", func(g *relaytest.Game) { g.White, g.Moves = "Weiss, Wanda M.", "e4 e5 Nc3" }, 3, false},
		{"both names", func(g *relaytest.Game) { g.White, g.Black = "Weiß, W", "Noir, N" }, 4, false},
		{"a late round", func(g *relaytest.Game) { g.Round = "?" }, 4, false},
		{"another round", func(g *relaytest.Game) { g.Round, g.Moves = "2", "d4" }, 1, true},
		{"colours swapped", func(g *relaytest.Game) { g.White, g.Black, g.Moves = g.Black, g.White, "e4 c5" }, 2, true},
		{"other players", func(g *relaytest.Game) { g.White, g.Black, g.Moves = "Alba, A", "Basil, B", "e4" }, 1, true},
	} {
		for _, table := range []string{"", "1"} {
			first, next := base, base
			first.Table, next.Table = table, table
			first.White, first.Black, next.White, next.Black = "Weiss, W", "Noir, Noel", "Weiss, W", "Noir, Noel"
			next.Moves = base.Moves + " Nc6"
			test.mend(&next)
			s := relaytest.NewStage()
			s.Take(relaytest.Packet(first))
			seen := s.Board(1).Seen
			s.Same(20 * time.Second)
			s.Take(relaytest.Packet(next))
			b := s.Board(1)
			if len(s.Show.Boards) != 1 || len(b.Plies) != test.plies || b.Seen.Equal(seen) == test.fresh || (b.Correction != nil) != strings.Contains(test.name, "last move") {
				t.Errorf("%s, table %q: %d boards, %d plies, seen at %v (first %v), correction %v",
					test.name, table, len(s.Show.Boards), len(b.Plies), b.Seen, seen, b.Correction)
			}
		}
	}
}

// TestRematch: the same two play again at the same table in the same round.
func TestRematch(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Table: "1", Moves: "e4 e5 Nf3", Result: "1-0"}))
	s.Take(relaytest.Packet(relaytest.Game{Table: "1", Moves: ""}))
	if b := s.Board(1); len(b.Plies) != 0 || b.Correction != nil || b.Result != "*" || b.Game != 1 {
		t.Errorf("%d plies, correction %v, result %s, game %d", len(b.Plies), b.Correction, b.Result, b.Game)
	}
}

// TestPromptsOfTheGameBefore: what was said of one game is not said of the next.
func TestPromptsOfTheGameBefore(t *testing.T) {
	clocks := []string{"0:10:03", "0:02:00", "0:10:05", "0:01:50"}
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{White: "Alt, A", Table: "1", Control: "600+5", Moves: "e4 e5 Nf3 Nc6", Clocks: clocks}))
	s.Take(relaytest.Packet(relaytest.Game{White: "Neu, N", Table: "1", Round: "2", Control: "600+5", Moves: "d4 d5 c4 e6", Clocks: clocks}))
	holds := 0
	for _, item := range s.Show.Said.Items {
		if item.Withdrawn.IsZero() {
			holds++
			if strings.Contains(item.Text, "Alt") {
				t.Errorf("still said: %s", item.Text)
			}
		}
	}
	if holds == 0 {
		t.Error("nothing is said of the new game: the test shows nothing")
	}
}

// TestCutTextTakesNothing: neither a result nor a fault goes with the end of a
// text that breaks off.
func TestCutTextTakesNothing(t *testing.T) {
	s := relaytest.NewStage()
	whole := "[White \"A\"]\n[Black \"B\"]\n[Result \"*\"]\n\n1. e4 e5 2. Nf3 Nc6 1-0\n"
	s.Take(whole)
	s.Take(strings.TrimSuffix(whole, "1-0\n"))
	if got := s.Board(1).Result; got != "1-0" {
		t.Errorf("result %s, want still 1-0", got)
	}
	s = relaytest.NewStage()
	broken := "[White \"A\"]\n[Black \"B\"]\n\n1. e4 e5 2. Nf3 Qh3 3. Bc4 *\n"
	s.Take(broken)
	s.Take(broken[:strings.Index(broken, "2.")+2])
	if s.Board(1).Fault == "" {
		t.Error("the fault is gone with the text that showed it")
	}
}

// TestCutAnywhere cuts a packet at every byte: whatever is left of it takes no ply,
// no clock, no name and no result away, and leaves no trace once it is whole again.
func TestCutAnywhere(t *testing.T) {
	game := relaytest.Game{White: "Alba, Anna", Control: "600+5", Moves: "e4 e5 Nf3 Nc6", Clocks: []string{"0:10:03", "0:07:02", "0:10:00", "0:03:00"}}
	other := relaytest.Game{White: "Basil, Bo", Control: "600+5", Moves: "d4 d5", Result: "1/2-1/2", Clocks: []string{"0:10:03", "0:10:02"}}
	whole := relaytest.Packet(game, other)
	for cut := range len(whole) {
		s := relaytest.NewStage()
		s.Take(whole)
		want := *s.Board(1)
		s.Take(whole[:cut])
		s.Take(whole)
		for i, b := range s.Show.Boards {
			if i > 1 || b.Game != 0 || b.Correction != nil || b.Fault != "" {
				t.Errorf("cut at %d (…%q): board %d, game %d, correction %+v, fault %q", cut, tailOf(whole[:cut]), b.Number, b.Game, b.Correction, b.Fault)
			}
		}
		s = relaytest.NewStage()
		s.Take(whole)
		s.Take(whole[:cut])
		b := s.Board(1)
		if len(b.Plies) != 4 || b.Plies[3].Timed != want.Plies[3].Timed || b.Players != want.Players {
			t.Errorf("cut at %d (…%q): %d plies, last %+v", cut, tailOf(whole[:cut]), len(b.Plies), b.Plies[len(b.Plies)-1].Timed)
		}
		if got := s.Board(2).Result; got != "1/2-1/2" {
			t.Errorf("cut at %d (…%q): result of board 2 is %s", cut, tailOf(whole[:cut]), got)
		}
	}
}

func tailOf(text string) string { return text[max(0, len(text)-12):] }

// TestGarbledMove: a word that was meant for a move stops the game there, and does
// not let the other side's moves slip into its place.
func TestGarbledMove(t *testing.T) {
	s := relaytest.NewStage()
	s.Take("[White \"A\"]\n[Black \"B\"]\n[SetUp \"1\"]\n[FEN \"r3k3/8/8/8/8/8/8/R3K3 w - - 0 1\"]\n\n1. Rb1 Rb8 2. Zz9 Rb4 3. Ke2 *\n")
	b := s.Board(1)
	wantSANs(t, b, "Rb1 Rb8")
	if !strings.Contains(b.Fault, "2.Zz9") || !b.Held() {
		t.Errorf("fault %q, held %v", b.Fault, b.Held())
	}
	if verdict, fine := s.Show.Verdict(); fine || !strings.Contains(verdict, "Board 1") {
		t.Errorf("verdict %q, fine %v", verdict, fine)
	}
}

// TestClockStaysWhereTheGameEnded: a result that comes in the middle of a think
// does not set the clock back up to its last reading.
func TestClockStaysWhereTheGameEnded(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Control: "600+5", Moves: "e4 e5", Clocks: []string{"0:10:03", "0:10:02"}}
	s.Take(relaytest.Packet(game))
	game.Moves, game.Clocks = "e4 e5 Nf3", append(game.Clocks, "0:10:01")
	s.Take(relaytest.Packet(game))
	s.Same(9 * time.Minute)
	game.Result = "1-0"
	s.Take(relaytest.Packet(game))
	s.Same(time.Minute)
	want := 602*time.Second - 9*time.Minute - time.Second
	if b := s.Board(1); b.Left(clock.Black, s.Now) != want || b.Left(clock.White, s.Now) != 601*time.Second {
		t.Errorf("Black has %v, want %v; White %v", b.Left(clock.Black, s.Now), want, b.Left(clock.White, s.Now))
	}
}

// TestMateIsAResult: the Laws end a game on the board (5.1.1, 5.2.1), whatever the
// arena has written so far.
func TestMateIsAResult(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Moves: "f3 e5 g4 Qh4#"}))
	if got := s.Board(1).Result; got != "0-1" {
		t.Errorf("result %s after mate by Black, want 0-1", got)
	}
	s = relaytest.NewStage()
	s.Take("[White \"A\"]\n[Black \"B\"]\n[SetUp \"1\"]\n[FEN \"7k/8/6KQ/8/8/8/8/8 w - - 0 1\"]\n\n1. Qg5 Kg8 2. Qf6 Kh8 3. Qf7 *\n")
	if got := s.Board(1).Result; got != "1/2-1/2" {
		t.Errorf("result %s after stalemate, want 1/2-1/2", got)
	}
}

// TestNoTroubleBeforeTheFirstMove: with all time from increments nobody is in
// trouble before a clock has run.
func TestNoTroubleBeforeTheFirstMove(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "0+3", Moves: ""}))
	s.Same(5 * time.Second)
	if alerts := s.Board(1).Alerts; len(alerts) != 0 {
		t.Errorf("alerts %+v", alerts)
	}
}

// TestPublishedStateStands: what one revision shows does not creep.
func TestPublishedStateStands(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3 Nc6 Bb5 a6 Ba4", Clocks: []string{"0:10:03", "0:10:02", "0:10:05", "0:10:04", "0:10:07", "0:10:06", "0:10:09"}}))
	for range 120 {
		before := s.Board(1)
		s.Same(time.Second)
		if after := s.Board(1); after.Rev == before.Rev && after.Calls[clock.Black].Thinking != before.Calls[clock.Black].Thinking {
			t.Fatalf("revision %d showed %v, then %v", after.Rev, before.Calls[clock.Black].Thinking, after.Calls[clock.Black].Thinking)
		}
	}
}

// TestTakebackWithoutResult: a text with another game behind it is whole, so what
// is missing in it was taken back.
func TestTakebackWithoutResult(t *testing.T) {
	game := func(moves string) string {
		return relaytest.Packet(relaytest.Game{White: "Alba, A", Moves: moves, Result: "none"}, relaytest.Game{White: "Basil, B", Moves: "d4"})
	}
	s := relaytest.NewStage()
	s.Take(game("e4 e5 Nf3"))
	s.Take(game("e4 e5"))
	wantSANs(t, s.Board(1), "e4 e5")
}

// TestLateTags: tags that come before the first move change the picture at once.
func TestLateTags(t *testing.T) {
	s := relaytest.NewStage()
	s.Take("[White \"\"]\n[Black \"\"]\n\n*\n")
	if s.Board(1).Rev == 0 {
		t.Error("a board that no page would ever be sent")
	}
	s.Take("[White \"A\"]\n[Black \"B\"]\n[TimeControl \"600+5\"]\n\n*\n")
	if got := s.Board(1).Control.Start(); got != 600*time.Second {
		t.Errorf("base %v, want 10 min", got)
	}
	s.Take("[White \"A\"]\n[Black \"B\"]\n[TimeControl \"600+5\"]\n[SetUp \"1\"]\n[FEN \"4k3/8/8/8/8/8/4P3/4K3 w - - 5 39\"]\n\n*\n")
	if got := s.Board(1).FEN; !strings.HasPrefix(got, "4k3/8/8/8/8/8/4P3/4K3 w") {
		t.Errorf("position %s", got)
	}
}

// TestStartPositionFaults: a start that cannot be used is told, and never shown as
// the usual one with its moves. FENs of four fields are common and read.
func TestStartPositionFaults(t *testing.T) {
	for _, test := range []struct {
		fen   string
		plies int
		fault bool
	}{
		{"4k3/8/8/8/8/8/4P3/4K3 w - -", 1, false},
		{"garbage", 0, true},
		{"nrbkqbrn/pppppppp/8/8/8/8/PPPPPPPP/NRBKQBRN w GBgb - 0 1", 0, true},
	} {
		s := relaytest.NewStage()
		s.Take("[White \"A\"]\n[Black \"B\"]\n[SetUp \"1\"]\n[FEN \"" + test.fen + "\"]\n\n1. e4 *\n")
		b := s.Board(1)
		if len(b.Plies) != test.plies || (b.Fault != "") != test.fault {
			t.Errorf("%s: %d plies, fault %q", test.fen, len(b.Plies), b.Fault)
		}
	}
}

// TestBackFromSilence: the think that ended while the feed was silent is not
// called a long one, and the board learns everything in one step.
func TestBackFromSilence(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3 Nc6 Bb5 a6", Clocks: []string{"0:10:03", "0:10:02", "0:10:05", "0:10:04", "0:10:07", "0:10:06"}}
	s.Take(relaytest.Packet(game))
	s.Wait(2 * time.Minute)
	rev := s.Board(1).Rev
	game.Moves += " Ba4 Nf6 O-O"
	game.Clocks = append(game.Clocks, "0:10:10", "0:10:08", "0:10:13")
	s.Take(relaytest.Packet(game))
	for _, item := range s.Show.Said.Items {
		if item.Alert.Kind == relay.AlertLongThink {
			t.Errorf("said after the silence: %s", item.Text)
		}
	}
	if b := s.Board(1); b.Rev != rev+1 || b.Held() || b.AnchorSure() {
		t.Errorf("rev %d after %d, held %v, sure %v", b.Rev, rev, b.Held(), b.AnchorSure())
	}
}

// TestOlderStateAndBack: a feed that for a moment tells an older state does not
// set the running clock back up when the moves come again.
func TestOlderStateAndBack(t *testing.T) {
	s := relaytest.NewStage()
	old, now := relaytest.Packet(relaytest.Game{Moves: "e4 e5 Nf3"}), relaytest.Packet(relaytest.Game{Moves: "e4 e5 Nf3 Nc6"})
	s.Take(old)
	s.Take(now)
	pressed := s.Board(1).Anchor
	s.Same(30 * time.Second)
	s.Take(old)
	s.Take(now)
	if b := s.Board(1); !b.Anchor.Equal(pressed) || b.Correction != nil {
		t.Errorf("clock from %v, want from %v; correction %+v", b.Anchor, pressed, b.Correction)
	}
}

// TestNoLeadOverAnUnknownClock: nothing is said of a clock that nobody has read.
func TestNoLeadOverAnUnknownClock(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4 e5 Nf3 Nc6 Bb5", Clocks: []string{"", "0:01:30", "", "0:01:25", ""}}))
	if got := s.Board(1).Last(clock.White).LeftQuality; got != clock.QualityNone {
		t.Fatalf("White's clock is %v: the test shows nothing", got)
	}
	for _, alert := range s.Board(1).Alerts {
		if alert.Kind == relay.AlertClockLead {
			t.Errorf("said: %s (%s)", alert.Say.Text, alert.Say.Evidence)
		}
	}
}

// TestUnreadTextStays: what cannot be read in a game stays on health while other
// games move.
func TestUnreadTextStays(t *testing.T) {
	bad := strings.Replace(relaytest.Game{White: "Alba, A", Moves: "e4 e5"}.PGN(), "e5", "e5 &&& ", 1)
	s := relaytest.NewStage()
	s.Take(bad + "\n" + relaytest.Game{White: "Basil, B", Moves: "d4"}.PGN())
	first := s.Show.Feeds[0].Reading
	s.Take(bad + "\n" + relaytest.Game{White: "Basil, B", Moves: "d4 d5"}.PGN())
	if got := s.Show.Feeds[0].Reading; len(first) == 0 || len(got) != len(first) || !strings.HasPrefix(got[0], "board 1") {
		t.Errorf("told %q, then %q", first, got)
	}
}

// TestNamesOneByOne: pairings filled in one after the other keep their boards.
func TestNamesOneByOne(t *testing.T) {
	unnamed := relaytest.Game{White: "?", Black: "?"}
	named := []relaytest.Game{{White: "A", Black: "B"}, {White: "C", Black: "D"}, {White: "E", Black: "F"}}
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(unnamed, unnamed, unnamed))
	s.Take(relaytest.Packet(unnamed, named[1], unnamed))
	s.Take(relaytest.Packet(named...))
	for i, want := range named {
		if got := s.Board(i + 1).Players[0].Name; got != want.White {
			t.Errorf("board %d shows %s, want %s", i+1, got, want.White)
		}
	}
}

// TestTwinLost: of two games with the same tags the first leaves the packet.
func TestTwinLost(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4 e5", Result: "1-0"}, relaytest.Game{Moves: "d4 d5"}))
	s.Take(relaytest.Packet(relaytest.Game{Moves: "d4 d5 c4"}))
	wantSANs(t, s.Board(1), "e4 e5")
	wantSANs(t, s.Board(2), "d4 d5 c4")
}

// TestPacketsAreForgotten: a ply must not keep the packet alive that brought it.
func TestPacketsAreForgotten(t *testing.T) {
	const padding = 1 << 20
	moves := strings.Fields("e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Nb8 d4 Nbd7")
	s := relaytest.NewStage()
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	for i := range moves {
		s.Take(relaytest.Packet(relaytest.Game{Moves: strings.Join(moves[:i+1], " ")}) + "\n% " + strings.Repeat("x", padding))
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	if grown := int64(after.HeapAlloc) - int64(before.HeapAlloc); grown > 5*padding {
		t.Errorf("the heap grew by %d KiB over %d packets of 1 MiB", grown>>10, len(moves))
	}
	runtime.KeepAlive(s)
}
