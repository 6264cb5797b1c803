package cue

import (
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestHiddenByChallenge: what happens on a board while viewers are asked for its next move is
// cued when they see it, not when it happened, and nothing of another board waits for that.
func TestHiddenByChallenge(t *testing.T) {
	plan := relaytest.Plan()
	s := relaytest.NewStageOf(plan)
	s.Record = true
	games := func(first, result, second, other string) {
		s.Take(relaytest.Packet(relaytest.Game{White: "Orsolic, Dana", Black: "Pellinen, Timo", Moves: first, Result: result},
			relaytest.Game{White: "Quaas, Birte", Black: "Rimaru, Sorin", Moves: second, Result: other}))
		s.Same(5 * time.Second)
	}
	desk := func(action string) {
		if refused := s.AtDesk(relay.AtDesk{Action: action, Board: 1}); refused != "" {
			t.Fatalf("%s: %s", action, refused)
		}
	}
	games("e4 e5 Nf3", "", "d4", "")
	for _, action := range []string{"look-at", "put-on-air", "prepare-challenge", "ask"} {
		desk(action)
	}
	games("e4 e5 Nf3 Nc6", "1-0", "d4 d5", "0-1")
	s.Same(5 * time.Second)
	revealed := s.Now
	desk("reveal")
	s.Same(30 * time.Second)
	all := again(plan, s.Events)
	for _, state := range all.states {
		if b := state.Boards; len(b) > 0 && b[0].Result == "1-0" && state.Desk.Hiding() == nil {
			revealed = state.At
			break
		}
	}
	seen := make(map[int]time.Time)
	for _, cue := range all.log.Cues {
		if cue.Kind == KindResult {
			seen[cue.Board] = cue.At
		}
	}
	if len(seen) != 2 || !seen[1].Equal(revealed) || seen[2].Add(10*time.Second).After(revealed) {
		t.Errorf("results are cued at %v, viewers see board 1 again at %v", seen, revealed)
	}
}
