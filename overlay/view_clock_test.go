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
	got := boardFrame(b, 0).Black.Clock
	if got.State != "running" || got.LeftMs != 300_000 || got.SpentMs != 3000 || got.At != b.Anchor.UnixMilli()+3000 {
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
}
