package main

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/config"
	"clocktell/relay/pgn"
	"clocktell/relay/tell"
	"clocktell/testdata/demo"
)

// newTestArena returns the demo's hall with a clock that the test moves: at sets
// show time since the start of the first round.
func newTestArena(t *testing.T) (hall *arena, at func(time.Duration)) {
	t.Helper()
	start := time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)
	now := start
	hall, err := newArena(demo.FS, func() time.Time { return now })
	if err != nil {
		t.Fatal(err)
	}
	return hall, func(d time.Duration) { now = start.Add(d) }
}

func (a *arena) published(t *testing.T) []pgn.Game {
	t.Helper()
	w := httptest.NewRecorder()
	a.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/games.pgn", nil))
	return pgn.Read(w.Body.Bytes())
}

func TestArenaPublishesPlyByPly(t *testing.T) {
	hall, at := newTestArena(t)
	at(0)
	if games := hall.published(t); len(games) != 2 || len(games[0].Moves) != 0 || games[0].Result != "*" {
		t.Fatalf("at the start: %d games, %+v", len(games), games)
	}
	before := 0
	for s := range int(hall.ends() / time.Second) {
		at(time.Duration(s) * time.Second)
		if hall.stalled(time.Duration(s) * time.Second) {
			continue
		}
		games := hall.published(t)
		if n := len(games[0].Moves); n < before {
			t.Fatalf("at %d s: %d plies after %d", s, n, before)
		} else {
			before = n
		}
	}
	at(hall.ends())
	games := hall.published(t)
	if games[0].Result != "1-0" || games[1].Result != "1/2-1/2" || games[0].Tag("Result") != "1-0" {
		t.Errorf("at the end: %s and %s, tag %s", games[0].Result, games[1].Result, games[0].Tag("Result"))
	}
	at(hall.length() + time.Second)
	if games := hall.published(t); games[0].Tag("Round") != "2" || len(games[0].Moves) != 0 {
		t.Errorf("after the pause: round %s, %d plies", games[0].Tag("Round"), len(games[0].Moves))
	}
}

func TestArenaMistakes(t *testing.T) {
	hall, at := newTestArena(t)
	c := hall.script.Correction[0]
	entered := hall.games[c.Game-1].played[c.Ply-1]
	at(entered)
	if got := hall.published(t)[c.Game-1].Moves[c.Ply-1].SAN; got != c.Wrong {
		t.Errorf("entered %s, want the wrong %s", got, c.Wrong)
	}
	at(entered + c.For.Duration)
	if got := hall.published(t)[c.Game-1].Moves[c.Ply-1].SAN; got == c.Wrong {
		t.Errorf("still %s after %v", got, c.For)
	}
	if stall := hall.script.Stall[0]; !hall.stalled(stall.At.Duration) || hall.stalled(stall.At.Duration+stall.For.Duration) {
		t.Error("the stall is not where the script says")
	}
}

// playThrough folds the demo's match and what its reference says through the relay,
// second by second, with no network and no waiting. look sees the show after every second.
func playThrough(t *testing.T, look func(at time.Duration, show *relay.Show)) *relay.Show {
	t.Helper()
	hall, at := newTestArena(t)
	library := demoLibrary(t, config.Reference{})
	library.now = hall.now
	intake := relay.NewIntake("arena")
	plan := relay.Plan{MaxBoards: 2, Feeds: []relay.FeedPlan{{Name: "arena", Every: time.Second, Late: 6 * time.Second, Stale: 15 * time.Second}}}
	show := relay.NewShow(plan, hall.start)
	for d := time.Duration(0); d <= hall.ends(); d += time.Second {
		at(d)
		show = show.AdvancedTo(hall.now())
		if hall.stalled(d) {
			show = show.Apply(relay.FeedFailed{At: hall.now(), Feed: "arena", Reason: "timeout"})
		} else {
			round, when := hall.clock()
			show = show.Apply(intake.Read(hall.now(), hall.text(round, when)))
		}
		for _, b := range show.Boards {
			show = show.Apply(library.answers(b, b.Unanswered(library.index.Depth())))
		}
		look(d, show)
	}
	return show
}

// TestDemoTellsItsStory looks whether the tell says what the games were made to
// show.
func TestDemoTellsItsStory(t *testing.T) {
	verdicts := make(map[int][2]tell.Verdict) // by plies on board 1
	stale, said := false, make(map[string]bool)
	show := playThrough(t, func(_ time.Duration, show *relay.Show) {
		b := show.Boards[0]
		stale = stale || b.Held()
		for _, item := range show.Said.Items {
			said[item.Text] = true
		}
		if !b.Held() {
			verdicts[len(b.Plies)] = [2]tell.Verdict{b.Calls[0].Verdict, b.Calls[1].Verdict}
		}
	})
	for _, want := range []struct {
		plies int
		side  clock.Side
		tell  tell.Verdict
	}{
		{20, clock.White, tell.InPreparation}, // move 10, from preparation
		{27, clock.White, tell.InPreparation}, // move 14, the last of it
		{29, clock.White, tell.Thinking},      // 15.f3 after 2:41
		{20, clock.Black, tell.Thinking},      // on his own since move 6
	} {
		if got := verdicts[want.plies][want.side]; got != want.tell {
			t.Errorf("after ply %d: %v is %v, want %v", want.plies, want.side, got, want.tell)
		}
	}
	for _, novelty := range []string{"Move fifteen is new: of eleven games here, none played f3.", "Move thirteen is new: of 23 games here, none played b4."} {
		if !said[novelty] {
			t.Errorf("the panel never had %q", novelty)
		}
	}
	if !stale {
		t.Error("the stall was not noticed")
	}
	if show.Totals.Corrections != 1 {
		t.Errorf("%d corrections, want 1", show.Totals.Corrections)
	}
	if b := show.Boards[0]; len(b.Plies) != 79 || b.Result != "1-0" || len(b.Alerts) != 0 {
		t.Errorf("at the end: %d plies, %s, alerts %+v", len(b.Plies), b.Result, b.Alerts)
	}
}

// TestWhatIsSaid lists every prompt of the demo's match (run it with -v and read
// it), and holds the list to its budget: at most three new ones in a full move of
// a board, and no sentence twice on one board within five minutes.
func TestWhatIsSaid(t *testing.T) {
	const perMove, again = 3, 5 * time.Minute
	type move struct{ board, number int }
	seen := make(map[string]bool)
	perFullMove := make(map[move]int)
	said := make(map[string]time.Duration)
	playThrough(t, func(at time.Duration, show *relay.Show) {
		for _, item := range show.Said.Items {
			key := item.Alert.ID + item.Alert.At.String()
			if seen[key] {
				continue
			}
			seen[key] = true
			t.Logf("%6v board %d ply %2d %-10s %s (%s)", at, item.Board, item.Alert.Ply, item.Priority, item.Text, item.Evidence)
			m := move{item.Board, (item.Alert.Ply + 1) / 2}
			if perFullMove[m]++; perFullMove[m] > perMove && item.Board > 0 {
				t.Errorf("board %d has more than %d prompts around ply %d", m.board, perMove, item.Alert.Ply)
			}
			sentence := fmt.Sprint(item.Board, item.Text)
			if before, ok := said[sentence]; ok && at-before < again {
				t.Errorf("at %v again, after %v: %s", at, at-before, item.Text)
			}
			said[sentence] = at
		}
	})
	if len(seen) < 10 {
		t.Errorf("only %d prompts in two games: the check sees too little", len(seen))
	}
}
