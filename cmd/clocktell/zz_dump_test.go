package main

import (
	"clocktell/relay"
	"fmt"
	"os"
	"testing"
	"time"
)

func TestZZDump(t *testing.T) {
	if os.Getenv("DUMP") == "" {
		t.Skip()
	}
	hall, at := newTestArena(t)
	intake := relay.NewIntake("arena")
	plan := relay.Plan{MaxBoards: 2, Feeds: []relay.FeedPlan{{Name: "arena", Every: time.Second, Late: 6 * time.Second, Stale: 15 * time.Second}}}
	show := relay.NewShow(plan, hall.start)
	seen := map[string]bool{}
	for s := range int(hall.ends()/time.Second) + 1 {
		d := time.Duration(s) * time.Second
		at(d)
		show = show.AdvancedTo(hall.now())
		if hall.stalled(d) {
			show = show.Apply(relay.FeedFailed{At: hall.now(), Feed: "arena", Reason: "timeout"})
		} else {
			round, when := hall.clock()
			show = show.Apply(intake.Read(hall.now(), hall.text(round, when)))
		}
		for i := len(show.Said.Items) - 1; i >= 0; i-- {
			it := show.Said.Items[i]
			k := it.Alert.ID + it.Alert.At.String()
			if !seen[k] {
				seen[k] = true
				fmt.Printf("%v b%d ply%d [%s/%s] %s | %s\n", d, it.Board, it.Alert.Ply, it.Kind, it.Priority, it.Text, it.Evidence)
			}
			if !it.Withdrawn.IsZero() && !seen[k+"w"] {
				seen[k+"w"] = true
				fmt.Printf("%v        withdrawn: %s\n", d, it.Text)
			}
		}
	}
	for s := range 2 {
		b := show.Boards[s]
		for i := range b.Plies {
			p := &b.Plies[i]
			fmt.Printf("b%d %d %s spent %v look %s\n", s+1, i+1, p.SAN, p.Timed.Spent, p.Look)
		}
	}
}
