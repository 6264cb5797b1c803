package main

import (
	"fmt"
	"slices"
	"text/tabwriter"
	"time"
)

const mega = 1e6

// head says what happens, and stands above the lines of the minutes. Times are within which 50 and 99 of a hundred
// frames were at their page, and all.
func (c *crowd) head() {
	fmt.Fprintf(c.out, "%d pages, %d of them hostile, on %d boards of %d feeds, %g moves/s for %v, from seed %d\n",
		c.options.pages, len(c.hostile), c.boards, c.feeds, c.perSecond, c.length, c.seed)
	fmt.Fprintf(c.out, "%6s %6s %9s | %-24s | %-24s | %8s | %6s %7s %7s %10s\n",
		"time", "pages", "frames", "packet to page 50/99/all", "move to page 50/99/all", "breaches", "CPU %", "RSS MB", "heap MB", "goroutines")
}

// minute prints what happened since the last line.
func (c *crowd) minute() {
	late := c.tally.turn()
	c.mu.Lock()
	samples := slices.Clone(c.samples)
	c.mu.Unlock()
	first, last := samples[0], samples[len(samples)-1]
	before := first
	for _, s := range samples {
		if last.at.Sub(s.at) >= lineEvery {
			before = s
		}
	}
	fmt.Fprintf(c.out, "%6s %6d %9d | %-24s | %-24s | %8d | %6.2f %7.1f %7.1f %10.0f\n",
		c.now().Sub(first.at).Round(time.Second), c.tally.sum(func(n *counts) uint64 { return uint64(n.open.Load()) }),
		c.tally.sum(func(n *counts) uint64 { return n.frames.Load() }), spread(&late.packet), spread(&late.move), c.tally.wrong(),
		100*share(before, last), last.rss/mega, last.heap/mega, last.goroutines)
}

func spread(h *histogram) string {
	if h.total.Load() == 0 {
		return "-"
	}
	return fmt.Sprintf("%v / %v / %v", h.within(50), h.within(99), h.max())
}

// report prints the table at the end, and returns whether the relay has kept its word.
func (c *crowd) report() bool {
	fmt.Fprintf(c.out, "\n%d moves were played. Pages, by what they are and how they behave:\n", c.arena.moves())
	table := tabwriter.NewWriter(c.out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(table, "page\ttemper\tpages\tframes\tMB\tcame\tleft\tlost\trefused\tbreaches\t")
	for _, kind := range c.kinds() {
		for t := range tempers {
			n := c.tally.of(kind, t)
			if n.pages == 0 {
				continue
			}
			fmt.Fprintf(table, "%s\t%s\t%d\t%d\t%.1f\t%d\t%d\t%d\t%d\t%d\t\n", kind, t, n.pages, n.frames.Load(),
				float64(n.bytes.Load())/mega, n.came.Load(), n.left.Load(), n.lost.Load(), n.refused.Load(), n.wrong())
		}
	}
	_ = table.Flush()
	fmt.Fprintln(c.out, "left: by its own will, or turned away as it should be; lost: the line ended otherwise; refused: not let in")
	fmt.Fprintf(c.out, "packet to page: %s; move to page, polls included: %s (50 of 100, 99 of 100, all)\n", spread(&c.tally.all.packet), spread(&c.tally.all.move))
	c.costs()
	c.edgeCosts()
	return c.breaches()
}

// warmAt is the first sample after the warm-up; less than 0: there is none.
func (c *crowd) warmAt() int {
	return slices.IndexFunc(c.samples, func(s sample) bool { return s.at.Sub(c.samples[0].at) >= c.warmUp })
}

// warm returns the samples between which costs count, if there are two.
func (c *crowd) warm() (from, last sample, ok bool) {
	i, end := c.warmAt(), len(c.samples)-1
	if i < 0 || i >= end {
		return sample{}, sample{}, false
	}
	return c.samples[i], c.samples[end], true
}

func (c *crowd) kinds() []string {
	var out []string
	for _, k := range c.mix {
		out = append(out, k.page)
	}
	return append(out, hostileKind)
}

// costs prints what the relay cost, after the warm-up.
func (c *crowd) costs() {
	warm := c.warmAt()
	if warm < 0 {
		fmt.Fprintln(c.out, "it ended before it was warm: nothing is known of what the relay costs")
		return
	}
	first, from, last := c.samples[0], c.samples[warm], c.samples[len(c.samples)-1]
	fmt.Fprintf(c.out, "the relay, of %v after a warm-up of %v: %.2f %% of a core\n", last.at.Sub(from.at).Round(time.Second), from.at.Sub(first.at).Round(time.Second), 100*share(from, last))
	for _, f := range []struct {
		name string
		of   func(sample) float64
	}{
		{"RSS, MB", func(s sample) float64 { return s.rss / mega }}, {"heap in use, MB", func(s sample) float64 { return s.heap / mega }},
		{"goroutines", func(s sample) float64 { return s.goroutines }},
	} {
		fmt.Fprintf(c.out, "%16s: %.1f before any page, %.1f after the warm-up, %.1f at the end; grows by %+.1f an hour\n",
			f.name, f.of(first), f.of(from), f.of(last), slope(c.samples[warm:], f.of))
	}
}

// breaches prints how the relay broke its word, and returns whether it did not.
func (c *crowd) breaches() bool {
	fmt.Fprintf(c.out, "%d pages were held to the truth at the end. Breaches:", c.tally.judged.Load())
	for b := range breaches {
		fmt.Fprintf(c.out, " %s %d;", b, c.tally.sum(func(n *counts) uint64 { return n.breaches[b].Load() }))
	}
	fmt.Fprintln(c.out)
	for _, t := range c.tally.told {
		fmt.Fprintln(c.out, "  "+t.String())
	}
	return c.tally.wrong() == 0 && c.tally.judged.Load() > 0
}
