package main

import (
	"fmt"
	"text/tabwriter"
)

// edgeCosts prints what each edge cost, after the warm-up, and what it read from the bus.
func (c *crowd) edgeCosts() {
	from, last, ok := c.warm()
	if !ok || len(c.fleet) == 0 {
		return
	}
	moves := float64(max(1, last.done.moves-from.done.moves))
	table := tabwriter.NewWriter(c.out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(table, "edge\tCPU %\tRSS MB\tbytes/move from the bus\tto it\tmessages/move\tkilled\t")
	for i := range last.edges {
		a, b := from.edges[i], last.edges[i]
		fmt.Fprintf(table, "%d\t%.2f\t%.1f\t%.0f\t%.0f\t%.2f\t%d\t\n", i+1, 100*float64(b.cpu-a.cpu)/float64(last.at.Sub(from.at)), b.rss/mega,
			float64(b.busDown-a.busDown)/moves, float64(b.busUp-a.busUp)/moves, float64(b.busMessages-a.busMessages)/moves, c.fleet[i].killed())
	}
	_ = table.Flush()
	if c.options.direct {
		fmt.Fprintln(c.out, "what came over the bus was not counted")
	}
	fmt.Fprintf(c.out, "edges' clocks were seen behind by up to %v, at %d boards that came\n", c.tally.behind.max(), c.tally.behind.total.Load())
	if n := c.killed.Load(); n > 0 {
		fmt.Fprintf(c.out, "edges were killed %d times; pages came back at another place %d times, at the same show\n", n, c.tally.sum(func(n *counts) uint64 { return n.moved.Load() }))
	}
}
