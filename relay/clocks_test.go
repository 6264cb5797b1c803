package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

// tagged puts tags into a game's text.
func tagged(text string, tags ...string) string {
	return "[" + strings.Join(tags, "]\n[") + "]\n" + text
}

// stageWith is a stage whose primary is said to do this with its clocks.
func stageWith(clocks relay.ClockPlan) *relaytest.Stage {
	plan := relaytest.Plan()
	plan.Feeds[0].Clocks = clocks
	return relaytest.NewStageOf(plan)
}

// PGN supplement (draft of 2001), sections 5 and 6: WhiteClock and BlackClock are the
// settings at the start and count before TimeControl; the values are its samples.
func TestClocksAtTheStart(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Control: "40/7200:3600", Moves: "e4 e5", Clocks: []string{"1:06:00", "0:55:30"}}
	s.Take(tagged(relaytest.Packet(game), `WhiteClock "1:07:00"`, `BlackClock "0:56:00"`))
	b := s.Board(1)
	for i, want := range []time.Duration{time.Minute, 30 * time.Second} {
		if got := b.Plies[i].Timed; got.Spent != want || got.SpentQuality != clock.QualityRead || got.Doubt != "" {
			t.Errorf("ply %d: %+v, want %v spent", i+1, got, want)
		}
	}
}

// TestAdjournedGame: with clocks set anew and a position of move 38, the control is three
// moves away.
func TestAdjournedGame(t *testing.T) {
	s := relaytest.NewStage()
	text := relaytest.Packet(relaytest.Game{Control: "40/7200:3600", Moves: "Kd2 Kd7 Kd3 Kd6 Kd2 Kd7", Clocks: []string{"0:04:00", "0:03:00", "0:03:00", "0:02:00", "1:02:00", "1:01:00"}})
	s.Take(tagged(text, `SetUp "1"`, `FEN "4k3/8/8/8/8/8/4P3/4K3 w - - 0 38"`, `WhiteClock "0:05:00"`, `BlackClock "0:04:00"`))
	b := s.Board(1)
	if len(b.Plies) != 6 || b.Fault != "" {
		t.Fatalf("%d plies, fault %q", len(b.Plies), b.Fault)
	}
	for i := range b.Plies {
		if got := b.Plies[i].Timed; got.Spent != time.Minute || got.Doubt != "" {
			t.Errorf("ply %d: %+v, want a minute spent", i+1, got)
		}
	}
}

// PGN supplement (draft of 2001), section 5: Clock is the running clock while the text
// is written, and may not be that of the side on move.
func TestClockTag(t *testing.T) {
	game := relaytest.Packet(relaytest.Game{Control: "600", Moves: "e4 e5 Nf3", Clocks: []string{"0:09:58", "0:09:57", "0:09:50"}})
	tests := []struct {
		tag    string
		left   time.Duration
		counts bool
	}{
		{`Clock "B/0:09:12"`, 9*time.Minute + 12*time.Second, true},
		{`Clock "W/0:09:12"`, 9*time.Minute + 57*time.Second, false},
		{`Clock "N/0:09:12"`, 9*time.Minute + 57*time.Second, false},
		{`Clock "B/0:09:58"`, 9*time.Minute + 57*time.Second, false}, // more than it had
		{`Clock "B/now"`, 9*time.Minute + 57*time.Second, false},
		{`Clocks ""`, 9*time.Minute + 57*time.Second, false},
	}
	for _, tt := range tests {
		s := relaytest.NewStage()
		s.Take(tagged(game, tt.tag))
		b := s.Board(1)
		if got := b.Left(clock.Black, s.Now); (got-tt.left).Abs() > time.Second || b.Timing.Learnt != tt.counts {
			t.Errorf("%s: Black has %v, counted %v; want %v, %v", tt.tag, got, b.Timing.Learnt, tt.left, tt.counts)
		}
	}
	s := relaytest.NewStage()
	s.Take(tagged(game, `Clock "B/0:09:55"`))
	s.Same(20 * time.Second)
	s.Take(tagged(game, `Clock "B/0:09:25"`)) // the feed knows better: nine seconds less than it seems
	if got := s.Board(1).Left(clock.Black, s.Now); (got - 565*time.Second).Abs() > time.Second {
		t.Errorf("Black has %v, want 565 s", got)
	}
	rev := s.Board(1).Rev
	s.Take(tagged(game, `Clock "B/0:09:24"`))
	if got := s.Board(1).Rev; got != rev {
		t.Errorf("a Clock tag that says nothing new made revision %d of %d", got, rev)
	}
}

// TestBeforeTheIncrement: clocks below the increment show that the feed writes them
// before it. All are reckoned anew, and the feed's next game profits.
func TestBeforeTheIncrement(t *testing.T) {
	s := relaytest.NewStage()
	first := relaytest.Game{Control: "60+5", Moves: "e4 e5 Nf3 Nc6", Clocks: []string{"0:00:50", "0:00:58", "0:00:20", "0:00:59"}}
	s.Take(relaytest.Packet(first))
	if got := s.Board(1).Plies[0].Timed.Left; got != 50*time.Second {
		t.Fatalf("nothing shows it yet, and White has %v", got)
	}
	first.Moves, first.Clocks = first.Moves+" Bb5 a6 Ba4 Nf6 O-O", append(first.Clocks, "0:00:02", "0:00:59", "0:00:03", "0:00:58", "0:00:01")
	s.Take(relaytest.Packet(first))
	b := s.Board(1)
	for i, want := range []struct{ left, spent time.Duration }{{55, 10}, {63, 2}, {25, 35}, {64, 4}, {7, 23}, {64, 5}, {8, 4}, {63, 6}, {6, 7}} {
		if got := b.Plies[i].Timed; got.Left != want.left*time.Second || got.Spent != want.spent*time.Second || got.Doubt != "" {
			t.Errorf("ply %d: %+v, want %d s left, %d spent", i+1, got, want.left, want.spent)
		}
	}
	second := relaytest.Game{White: "Gast, G", Black: "Hafen, H", Table: "2", Control: "60+5", Moves: "d4", Clocks: []string{"0:00:50"}}
	s.Take(relaytest.Packet(first, second))
	if got := s.Board(2).Plies[0].Timed.Left; got != 55*time.Second {
		t.Errorf("in the feed's next game White has %v, want 55 s", got)
	}
	said := stageWith(relay.ClockPlan{Reads: relay.ReadsAfter})
	said.Take(relaytest.Packet(first))
	if got := said.Board(1).Plies[0].Timed.Left; got != 50*time.Second {
		t.Errorf("configured to be read after, White has %v, want 50 s", got)
	}
}

// TestClocksOfTheFeed: control, unequal starts and delay that only the configuration
// knows, and tags that come before it.
func TestClocksOfTheFeed(t *testing.T) {
	control, err := clock.ParseControl("300")
	if err != nil {
		t.Fatal(err)
	}
	plan := relay.ClockPlan{Control: control, Delay: clock.Delay{Kind: clock.Simple, Time: 3 * time.Second}}
	plan.Starts[clock.Black] = clock.Value{D: 240 * time.Second, OK: true}
	s := stageWith(plan)
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4 e5", Clocks: []string{"0:04:50", "0:03:50"}}))
	b := s.Board(1)
	for i := range b.Plies {
		if got := b.Plies[i].Timed; got.Spent != 13*time.Second || got.SpentQuality != clock.QualityRead {
			t.Errorf("ply %d: %+v, want 13 s spent", i+1, got)
		}
	}
	s.Same(2 * time.Second)
	if got := s.Board(1).Left(clock.White, s.Now); got != 290*time.Second {
		t.Errorf("inside the delay White has %v, want 290 s", got)
	}
	s.Same(3 * time.Second)
	if got := s.Board(1).Left(clock.White, s.Now); got != 288*time.Second {
		t.Errorf("two seconds past it White has %v, want 288 s", got)
	}
	s = stageWith(plan)
	s.Take(relaytest.Packet(relaytest.Game{Control: "600", Moves: "e4", Clocks: []string{"0:09:50"}}))
	if got := s.Board(1).Control.Periods[0].Base; got != 600*time.Second {
		t.Errorf("the tag says 600 s, the board %v", got)
	}
}

// PGN 1994, 9.6.1, "*180": what one side uses the other gets, on the air as well.
func TestHourglass(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "*180", Moves: "e4 e5 Nf3", Clocks: []string{"0:02:40", "0:03:10", "0:02:45"}}))
	b := s.Board(1)
	for i, want := range []time.Duration{20, 10, 5} {
		if got := b.Plies[i].Timed; got.Spent != want*time.Second || got.SpentQuality != clock.QualityRead {
			t.Errorf("ply %d: %+v, want %d s spent", i+1, got, want)
		}
	}
	if white, black := b.Left(clock.White, s.Now), b.Left(clock.Black, s.Now); white != 165*time.Second || black != 195*time.Second {
		t.Errorf("White has %v, Black %v; want 165 s and 195 s", white, black)
	}
}
