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

// BenchmarkHistory is what the past of a busy show costs in memory: so many boards that
// all have a move every ten seconds, and clocks that run between. MB-without
// is what the newest show needs without a history.
func BenchmarkHistory(b *testing.B) {
	for _, boards := range []int{4, 200} {
		b.Run(fmt.Sprint(boards, " boards"), func(b *testing.B) {
			for b.Loop() {
				measureHistory(b, boards)
			}
		})
	}
}

func measureHistory(b *testing.B, boards int) {
	plan := relay.Plan{MaxBoards: boards, Feeds: []relay.FeedPlan{{Name: "hall", Every: time.Second, Late: time.Hour, Stale: time.Hour}}}
	past, intake := relay.NewHistory(), relay.NewIntake("hall")
	show, now := relay.NewShow(plan, relaytest.Start), relaytest.Start
	words := strings.Fields(ruy)
	games := make([]relaytest.Game, boards)
	for i := range games {
		games[i] = relaytest.Game{White: fmt.Sprintf("White%d, W", i), Table: fmt.Sprint(i + 1), Control: "600+5"}
	}
	for second := range 10 * len(words) {
		for i := range games {
			if n := (second + i) / 10; n <= len(words) && len(games[i].Clocks) < n {
				games[i].Moves = strings.Join(words[:n], " ")
				games[i].Clocks = append(games[i].Clocks, fmt.Sprintf("0:%02d:%02d", 9-n/8, 59-n%60))
			}
		}
		now = now.Add(time.Second)
		show = past.After(show, intake.Read(now, []byte(relaytest.Packet(games...))))
	}
	r := relay.NewAfter(past, show, relay.NewTimebaseAt(now, 1))
	kept := r.History()
	with := heap()
	runtime.KeepAlive(r)
	past, r = nil, nil
	without := heap()
	b.ReportMetric(float64(kept.States), "states")
	b.ReportMetric(float64(kept.Thinned), "thinned")
	b.ReportMetric(float64(with-without)/float64(kept.States), "bytes/state")
	b.ReportMetric(float64(kept.Bytes)/float64(with-without), "counted")
	b.ReportMetric(float64(with-without)/1e6, "MB")
	b.ReportMetric(float64(without)/1e6, "MB-without")
	runtime.KeepAlive(show)
	runtime.KeepAlive(intake)
}

func heap() uint64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
