package main

import (
	"fmt"
	"io"
	"time"

	"clocktell/relay/reference/build"
)

// writeBuildReport tells what a build has done.
func writeBuildReport(w io.Writer, path string, r build.Report, took time.Duration) {
	fmt.Fprintf(w, "%s: %s games of %s read\n", path, thousands(r.Kept), thousands(r.Games))
	writeSkipped(w, r)
	fmt.Fprintf(w, "  %s positions, %s bytes, %.0f for each game\n",
		thousands(r.Positions), thousands(r.Size), float64(r.Size)/float64(max(1, r.Kept)))
	rate := float64(r.Games-r.Resumed) / max(0.001, took.Seconds())
	fmt.Fprintf(w, "  %v, %s games a second\n", took.Round(10*time.Millisecond), thousands(int(rate)))
	if r.Resumed > 0 {
		fmt.Fprintf(w, "  (%s games had been read before it was interrupted)\n", thousands(r.Resumed))
	}
}

// writeSkipped tells what was left out, and of what could be mended where it is.
func writeSkipped(w io.Writer, r build.Report) {
	for _, skip := range r.BySeverity() {
		fmt.Fprintf(w, "  left out %s: %s\n", thousands(skip.Games), skip.Reason)
		for _, e := range skip.Examples {
			fmt.Fprintf(w, "    %s, game %d, line %d: %s", e.File, e.Game, e.Line, e.Who)
			if e.Detail != "" {
				fmt.Fprintf(w, ": %s", e.Detail)
			}
			fmt.Fprintln(w)
		}
		if more := skip.Games - len(skip.Examples); more > 0 && len(skip.Examples) > 0 {
			fmt.Fprintf(w, "    and %s more\n", thousands(more))
		}
	}
}
