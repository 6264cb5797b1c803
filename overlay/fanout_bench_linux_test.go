package overlay

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"text/tabwriter"
	"time"
)

var wholeFanout = flag.Bool("whole", false, "fan-out: 500 moves and 5 repetitions to 100, 1,000 and 5,000 pages")

// fanoutKinds are compared in turns; the relay is held to the others.
var fanoutKinds = []string{"relay", "raw", "coder"}

// movesATurn is how many moves one server shows before it is another's turn, and dirtyShare of the
// machine taken by others makes a repetition a dirty one.
const (
	movesATurn = 25
	dirtyShare = 0.10
)

// BenchmarkFanout prints how long a move takes to the last of many pages, and what it costs, in the real
// server, in bare TCP loops that write the same bytes, and in the least broadcaster that the same
// library makes. Servers and pages are processes of their own on this machine, and the servers take
// turns. With -args -whole it is the measurement that DEVELOPERS.md tells of; CLOCKTELL_FANOUT_SIZE="1000 100 3" is
// one of 1,000 pages, 100 moves and 3 repetitions.
func BenchmarkFanout(b *testing.B) {
	moves, repetitions, sizes := 25, 1, []int{100}
	if *wholeFanout {
		moves, repetitions, sizes = 500, 5, []int{100, 1000, 5000}
	}
	if asked := os.Getenv("CLOCKTELL_FANOUT_SIZE"); asked != "" {
		if _, err := fmt.Sscan(asked, &sizes[0], &moves, &repetitions); err != nil {
			b.Fatal(err)
		}
		sizes = sizes[:1]
	}
	for b.Loop() {
		for _, count := range sizes {
			var runs []fanoutRepetition
			for n := range repetitions {
				runs = append(runs, repeatFanout(b, count, moves, n))
			}
			printFanout(b, count, moves, runs)
		}
	}
}

// fanoutFigures is what one server did in one repetition.
type fanoutFigures struct {
	lasts   []time.Duration // sorted
	cpu     time.Duration   // for each frame and page
	memory  fanoutMemory    // for each page
	foreign float64
	idle    float64
}

func (f fanoutFigures) at(percent int) float64 {
	return float64(f.lasts[min(len(f.lasts)-1, len(f.lasts)*percent/100)])
}

// fanoutRepetition is one repetition, by kind of server.
type fanoutRepetition map[string]fanoutFigures

func (r fanoutRepetition) dirty() bool {
	for _, figures := range r {
		if figures.foreign > dirtyShare {
			return true
		}
	}
	return false
}

// repeatFanout measures all kinds once, a turn of moves at a time.
func repeatFanout(b *testing.B, count, moves, repetition int) fanoutRepetition {
	children := make(map[string]*fanoutChild)
	for _, kind := range fanoutKinds {
		children[kind] = startFanout(b, kind, count)
		defer children[kind].stop()
		var block fanoutBlock
		children[kind].ask(b, fmt.Sprint("moves ", 5), &block) // not counted: all gets warm
	}
	blocks := make(map[string][]fanoutBlock)
	for turn := 0; turn < moves; turn += movesATurn {
		for n := range fanoutKinds {
			kind := fanoutKinds[(n+repetition+turn/movesATurn)%len(fanoutKinds)]
			var block fanoutBlock
			children[kind].ask(b, fmt.Sprint("moves ", movesATurn), &block)
			blocks[kind] = append(blocks[kind], block)
		}
	}
	out := make(fanoutRepetition)
	for _, kind := range fanoutKinds {
		var memory fanoutMemory
		children[kind].ask(b, "memory", &memory)
		out[kind] = fanoutOf(blocks[kind], memory, count)
	}
	return out
}

func fanoutOf(blocks []fanoutBlock, memory fanoutMemory, count int) fanoutFigures {
	var out fanoutFigures
	n := int64(count)
	out.memory = fanoutMemory{Resident: memory.Resident / n, Kept: memory.Kept / n, Heap: memory.Heap / n, Stacks: memory.Stacks / n}
	for _, block := range blocks {
		out.lasts = append(out.lasts, block.Lasts...)
		out.cpu += block.CPU
		out.foreign += block.Foreign / float64(len(blocks))
		out.idle += block.Idle / float64(len(blocks))
	}
	out.cpu /= time.Duration(len(out.lasts) * count)
	slices.Sort(out.lasts)
	return out
}

// fanoutChild is a server with its pages.
type fanoutChild struct {
	command *exec.Cmd
	orders  io.WriteCloser
	answers *bufio.Reader
}

func startFanout(b *testing.B, kind string, count int) *fanoutChild {
	self, err := os.Executable()
	if err != nil {
		b.Fatal(err)
	}
	child := &fanoutChild{command: exec.Command(self)}
	child.command.Env, child.command.Stderr = append(os.Environ(), fmt.Sprint(fanoutRole, "=server ", kind, " ", count)), os.Stderr
	orders, err := child.command.StdinPipe()
	if err != nil {
		b.Fatal(err)
	}
	answers, err := child.command.StdoutPipe()
	if err != nil {
		b.Fatal(err)
	}
	child.orders, child.answers = orders, bufio.NewReader(answers)
	if err := child.command.Start(); err != nil {
		b.Fatal(err)
	}
	return child
}

func (c *fanoutChild) ask(b *testing.B, order string, answer any) {
	b.Helper()
	if _, err := fmt.Fprintln(c.orders, order); err != nil {
		b.Fatal(err)
	}
	line, err := c.answers.ReadBytes('\n')
	if err != nil {
		b.Fatalf("%s: %v", order, err)
	}
	if err := json.Unmarshal(line, answer); err != nil {
		b.Fatal(err)
	}
}

func (c *fanoutChild) stop() {
	_ = c.orders.Close() // it ends
	_ = c.command.Wait()
}

// fanoutRows are the figures of the table: how a figure is written, and the goals as shares of
// those of raw and coder; 0: none.
var fanoutRows = []struct {
	name       string
	unit       float64
	of         func(fanoutFigures) float64
	raw, coder func(pages int) float64
}{
	{"p50, ms", 1e6, func(f fanoutFigures) float64 { return f.at(50) }, fromThousand(1.5), fromThousand(1.1)},
	{"p99, ms", 1e6, func(f fanoutFigures) float64 { return f.at(99) }, nil, fromThousand(1.3)},
	{"max, ms", 1e6, func(f fanoutFigures) float64 { return f.at(100) }, nil, nil},
	{"CPU a frame and page, us", 1e3, func(f fanoutFigures) float64 { return float64(f.cpu) }, nil, fromThousand(1.2)},
	{"resident a page, KB", 1e3, func(f fanoutFigures) float64 { return float64(f.memory.Resident) }, nil, fromThousand(1.2)},
	{"resident after GC, KB", 1e3, func(f fanoutFigures) float64 { return float64(f.memory.Kept) }, nil, fromThousand(1.2)},
	{"heap a page, KB", 1e3, func(f fanoutFigures) float64 { return float64(f.memory.Heap) }, nil, nil},
	{"stacks a page, KB", 1e3, func(f fanoutFigures) float64 { return float64(f.memory.Stacks) }, nil, nil},
	{"idle machine, %", 0.01, func(f fanoutFigures) float64 { return f.idle }, nil, nil},
	{"machine taken by others, %", 0.01, func(f fanoutFigures) float64 { return f.foreign }, nil, nil},
}

// fromThousand is a goal for a thousand pages and more.
func fromThousand(goal float64) func(int) float64 {
	return func(pages int) float64 {
		if pages < 1000 {
			return 0
		}
		return goal
	}
}

// printFanout prints medians over the clean repetitions, and the ratios to the rivals of the same
// repetition with the least and the most of them.
func printFanout(b *testing.B, count, moves int, all []fanoutRepetition) {
	runs := slices.DeleteFunc(slices.Clone(all), fanoutRepetition.dirty)
	said := fmt.Sprintf("%d of %d repetitions were clean", len(runs), len(all))
	if len(runs) == 0 {
		runs, said = all, "NO repetition was clean: others took a tenth of the machine; all are counted"
	}
	var text strings.Builder
	table := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
	fmt.Fprintf(table, "%d pages, %d moves: %s\n\trelay\traw\tcoder\trelay/raw\trelay/coder\t\n", count, moves, said)
	for _, row := range fanoutRows {
		fmt.Fprintf(table, "%s\t", row.name)
		for _, kind := range fanoutKinds {
			fmt.Fprintf(table, "%.2f\t", spreadOf(runs, func(r fanoutRepetition) float64 { return row.of(r[kind]) }).median/row.unit)
		}
		for n, rival := range fanoutKinds[1:] {
			ratio := spreadOf(runs, func(r fanoutRepetition) float64 { return row.of(r["relay"]) / row.of(r[rival]) })
			fmt.Fprintf(table, "%.2f (%.2f to %.2f)%s\t", ratio.median, ratio.least, ratio.most, verdictOn(ratio.median, []func(int) float64{row.raw, row.coder}[n], count))
		}
		fmt.Fprintln(table)
	}
	_ = table.Flush() // to a string
	fmt.Println("\n" + text.String())
}

func verdictOn(ratio float64, goal func(int) float64, pages int) string {
	switch {
	case goal == nil || goal(pages) == 0:
		return ""
	case ratio <= goal(pages):
		return fmt.Sprintf(", goal %.1f met", goal(pages))
	}
	return fmt.Sprintf(", goal %.1f MISSED", goal(pages))
}

// fanoutSpread is a figure over repetitions.
type fanoutSpread struct{ median, least, most float64 }

func spreadOf(runs []fanoutRepetition, of func(fanoutRepetition) float64) fanoutSpread {
	var figures []float64
	for _, r := range runs {
		figures = append(figures, of(r))
	}
	slices.Sort(figures)
	return fanoutSpread{median: figures[len(figures)/2], least: figures[0], most: figures[len(figures)-1]}
}
