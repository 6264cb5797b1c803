package desk

import (
	"strings"
	"testing"
	"time"
)

// TestChallenge goes from the question to the answer, with a live move in between.
func TestChallenge(t *testing.T) {
	tb := newTable(t, "e4 e5")
	tb.refused(do("ask"), "no challenge is prepared")
	tb.does(Act{Action: "prepare-challenge", Seconds: 30, Hints: []string{"a knight", "it attacks a pawn"}})
	c := tb.state.Challenge
	if c.Question != "White to move: what would you play?" || c.Number != 3 || c.State != ChallengeReady || tb.state.Asking() != nil {
		t.Fatalf("prepared: %+v", c)
	}
	tb.refused(do("give-hint"), "no question")
	tb.refused(do("reveal"), "no question")
	tb.does(do("ask"))
	if tb.state.Asking() == nil || tb.state.Challenge.Ends() != tb.now.Add(30*time.Second) {
		t.Fatalf("asked: %+v", tb.state.Challenge)
	}
	tb.refused(do("ask"), "under way")
	tb.refused(do("prepare-challenge"), "under way")
	tb.refused(do("put-on-air"), "under way")
	tb.refused(do("reveal"), "no move has been played")
	tb.does(do("give-hint"))
	tb.does(Act{Action: "give-hint", Text: "look at e5"})
	tb.does(do("give-hint"))
	tb.refused(do("give-hint"), "all hints")
	if got := strings.Join(tb.state.Challenge.Hints[:tb.state.Challenge.Given], "; "); got != "a knight; look at e5; it attacks a pawn" {
		t.Errorf("given: %s", got)
	}
	tb.play(1, "Nf3 Nc6")
	if tb.state.Challenge.FEN != tb.games[0].Position(2).String() {
		t.Error("the question moved on with the game")
	}
	tb.does(do("reveal"))
	c = tb.state.Challenge
	if c.State != ChallengeRevealed || len(c.Answer) != 1 || c.Answer[0].SAN != "Nf3" || c.Answer[0].Number != 3 || tb.state.Asking() != nil {
		t.Fatalf("revealed: %+v", c)
	}
	tb.does(do("end-challenge"))
	tb.refused(do("end-challenge"), "no challenge")
}

// TestChallengeAnsweredByALine: a side line that was prepared, or another one, is the
// answer as long as it goes on from the question.
func TestChallengeAnsweredByALine(t *testing.T) {
	tb := newTable(t, "e4 e5")
	for _, san := range strings.Fields("Qh5 Nc6 Bc4 Nf6 Qxf7#") {
		tb.does(playing(san))
	}
	mate := tb.state.Place.Move
	tb.refused(do("prepare-challenge"), "the game is over in this position")
	tb.does(withMove("go-to", tb.state.Lines()[1].ID))
	tb.does(withMove("prepare-challenge", mate))
	tb.does(do("ask"))
	tb.refused(withMove("drop-line", mate), "answer of the challenge")
	tb.does(do("reveal"))
	if a := tb.state.Challenge.Answer; len(a) != 3 || a[0].SAN != "Bc4" || a[2].SAN != "Qxf7#" {
		t.Errorf("the answer is %+v", a)
	}
	tb.does(do("end-challenge"))
	tb.does(do("to-live"))
	tb.does(playing("Nf3"))
	other := tb.state.Place.Move
	tb.does(withMove("go-to", mate-1))
	tb.refused(withMove("prepare-challenge", other), "does not go on from the position")
}

// TestChallengeIsForgotten: it ends by itself, asked or revealed.
func TestChallengeIsForgotten(t *testing.T) {
	for _, reveals := range []bool{false, true} {
		tb := newTable(t, "e4 e5")
		tb.does(Act{Action: "prepare-challenge", Seconds: 10})
		tb.does(do("ask"))
		tb.play(1, "Nf3")
		if reveals {
			tb.does(do("reveal"))
		}
		due := tb.state.Due()
		want := tb.state.Challenge.Ends().Add(forgottenFor)
		if reveals {
			played := tb.state.Challenge.Revealed.Add(StepEvery)
			if !due.Equal(played) || tb.state.Hiding() == nil {
				t.Errorf("the answer is played at %v, due is %v", played, due)
			}
			tb.now = played
			tb.follow()
			if tb.state.Hiding() != nil || tb.state.Challenge == nil {
				t.Error("played through, the answer still hides the board")
			}
			due, want = tb.state.Due(), played.Add(answerStays)
		}
		if !due.Equal(want) {
			t.Errorf("revealed %v: due %v, want %v", reveals, due, want)
		}
		if tb.state.Advance(due.Add(-1)) != tb.state {
			t.Error("it ends early")
		}
		rev, airRev := tb.state.Rev, tb.state.AirRev
		if next := tb.state.Advance(due); next.Challenge != nil || next.Rev == rev || next.AirRev == airRev || !next.Due().IsZero() {
			t.Errorf("at %v it is %+v", due, next.Challenge)
		}
	}
}

func TestChallengeLimits(t *testing.T) {
	tb := newTable(t, "e4")
	prepare := func(with func(*Act)) Act {
		act := do("prepare-challenge")
		with(&act)
		return act
	}
	tb.refused(prepare(func(a *Act) { a.Seconds = 9 }), "10 to 600 seconds")
	tb.refused(prepare(func(a *Act) { a.Seconds = 601 }), "10 to 600 seconds")
	tb.refused(prepare(func(a *Act) { a.Text = strings.Repeat("x", TextMost+1) }), "1 to 160 characters")
	tb.refused(prepare(func(a *Act) { a.Hints = make([]string, hintsMost+1) }), "5 hints")
	tb.refused(prepare(func(a *Act) { a.Hints = []string{" "} }), "a hint has")
	tb.refused(prepare(func(a *Act) { a.Move = 9 }), "does not go on")
	tb.does(prepare(func(a *Act) { a.Seconds, a.Text = 600, strings.Repeat("x", TextMost) }))
}

// TestReadyChallengeGoesWithItsGame: one that was prepared for another game is dropped.
func TestReadyChallengeGoesWithItsGame(t *testing.T) {
	tb := newTable(t, "e4")
	tb.does(do("prepare-challenge"))
	tb.games[0] = newPlayed(t, "", "")
	tb.games[0].number = 1
	tb.follow()
	if tb.state.Challenge != nil {
		t.Error("it is still prepared")
	}
}

// TestQuestionOutlivesItsGame: what was played can be revealed although the next game is
// on the board by then; a question about what was corrected is not asked.
func TestQuestionOutlivesItsGame(t *testing.T) {
	tb := newTable(t, "e4 e5")
	tb.does(do("prepare-challenge"))
	tb.does(do("ask"))
	tb.play(1, "Nf3")
	if !tb.state.Played(tb) {
		t.Error("what was played is not known")
	}
	tb.games[0] = newPlayed(t, "", "d4")
	tb.games[0].number = 1
	tb.follow()
	tb.does(do("reveal"))
	if a := tb.state.Challenge.Answer; len(a) != 1 || a[0].SAN != "Nf3" {
		t.Errorf("the answer is %+v", a)
	}
	tb = newTable(t, "e4 c5")
	tb.does(do("prepare-challenge"))
	tb.games[0].takeBack(1)
	tb.play(1, "e5")
	tb.refused(do("ask"), "has been corrected")
}
