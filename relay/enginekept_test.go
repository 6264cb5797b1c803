package relay_test

import (
	"strings"
	"testing"

	"clocktell/relay"
	"clocktell/relay/desk"
	"clocktell/relay/relaytest"
)

// TestSentenceIsKeptBack: while viewers are asked for a board's next move, what the engine says of
// it gets out in no other way: not put on the air by its key, which a page may have had before the
// question, and not as marks, which all desks see. Before and afterwards it does.
func TestSentenceIsKeptBack(t *testing.T) {
	s := relaytest.NewStage()
	turn(s)
	item := s.Show.Said.Items[0]
	if item.Text != turned {
		t.Fatalf("the newest sentence is %q", item.Text)
	}
	air := relay.AtPanel{Who: "Bo", Act: relay.PanelAir, Prompt: item.Key()}
	do(t, s, relay.AtDesk{Action: "look-at", Board: 1})
	do(t, s, relay.AtDesk{Action: "prepare-challenge", Who: "Ada"})
	do(t, s, relay.AtDesk{Action: "ask", Who: "Ada"})
	if why := s.AtPanel(air); why != desk.ErrHidesEngine.Error() || s.Show.OnAir.Caption != nil {
		t.Errorf("put on the air: %q, and there is %+v", why, s.Show.OnAir.Caption)
	}
	do(t, s, relay.AtDesk{Action: "lead", Who: "Bo", Over: true})
	if why := s.AtDesk(relay.AtDesk{Action: "mark-fact", Who: "Bo", Prompt: item.Key()}); why != desk.ErrHidesEngine.Error() {
		t.Errorf("its marks by the key: %q", why)
	}
	if why := s.AtDesk(relay.AtDesk{Action: "mark-fact", Who: "Bo"}); !strings.Contains(why, "points at anything") || len(s.Show.Desk.Marks) != 0 {
		t.Errorf("the newest marks: %q, and there are %v", why, s.Show.Desk.Marks)
	}
	do(t, s, relay.AtDesk{Action: "end-challenge", Who: "Bo"})
	if why := s.AtPanel(air); why != "" || s.Show.OnAir.Caption == nil {
		t.Errorf("after the question: %q", why)
	}
	do(t, s, relay.AtDesk{Action: "mark-fact", Who: "Bo"})
	if len(s.Show.Desk.Marks) == 0 {
		t.Error("after the question nothing is marked")
	}
}
