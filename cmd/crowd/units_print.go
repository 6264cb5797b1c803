package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"
	"text/tabwriter"
	"time"
)

// print prints units, CPU also as so many bare writes of 1 kB.
func (u *units) print(out io.Writer) {
	fmt.Fprintf(out, "\nUnit costs on %s, %d cores. One write of 1 kB to a bare TCP socket takes %v of CPU; “w” are so many of those.\n", processor(), runtime.NumCPU(), u.Write)
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	cpu := func(name string, d time.Duration) {
		fmt.Fprintf(t, "%s\t%v\t%.1f w\n", name, d.Round(100*time.Nanosecond), float64(d)/float64(max(1, u.Write)))
	}
	fmt.Fprintf(t, "an edge with which nothing happens\t%.2f %% of a core\t\n", 100*u.Idle)
	cpu("a move at an edge (the fold), 200 boards", u.Fold)
	cpu("a ping and its pong", u.Ping)
	for _, k := range u.Kinds {
		cpu("a board frame to "+k.Page, k.CPU)
	}
	cpu("a move at the leader with its bus, without edges", u.Leader)
	cpu("and for each edge", u.PerEdge)
	fmt.Fprintf(t, "memory of an edge\t%.1f MB\t+ %.0f kB a board, + %.1f kB a page\n", u.Base/mega, u.Board/1e3, u.Page/1e3)
	for _, k := range u.Kinds {
		fmt.Fprintf(t, "a move to %s\t%.0f bytes, %.0f on the wire\t%.2f frames\n", k.Page, k.Frame*k.Frames, k.Wire*k.Frames, k.Frames)
	}
	for _, b := range u.ByTime {
		fmt.Fprintf(t, "a board by time alone, %g moves/s on %d\t%.3f frames a second\t\n", b.Moves, fullBoards, b.Frames)
	}
	fmt.Fprintf(t, "a pong\t%.0f bytes on the wire\t\n", u.Pong)
	fmt.Fprintf(t, "a move from the bus to an edge\t%.0f bytes\t%.2f messages; %.0f bytes a second when nothing happens\n", u.BusDown, u.Message, u.BusIdle)
	fmt.Fprintf(t, "packet to page, a relay alone\t%s\t\n", u.Alone)
	fmt.Fprintf(t, "… the leader of a shared show\t%s\t\n", u.AtLeader)
	fmt.Fprintf(t, "… an edge of it\t%s\t\n", u.AtEdge)
	fmt.Fprintf(t, "a revision at the edge after the leader\t%s\t50 and 99 of 100\n", u.Later)
	_ = t.Flush()
}

// processor names the machine's.
func processor() string {
	text, _ := os.ReadFile("/proc/cpuinfo") // else it has no name
	for line := range strings.SplitSeq(string(text), "\n") {
		if name, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(name) == "model name" {
			return strings.TrimSpace(value)
		}
	}
	return "a processor without a name"
}

// reckon measures units, or reads those of a file, prints them and the plans that follow.
func reckon(ctx context.Context, o options, out, stderr io.Writer) error {
	u := &units{}
	if o.plan != "" {
		text, err := os.ReadFile(o.plan)
		if err == nil {
			err = json.Unmarshal(text, u)
		}
		if err != nil {
			return fmt.Errorf("units: %w", err)
		}
	} else {
		var err error
		if u, err = measureUnits(ctx, o, out, stderr); err != nil {
			return err
		}
		text, err := json.Marshal(u)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "\nFor --plan:\n%s\n", text)
	}
	u.print(out)
	u.printPlans(out)
	return nil
}
