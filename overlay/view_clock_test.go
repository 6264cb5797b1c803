package overlay

import (
	"testing"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

// TestDelayInTheFrame: a clock with a simple delay of three seconds runs from three
// seconds later on, and as much has been spent then.
func TestDelayInTheFrame(t *testing.T) {
	plan := relaytest.Plan()
	plan.Feeds[0].Clocks = relay.ClockPlan{Delay: clock.Delay{Kind: clock.Simple, Time: 3 * time.Second}}
	s := relaytest.NewStageOf(plan)
	s.Take(relaytest.Packet(relaytest.Game{Control: "300", Moves: "e4", Clocks: []string{"0:04:50"}}))
	b := s.Board(1)
	frame := boardFrame(b, 0)
	if c := frame.Control; c.Delay != wire.DelaySimple || c.DelayMs != 3000 {
		t.Errorf("control %+v", c)
	}
	got := frame.Black.Clock
	if got.State != "running" || got.LeftMs != 300_000 || got.SpentMs != 3000 || got.At != b.Anchor.UnixMilli()+3000 {
		t.Errorf("got %+v with the anchor at %d", got, b.Anchor.UnixMilli())
	}
}

// TestBronsteinInTheFrame: that clock falls at once.
func TestBronsteinInTheFrame(t *testing.T) {
	plan := relaytest.Plan()
	plan.Feeds[0].Clocks = relay.ClockPlan{Delay: clock.Delay{Kind: clock.Bronstein, Time: 3 * time.Second}}
	s := relaytest.NewStageOf(plan)
	s.Take(relaytest.Packet(relaytest.Game{Control: "300", Moves: "e4", Clocks: []string{"0:04:50"}}))
	b := s.Board(1)
	frame := boardFrame(b, 0)
	if c := frame.Control; c.Delay != wire.DelayBronstein || c.DelayMs != 3000 || c.Hourglass {
		t.Errorf("control %+v", c)
	}
	if got := frame.Black.Clock; got.State != wire.StateRunning || got.SpentMs != 0 || got.At != b.Anchor.UnixMilli() {
		t.Errorf("got %+v with the anchor at %d", got, b.Anchor.UnixMilli())
	}
}

// TestMinutesInTheFrame: a clock that runs on from whole minutes is an estimate.
func TestMinutesInTheFrame(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "5400"}))
	s.Take(relaytest.Packet(relaytest.Game{Control: "5400", Moves: "e4"}))
	moves, clocks := "e4", []string{""}
	for _, next := range []struct{ san, left string }{{"e5", "1:30:00"}, {"Nf3", "1:29:00"}, {"Nc6", "1:29:00"}, {"Bb5", "1:28:00"}, {"a6", "1:28:00"}, {"Ba4", "1:27:00"}} {
		moves, clocks = moves+" "+next.san, append(clocks, next.left)
		s.Take(relaytest.Packet(relaytest.Game{Control: "5400", Moves: moves, Clocks: clocks}))
	}
	frame := boardFrame(s.Board(1), 0)
	if black, white := frame.Black.Clock.Quality, frame.White.Clock.Quality; black != wire.QualityEstimated || white != wire.QualityRead {
		t.Errorf("Black's running clock is %s, White's %s; want estimated, read", black, white)
	}
	if step := frame.White.Clock.StepMs; step != 60_000 {
		t.Errorf("the readings are said to be multiples of %d ms", step)
	}
}

// TestHourglassInTheFrame: what the side on move loses the other gets, while it is lost,
// when the clocks are held, and when the game has ended there.
func TestHourglassInTheFrame(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Control: "*60"}
	for _, next := range []struct{ moves, left string }{{"", ""}, {"e4", "0:00:59"}, {"e4 e5", "0:01:00"}} {
		game.Moves = next.moves
		if next.left != "" {
			game.Clocks = append(game.Clocks, next.left)
		}
		s.Take(relaytest.Packet(game))
	}
	frame := boardFrame(s.Board(1), 0)
	white, black := frame.White.Clock, frame.Black.Clock
	if !frame.Control.Hourglass || white.State != wire.StateRunning || black.State != wire.StateRising || white.LeftMs+black.LeftMs != 120_000 {
		t.Fatalf("hourglass %v: White %+v, Black %+v", frame.Control.Hourglass, white, black)
	}
	s.Wait(20 * time.Second)
	b := s.Board(1)
	frame = boardFrame(b, 0)
	held, other := frame.White.Clock, frame.Black.Clock
	if held.State != wire.StateHeld || other.State != wire.StateHeld || held.LeftMs+other.LeftMs != 120_000 || other.LeftMs < black.LeftMs+10_000 {
		t.Errorf("held: White %+v, Black %+v", held, other)
	}
	game.Result = "0-1"
	s.Take(relaytest.Packet(game))
	frame = boardFrame(s.Board(1), 0)
	if over := frame.White.Clock.LeftMs + frame.Black.Clock.LeftMs; over != 120_000 || frame.White.Clock.LeftMs >= white.LeftMs {
		t.Errorf("over: White %+v, Black %+v", frame.White.Clock, frame.Black.Clock)
	}
}

// TestPrecisionInTheFrame: how fine the readings are, and how exactly it is known when the
// running clock began to run.
func TestPrecisionInTheFrame(t *testing.T) {
	for _, test := range []struct {
		left         string
		pause        time.Duration
		step, unsure int64
		quality      string
	}{
		{"0:09:50", 0, 1000, 1000, wire.QualityRead},
		{"0:09:50.3", 0, 100, 1000, wire.QualityRead},
		{"0:09:50", 40 * time.Second, 1000, 41_000, wire.QualityEstimated},
		{"", 0, 0, 1000, wire.QualityRead}, // Black's has not run yet
	} {
		s := relaytest.NewStage()
		s.Take(relaytest.Packet(relaytest.Game{Control: "600"}))
		s.Wait(test.pause)
		s.Take(relaytest.Packet(relaytest.Game{Control: "600", Moves: "e4", Clocks: []string{test.left}}))
		frame := boardFrame(s.Board(1), 0)
		got := frame.Black.Clock
		if got.State != wire.StateRunning || got.StepMs != test.step || got.UnsureMs != test.unsure || got.Quality != test.quality {
			t.Errorf("clock %q after %v of silence: %+v", test.left, test.pause, got)
		}
		if frame.White.Clock.UnsureMs != 0 {
			t.Errorf("White's clock stands, and is unsure to %d ms", frame.White.Clock.UnsureMs)
		}
	}
}

// TestMarksInTheFrame: a clock that cannot be right, and one that is none, are marked where
// they stand, and so is the clock that comes of them.
func TestMarksInTheFrame(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "600", Moves: "e4 e5 Nf3 Nc6", Clocks: []string{"0:09:50", "0:09:51", "0:14:00", "0:0x:00"}}))
	frame := boardFrame(s.Board(1), 0)
	for i, want := range []string{"", "", wire.MarkDoubtful, wire.MarkUnread} {
		if got := frame.Plies[i]; got.Mark != want || (got.Remark == "") != (want == "") {
			t.Errorf("ply %d is marked %q, %q; want %q", i+1, got.Mark, got.Remark, want)
		}
	}
	white, black := frame.White.Clock, frame.Black.Clock
	if white.Mark != wire.MarkDoubtful || white.Remark != frame.Plies[2].Remark || black.Mark != wire.MarkUnread {
		t.Errorf("White %+v, Black %+v", white, black)
	}
	mended := relay.Ply{Mended: clock.MendedPair}
	if mark, remark := markOf(&mended); mark != wire.MarkMended || remark != clock.MendedPair {
		t.Errorf("mended: %q, %q", mark, remark)
	}
}

// TestErrorsInTheFrame: a move that comes twelve seconds later than its clock tells shows
// the running clock to have been wrong; so do the sources, and the next game knows nothing
// of it.
func TestErrorsInTheFrame(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Control: "600", Clocks: []string{"0:09:55", "0:09:55", "0:09:50", "0:09:50"}}
	for i, moves := range []string{"e4", "e4 e5", "e4 e5 Nf3", "e4 e5 Nf3 Nc6"} {
		if i == 3 {
			s.Same(12 * time.Second)
		}
		s.Same(4 * time.Second)
		game.Moves = moves
		s.Take(relaytest.Packet(game))
	}
	got := sourcesFrame(s.Show).Items[0].Error
	if got.Count != 3 || got.LastMs != 11_000-1000 || got.MedianMs != 0 {
		t.Errorf("got %+v, want three errors, the last 10 s and the middle one none", got)
	}
	s.Take(relaytest.Packet(relaytest.Game{White: "Gast, G", Black: "Hafen, H", Control: "600", Moves: "d4"}))
	items := sourcesFrame(s.Show).Items
	if next := items[len(items)-1]; next.White != "Gast, G" || next.Error.Count != 0 {
		t.Errorf("the next game begins with %+v", next)
	}
}

// TestLatenessAndNoteInTheFrame: what is learnt of a feed, null before, and how it is
// watched.
func TestLatenessAndNoteInTheFrame(t *testing.T) {
	s := relaytest.NewStage()
	note := func(feed string) string { return "watched as " + feed }
	if item := feedsFrame(s.Show, "", note).Items[0]; item.LateMs != nil || item.Note != "watched as "+relaytest.FeedName {
		t.Errorf("before the first move: %+v", item)
	}
	game := relaytest.Game{Control: "600"}
	for ply := range 14 {
		s.Same(4 * time.Second)
		game.Moves += []string{"Nf3 ", "Nf6 ", "Ng1 ", "Ng8 "}[ply%4]
		game.Clocks = append(game.Clocks, "0:0"+clock.Format(600*time.Second-time.Duration(ply/2+1)*5*time.Second))
		s.Take(relaytest.Packet(game))
	}
	f := s.Show.Feeds[0]
	late := feedsFrame(s.Show, "", nil).Items[0].LateMs
	if late == nil || *late != f.Learnt.Late().Milliseconds() || *late > 2000 {
		t.Errorf("a feed that tells at once is said to be late by %v ms", late)
	}
}
