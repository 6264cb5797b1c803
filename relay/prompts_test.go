package relay

import (
	"fmt"
	"testing"
	"time"

	"clocktell/relay/prompt"
)

// TestFullMoveBudget: however far apart in time, a full move gets at most three prompts,
// and of those of the background only as many as leave room for one that cannot wait. The
// design's budget: three new ones per full move and board.
func TestFullMoveBudget(t *testing.T) {
	at := time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)
	var p Prompts
	var standing []Alert
	for i, test := range []struct {
		ply      int
		game     int
		priority prompt.Priority
		said     bool
	}{
		{28, 1, prompt.Background, true}, // of the move before
		{29, 1, prompt.Background, true},
		{30, 1, prompt.Soon, true},
		{30, 1, prompt.Background, false}, // the third, and not urgent
		{30, 1, prompt.Soon, true},
		{30, 1, prompt.Soon, false}, // the fourth
		{30, 1, prompt.Now, false},  // urgent, and yet the fourth: nobody can say it
		{31, 1, prompt.Background, true},
		{32, 1, prompt.Soon, true},
		{32, 1, prompt.Now, true},
		{29, 2, prompt.Background, true}, // of the next game
	} {
		at = at.Add(promptsSpell)
		a := Alert{
			ID: fmt.Sprintf("board1-game%d-%s-white-%d", test.game, AlertLongThink, i), Kind: AlertLongThink, Side: "white", Ply: test.ply, At: at,
			Say: prompt.Prompt{Kind: prompt.KindClock, Priority: test.priority, Text: fmt.Sprintf("Sentence %d.", i)},
		}
		was := standing
		standing = append(was[:len(was):len(was)], a)
		before := len(p.Items)
		p, _ = p.follow(was, standing, juncture{1, test.ply, (test.ply + 1) / 2, (test.ply + 2) / 2}, at)
		if said := len(p.Items) > before; said != test.said {
			t.Errorf("%d, ply %d of game %d, %q: said %v, want %v", i, test.ply, test.game, test.priority, said, test.said)
		}
	}
}

// TestStandsAgain: a prompt that is withdrawn and true again before it has left the list
// stands again in its place, and is not listed twice.
func TestStandsAgain(t *testing.T) {
	at := time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)
	alert := Alert{
		ID: "board1-game1-clockLead-white", Kind: AlertClockLead, Side: "white", At: at,
		Say: prompt.Prompt{Kind: prompt.KindClock, Priority: prompt.Background, Text: "A leads."},
	}
	p, _ := Prompts{}.follow(nil, []Alert{alert}, juncture{1, 1, 1, 1}, at)
	p, _ = p.follow([]Alert{alert}, nil, juncture{1, 1, 1, 1}, at.Add(time.Second))
	rev := p.Rev
	p, _ = p.follow(nil, []Alert{alert}, juncture{1, 1, 1, 1}, at.Add(2*time.Second))
	if len(p.Items) != 1 || !p.Items[0].Withdrawn.IsZero() || p.Rev != rev+1 {
		t.Errorf("listed: %+v, revision %d after %d", p.Items, p.Rev, rev)
	}
}
