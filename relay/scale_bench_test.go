package relay_test

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// scaleSizes are the sizes of show that are compared, the smallest first.
var scaleSizes = []int{1, 20, 200}

// idle is why nothing happens on a board.
type idle string

const (
	idleOver  idle = "over"     // its game has a result
	idleUnmet idle = "to begin" // its game has not begun
	idleNot   idle = "playing"  // its clock runs
)

// scaleGames returns so many games: on the last of them somebody thinks after 56 plies, the others are idle.
func scaleGames(n int, others idle) []relaytest.Game {
	games := make([]relaytest.Game, n)
	for i := range games {
		g := relaytest.Game{White: fmt.Sprintf("White%d, W", i), Black: fmt.Sprintf("Black%d, B", i), Table: fmt.Sprint(i + 1), Control: "5400+30", Moves: moves(56)}
		for ply := range strings.Fields(g.Moves) {
			g.Clocks = append(g.Clocks, scaleClock(ply))
		}
		switch {
		case i == n-1 || others == idleNot:
		case others == idleOver:
			g.Result = "1/2-1/2"
		case others == idleUnmet:
			g.Moves, g.Clocks = "", nil
		}
		games[i] = g
	}
	return games
}

// scaleClock is the reading after the ply at that index: every move has taken some twenty seconds more than
// the increment.
func scaleClock(ply int) string {
	left := 5400 - 20*(ply/2+1) - 3*(ply%2)
	return fmt.Sprintf("%d:%02d:%02d", left/3600, left/60%60, left%60)
}

// scaleShow returns a show of so many boards, all of one feed that never falls silent, and the event of a
// move on the last of them at the same instant.
func scaleShow(tb testing.TB, n int, others idle) (*relay.Show, relay.Event) {
	tb.Helper()
	plan := relay.Plan{MaxBoards: n, Feeds: []relay.FeedPlan{{Name: "hall", Every: time.Second, Late: 100 * time.Hour, Stale: 200 * time.Hour}}}
	games, intake, now := scaleGames(n, others), relay.NewIntake("hall"), relaytest.Start
	last := &games[n-1]
	all := strings.Fields(last.Moves)
	show := relay.NewShow(plan, now)
	for _, plies := range []int{len(all) - 2, len(all) - 1, len(all)} {
		last.Moves = strings.Join(all[:plies], " ")
		now = now.Add(20 * time.Second)
		show = show.After(intake.Read(now, []byte(relaytest.Packet(games...))))
	}
	last.Moves, last.Clocks = moves(57), append(last.Clocks, scaleClock(56))
	event := intake.Read(now, []byte(relaytest.Packet(games...)))
	if after := show.After(event); len(after.Boards) != n || len(after.Boards[n-1].Plies) != 57 || len(after.Feeds[0].Reading) > 0 {
		tb.Fatalf("the event is not the move, or something is wrong with the games: %q", after.Feeds[0].Reading)
	}
	return show, event
}

// byTurns measures what is done once for each size in every turn, and reports how long the fastest quarter
// of them takes, and how much more the last takes than the first.
func byTurns[T any](b *testing.B, sizes []T, do []func()) {
	took := make([][]time.Duration, len(sizes))
	for b.Loop() {
		for i := range do {
			start := time.Now()
			do[i]()
			took[i] = append(took[i], time.Since(start))
		}
	}
	typical := make([]float64, len(sizes))
	for i, size := range sizes {
		typical[i] = float64(quarter(took[i]).Nanoseconds())
		b.ReportMetric(typical[i], fmt.Sprint("ns-of-", size))
	}
	b.ReportMetric(typical[len(sizes)-1]/typical[0], "x")
}

// quarter returns the time that a quarter of all stay below: what else a machine does slows some down.
func quarter(took []time.Duration) time.Duration {
	slices.Sort(took)
	return took[len(took)/4]
}

// BenchmarkMoveAmongIdle is a move on one board, packet to state, among boards on which nothing happens.
func BenchmarkMoveAmongIdle(b *testing.B) {
	for _, others := range []idle{idleOver, idleUnmet, idleNot} {
		b.Run(string(others), func(b *testing.B) {
			var do []func()
			for _, n := range scaleSizes {
				show, event := scaleShow(b, n, others)
				do = append(do, func() { show.After(event) })
			}
			b.ReportAllocs()
			byTurns(b, scaleSizes, do)
		})
	}
}

// BenchmarkTimeAmongIdle is a minute in which nothing comes, with one running clock: among idle boards.
func BenchmarkTimeAmongIdle(b *testing.B) {
	for _, others := range []idle{idleOver, idleUnmet} {
		b.Run(string(others), func(b *testing.B) {
			var do []func()
			for _, n := range scaleSizes {
				show, _ := scaleShow(b, n, others)
				do = append(do, func() { show.AdvancedTo(show.At.Add(time.Minute)) })
			}
			byTurns(b, scaleSizes, do)
		})
	}
}

// BenchmarkSecondOfClocks is a second in which nothing comes, for each clock that runs.
func BenchmarkSecondOfClocks(b *testing.B) {
	var do []func()
	for _, n := range scaleSizes {
		show, _ := scaleShow(b, n, idleNot)
		do = append(do, func() { show.AdvancedTo(show.At.Add(time.Second)) })
	}
	byTurns(b, scaleSizes, do)
}

// BenchmarkDueAmongIdle is the question when time alone next changes something.
func BenchmarkDueAmongIdle(b *testing.B) {
	var do []func()
	for _, n := range scaleSizes {
		show, _ := scaleShow(b, n, idleOver)
		do = append(do, func() {
			for range 100 {
				show.Due()
			}
		})
	}
	byTurns(b, scaleSizes, do)
}

// BenchmarkIdleBoard is the memory that a board takes whose game of 56 plies with clocks is over, the
// texts that packets are compared with left out.
func BenchmarkIdleBoard(b *testing.B) {
	const boards = 200
	for b.Loop() {
		before := heap()
		show, event := scaleShow(b, boards, idleOver)
		with := heap()
		runtime.KeepAlive(event)
		b.ReportMetric(float64(with-before)/boards, "bytes/board")
		runtime.KeepAlive(show)
	}
}
