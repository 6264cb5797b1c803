package main

import (
	"fmt"
	"slices"
	"time"
)

// printTable prints the medians of the rounds.
func printTable(order []string, figures map[string][]figure, games int) {
	fmt.Println("| store | build s | x | MB | bytes/game | hit p50/p99 us | x | miss | cold hit | peak MiB build, look |")
	fmt.Println("|---|---|---|---|---|---|---|---|---|---|")
	base := middle(figures[order[0]])
	for _, name := range order {
		f := middle(figures[name])
		fmt.Printf("| %s | %.2f | %.1f | %.0f | %.0f | %s | %.1f | %s | %s | %d, %d |\n", name,
			f.Build.Seconds(), float64(f.Build)/float64(base.Build), float64(f.Size)/1e6, float64(f.Size)/float64(games),
			us(f.Hit), float64(f.Hit[0])/float64(base.Hit[0]), us(f.Miss), us(f.Cold), f.BuildPeak, f.LookPeak)
	}
}

// middle is the median of each figure.
func middle(all []figure) figure {
	var f figure
	f.Build = median(all, func(f figure) time.Duration { return f.Build })
	f.Size = median(all, func(f figure) int64 { return f.Size })
	f.BuildPeak = median(all, func(f figure) int64 { return f.BuildPeak })
	f.LookPeak = median(all, func(f figure) int64 { return f.LookPeak })
	for i := range 2 {
		f.Hit[i] = median(all, func(f figure) time.Duration { return f.Hit[i] })
		f.Miss[i] = median(all, func(f figure) time.Duration { return f.Miss[i] })
		f.Cold[i] = median(all, func(f figure) time.Duration { return f.Cold[i] })
	}
	return f
}

func median[T time.Duration | int64](all []figure, of func(figure) T) T {
	values := make([]T, len(all))
	for i, f := range all {
		values[i] = of(f)
	}
	slices.Sort(values)
	return values[len(values)/2]
}

func us(p [2]time.Duration) string {
	return fmt.Sprintf("%.2f/%.2f", float64(p[0])/1e3, float64(p[1])/1e3)
}
