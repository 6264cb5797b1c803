package relay_test

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// BenchmarkHours is what a show takes in memory as hours go by: sixty boards with a move every ten
// seconds, and another game when one has come to its end. Once the past has all that scenes may
// still be shown, from half an hour on, it grows no more: growth is the most of the second forty
// minutes behind that by the most of the first.
func BenchmarkHours(b *testing.B) {
	for b.Loop() {
		first, second := measureHours(b)
		b.ReportMetric(first, "MB-first")
		b.ReportMetric(second, "MB-second")
		b.ReportMetric(second/first, "growth")
	}
}

func measureHours(b *testing.B) (first, second float64) {
	const boards, full, measured, sample = 60, 30 * 60, 40 * 60, 150 // seconds
	plan := relay.Plan{MaxBoards: boards, Feeds: []relay.FeedPlan{{Name: "hall", Every: time.Second, Late: time.Hour, Stale: time.Hour}}}
	past, intake := relay.NewHistory(), relay.NewIntake("hall")
	show, now := relay.NewShow(plan, relaytest.Start), relaytest.Start
	for at := range full + 2*measured {
		now = now.Add(time.Second)
		show = past.After(show, intake.Read(now, []byte(relaytest.Packet(gamesAt(at, boards)...))))
		if at < full || at%sample > 0 {
			continue
		}
		mb := float64(heap()) / 1e6
		if at < full+measured {
			first = max(first, mb)
		} else {
			second = max(second, mb)
		}
	}
	runtime.KeepAlive(past)
	runtime.KeepAlive(show)
	runtime.KeepAlive(intake)
	return first, second
}

// gamesAt are the games on so many boards at a second, none at the same move.
func gamesAt(second, boards int) []relaytest.Game {
	words, games := strings.Fields(ruy), make([]relaytest.Game, boards)
	for i := range games {
		moves := second/10 + i
		n := moves % (len(words) + 1)
		g := &games[i]
		*g = relaytest.Game{
			White: fmt.Sprintf("White%d, W", i), Round: fmt.Sprint(moves/(len(words)+1) + 1), Table: fmt.Sprint(i + 1), Control: "600+5",
			Moves: strings.Join(words[:n], " "),
		}
		for k := range n {
			g.Clocks = append(g.Clocks, fmt.Sprintf("0:%02d:%02d", 9-k/10, 59-k%60))
		}
	}
	return games
}
