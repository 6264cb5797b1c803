package relay_test

import (
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

// TestUsualDelayServesTheNextGame: what a feed's first game tells of how late it is, is
// taken for its next one until that tells more.
func TestUsualDelayServesTheNextGame(t *testing.T) {
	s, packet, intake := relaytest.NewStage(), "", relay.NewIntake(relaytest.FeedName)
	first := relaytest.Game{Control: "600"}
	var late []time.Duration
	s.Apply(intake.Read(s.Now, []byte(relaytest.Packet(first))))
	for ply := range 16 { // ten seconds a move, told at once or up to three seconds late, asked every second
		d := time.Duration(ply*7%4) * time.Second
		s.Wait(relaytest.Start.Add(time.Duration(ply+1)*10*time.Second + d - time.Second).Sub(s.Now))
		s.Apply(relay.FeedAnswered{At: s.Now, Feed: relaytest.FeedName})
		s.Wait(time.Second)
		left := 600*time.Second - time.Duration(ply/2+1)*10*time.Second
		first.Moves += []string{"Nf3 ", "Nf6 ", "Ng1 ", "Ng8 "}[ply%4]
		first.Clocks = append(first.Clocks, "0:0"+clock.Format(left))
		packet = relaytest.Packet(first)
		s.Apply(intake.Read(s.Now, []byte(packet)))
		late = append(late, d)
	}
	usual := s.Show.Feeds[0].Learnt.Late()
	if usual < time.Second || usual > 3*time.Second {
		t.Fatalf("of a feed that is %v late the usual delay is %v, want one to three seconds", late, usual)
	}
	second := relaytest.Game{White: "Gast, G", Black: "Hafen, H", Table: "2", Control: "600"}
	for _, move := range []string{"", "d4"} {
		second.Moves = move
		s.Wait(time.Second)
		s.Apply(intake.Read(s.Now, []byte(packet+relaytest.Packet(second))))
	}
	if b := s.Board(2); len(b.Plies) != 1 || b.Plies[0].Seen.Sub(b.Anchor) != usual || b.Timing.Learnt {
		t.Errorf("%d plies, anchor %v before the receipt, want the usual %v", len(b.Plies), b.Plies[0].Seen.Sub(b.Anchor), usual)
	}
}

// TestMinutesAreEstimated: of a feed that gives minutes, seconds are an estimate.
func TestMinutesAreEstimated(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Control: "5400", Moves: "e4 e5 Nf3 Nc6 Bb5 a6", Clocks: []string{"1:30:00", "1:29:00", "1:29:00", "1:28:00", "1:26:00", "1:28:00"}}
	s.Take(relaytest.Packet(game))
	if b := s.Board(1); !b.Coarse() || b.Timing.Learnt || b.Plies[4].Timed.Spent != 3*time.Minute {
		t.Errorf("coarse %v, timing %+v, ply 5 %+v", b.Coarse(), b.Timing, b.Plies[4].Timed)
	}
	game.Clocks[5] = "1:28:31"
	s.Take(relaytest.Packet(game))
	if s.Board(1).Coarse() {
		t.Error("a reading with seconds does not change it")
	}
}

// TestSwappedClocksOnAir: a feed that writes the clock of the side now on move is found
// after some moves, and every clock goes to its side.
func TestSwappedClocksOnAir(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Control: "600"}
	spent := [2]time.Duration{4 * time.Second, 24 * time.Second} // White is quick, Black thinks
	left := [2]time.Duration{600 * time.Second, 600 * time.Second}
	for ply := range 20 {
		s.Same(spent[ply%2] - time.Second)
		left[ply%2] -= spent[ply%2]
		game.Moves += []string{"Nf3 ", "Nf6 ", "Ng1 ", "Ng8 "}[ply%4]
		game.Clocks = append(game.Clocks, "0:"+clock.Format(left[1-ply%2]+600*time.Second)) // 20 min each: two digits
		game.Control = "1200"
		s.Take(relaytest.Packet(game))
	}
	b := s.Board(1)
	for i := 2; i < 19; i++ {
		if got := b.Plies[i].Timed; got.Spent != spent[i%2] || got.LeftQuality == clock.QualityNone {
			t.Errorf("ply %d: %+v, want %v spent", i+1, got, spent[i%2])
		}
	}
	if b.Plies[19].Mended == "" {
		t.Error("nobody is told")
	}
}

// TestAddedTimeTeachesNothing: from a clock that was set nobody learns when it ran.
func TestAddedTimeTeachesNothing(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{Control: "600"}
	for ply, left := range []string{"0:09:56", "0:09:56", "0:09:52", "0:09:52", "0:09:48", "0:09:48", "0:11:44"} {
		s.Same(3 * time.Second)
		game.Moves += []string{"Nf3 ", "Nf6 ", "Ng1 ", "Ng8 "}[ply%4]
		game.Clocks = append(game.Clocks, left)
		s.Take(relaytest.Packet(game))
		if b := s.Board(1); b.Timing.Learnt != (ply >= 3 && ply < 6) {
			t.Errorf("ply %d: learnt %v, %+v", ply+1, b.Timing.Learnt, b.Plies[ply].Timed)
		}
	}
	if b := s.Board(1); !b.Anchor.Equal(b.Plies[6].Seen) || b.Plies[6].Timed.Doubt == "" {
		t.Errorf("anchor %v, received %v, doubt %q", b.Anchor, b.Plies[6].Seen, b.Plies[6].Timed.Doubt)
	}
}
