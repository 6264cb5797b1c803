package relay_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

func TestBoardsKeepTheirPlaces(t *testing.T) {
	a := relaytest.Game{White: "Alba, A", Table: "1", Moves: "e4"}
	b := relaytest.Game{White: "Basil, B", Table: "2", Moves: "d4"}
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(a, b))
	s.Take(relaytest.Packet(b, a)) // another order
	if got := s.Board(1).Players[0].Short() + s.Board(2).Players[0].Short(); got != "AlbaBasil" {
		t.Errorf("boards show %s", got)
	}
	a.White = "Albaran, A" // a name mended
	s.Take(relaytest.Packet(b, a))
	if got := s.Board(1).Players[0].Short(); got != "Albaran" || len(s.Show.Boards) != 2 {
		t.Errorf("board 1 shows %s of %d boards", got, len(s.Show.Boards))
	}
	b.Round, b.Moves = "2", "" // the next round at board 2
	s.Take(relaytest.Packet(a, b))
	if got := len(s.Board(2).Plies); got != 0 || s.Board(2).Correction != nil {
		t.Errorf("the new game has %d plies, correction %v", got, s.Board(2).Correction)
	}
	s.Take(relaytest.Packet(a)) // a game vanishes
	if got := s.Board(2).Players[0].Short(); got != "Basil" {
		t.Errorf("board 2 shows %q", got)
	}
}

// TestTwinGames: same players, same round, no board numbers; order decides.
func TestTwinGames(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4"}, relaytest.Game{Moves: "d4"}))
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4 e5"}, relaytest.Game{Moves: "d4 d5"}))
	wantSANs(t, s.Board(1), "e4 e5")
	wantSANs(t, s.Board(2), "d4 d5")
}

func TestMaxBoards(t *testing.T) {
	var games []relaytest.Game
	for i := range 10 {
		games = append(games, relaytest.Game{White: fmt.Sprintf("P%d, P", i), Table: fmt.Sprint(i + 1), Moves: "e4"})
	}
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(games...))
	s.Take(relaytest.Packet(games...) + "\n")
	if got := s.Show.Feeds[0].Hidden; len(s.Show.Boards) != 8 || got != 2 {
		t.Errorf("%d boards, %d games hidden; want 8 and 2", len(s.Show.Boards), got)
	}
	if verdict, fine := s.Show.Verdict(); fine || !strings.Contains(verdict, "max_boards") {
		t.Errorf("verdict %q, fine %v", verdict, fine)
	}
	for i := range games {
		games[i].Round, games[i].Table = "2", fmt.Sprint("2.", i)
	}
	s.Take(relaytest.Packet(games...))
	if got := s.Board(1).Key.Round; got != "2" {
		t.Errorf("board 1 still shows round %s", got)
	}
}

// TestFeedFallsSilent: whatever keeps a feed from answering, the last good state
// stays, the alert comes in time and goes when the feed is back.
func TestFeedFallsSilent(t *testing.T) {
	for _, reason := range []string{"timeout", "connect", "status", "too_large", "not_pgn", "cut", "malformed"} {
		t.Run(reason, func(t *testing.T) {
			s := relaytest.NewStage()
			s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Moves: "e4 e5", Clocks: []string{"0:10:03", "0:10:02"}}))
			s.Same(3 * time.Second)
			last := s.Now
			for s.Show.Feeds[0].State != relay.FeedStale {
				s.Fail(reason)
				if s.Now.Sub(last) > 20*time.Second {
					t.Fatal("never stale")
				}
			}
			if got := s.Now.Sub(last); got != 15*time.Second {
				t.Errorf("stale after %v, want 15 s", got)
			}
			b := s.Board(1)
			wantSANs(t, b, "e4 e5")
			s.Wait(5 * time.Second)
			if !b.Held() || !b.Silent.Equal(last) || b.Left(0, s.Now) != (603-3-15)*time.Second {
				t.Errorf("held %v since %v, White has %v; want the clock to stand where it was", b.Held(), b.Silent, b.Left(0, s.Now))
			}
			if items := s.Show.Said.Items; len(items) != 1 || items[0].Alert.Kind != relay.AlertFeedStale {
				t.Errorf("prompts = %+v, want one of the stale feed", items)
			}
			if verdict, fine := s.Show.Verdict(); fine || !strings.Contains(verdict, "nothing from feed hall") {
				t.Errorf("verdict %q, fine %v", verdict, fine)
			}
			if got := s.Show.Totals.Faults[relay.FaultKey{Feed: relaytest.FeedName, Reason: reason}]; got != 15 {
				t.Errorf("%d faults counted, want 15", got)
			}
			s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3", Clocks: []string{"0:10:03", "0:10:02", "0:09:50"}}))
			if s.Board(1).Held() || s.Show.Feeds[0].Alert != nil || s.Show.Said.Items[0].Withdrawn.IsZero() {
				t.Error("the feed is back and the alert is not cleared")
			}
			wantSANs(t, s.Board(1), "e4 e5 Nf3")
			s.Same(11 * time.Second)
			if len(s.Show.Said.Items) != 0 {
				t.Errorf("the withdrawn prompt is still listed: %+v", s.Show.Said.Items)
			}
		})
	}
}

func TestFeedLate(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Moves: "e4"}))
	s.Wait(6 * time.Second)
	if got := s.Show.Feeds[0].State; got != relay.FeedLate {
		t.Errorf("state %v after 6 s, want late", got)
	}
	if s.Board(1).Held() {
		t.Error("a late feed holds clocks already")
	}
}

// TestNothingAtStart: a feed that never answers is told apart from one that fell
// silent.
func TestNothingAtStart(t *testing.T) {
	s := relaytest.NewStage()
	if got := s.Show.Feeds[0].State; got != relay.FeedWaiting {
		t.Errorf("state %v, want waiting", got)
	}
	s.Wait(15 * time.Second)
	if verdict, _ := s.Show.Verdict(); !strings.Contains(verdict, "never answered") {
		t.Errorf("verdict %q", verdict)
	}
}

func TestRhythmIsBounded(t *testing.T) {
	s := relaytest.NewStage()
	s.Same(20 * time.Minute)
	rhythm := s.Show.Feeds[0].Rhythm()
	if span := rhythm[len(rhythm)-1].At.Sub(rhythm[0].At); span > 5*time.Minute || len(rhythm) < 250 {
		t.Errorf("rhythm of %d beats over %v", len(rhythm), span)
	}
}

// TestFoldIsTheSameInAnySteps: the show is a fold over its events; how often the
// loop woke up in between must not matter.
func TestFoldIsTheSameInAnySteps(t *testing.T) {
	game := relaytest.Game{Control: "180+2", Moves: "e4 e5 Nf3 Nc6", Clocks: []string{"0:03:01", "0:03:00", "0:03:01", "0:02:55"}}
	coarse, fine := relaytest.NewStage(), relaytest.NewStage()
	for _, stage := range []*relaytest.Stage{coarse, fine} {
		stage.Take(relaytest.Packet(game))
		for range 90 {
			if stage == fine {
				for range 10 {
					stage.Wait(100 * time.Millisecond)
				}
				stage.Apply(relay.FeedAnswered{At: stage.Now, Feed: relaytest.FeedName})
			} else {
				stage.Same(time.Second)
			}
		}
	}
	a, b := coarse.Board(1), fine.Board(1)
	if a.Rev != b.Rev || a.FEN != b.FEN || len(a.Alerts) != len(b.Alerts) || a.Calls[0].Thinking != b.Calls[0].Thinking {
		t.Errorf("coarse steps: rev %d, %d alerts, %v; fine steps: rev %d, %d alerts, %v",
			a.Rev, len(a.Alerts), a.Calls[0].Thinking, b.Rev, len(b.Alerts), b.Calls[0].Thinking)
	}
	if len(a.Alerts) == 0 {
		t.Error("90 s on one move of a 3 min game raised nothing: the test shows nothing")
	}
}
