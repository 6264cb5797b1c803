package build

import (
	"bytes"
	"io"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	corentings "github.com/corentings/chess/v2"
	notnil "github.com/notnil/chess"
)

// BenchmarkBuild builds from the library's 11,000 games end to end, the file written and
// synced, and lets two libraries read every 40th of them, which plays them through; all take
// turns, and the best round of each counts, since other work on the machine only makes a
// round longer. "x-notnil" and "x-corentings" are games a second as multiples of theirs.
// "2-cores" is the speed on two processors as a multiple of that on one. "share" says how
// much of two processors the best round had: what is far below one says little.
func BenchmarkBuild(b *testing.B) {
	files := libraryFiles(b)
	some := []byte(mustRead(b, someGames(b, 40)))
	someCount := float64(bytes.Count(some, []byte("[Event ")))
	var r rounds
	var notnils, corentingses best
	for b.Loop() {
		r.round(b, files)
		notnils.run(func() { readNotnil(some) })
		corentingses.run(func() { readCorentings(some) })
	}
	r.report(b)
	b.ReportMetric(r.rate()/(someCount/notnils.took.Seconds()), "x-notnil")
	b.ReportMetric(r.rate()/(someCount/corentingses.took.Seconds()), "x-corentings")
}

// BenchmarkScale builds from 50,000 games, so that what a build costs once counts less.
func BenchmarkScale(b *testing.B) {
	path := mustWrite(b, "games.pgn", strings.Repeat(mustRead(b, libraryFiles(b)[1]), 5))
	var r rounds
	for b.Loop() {
		r.round(b, []string{path})
	}
	r.report(b)
	b.ReportMetric(float64(r.games)/r.one.took.Seconds(), "games/s-one-core")
}

// rounds builds on one processor and on two, in turns.
type rounds struct {
	one, two best
	games    int
}

func (r *rounds) round(b *testing.B, files []string) {
	r.one.run(func() { r.games = buildWith(b, files, 1) })
	r.two.run(func() { r.games = buildWith(b, files, 2) })
}

func (r *rounds) rate() float64 { return float64(r.games) / r.two.took.Seconds() }

func (r *rounds) report(b *testing.B) {
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(r.rate(), "games/s")
	b.ReportMetric(r.one.took.Seconds()/r.two.took.Seconds(), "2-cores")
	b.ReportMetric(r.two.used.Seconds()/2/r.two.took.Seconds(), "share")
}

// best is the shortest of several runs, and what it used of the processors.
type best struct{ took, used time.Duration }

func (s *best) run(f func()) {
	used := processorTime()
	if took := clocked(f); s.took == 0 || took < s.took {
		*s = best{took, processorTime() - used}
	}
}

// buildWith builds on so many processors and returns how many games were read.
func buildWith(b *testing.B, files []string, processors int) int {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
	o := options(b, files...)
	o.KeepDoubles = true
	report, err := Run(b.Context(), o)
	if err != nil {
		b.Fatal(err)
	}
	return report.Games
}

func clocked(run func()) time.Duration {
	runtime.GC() // nobody pays for another's garbage
	start := time.Now()
	run()
	return time.Since(start)
}

// processorTime is what this process has used so far.
func processorTime() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func readNotnil(data []byte) {
	for s := notnil.NewScanner(bytes.NewReader(data)); s.Scan(); {
		s.Next()
	}
}

func readCorentings(data []byte) {
	for s := corentings.NewScanner(bytes.NewReader(data)); ; {
		if _, err := s.ParseNext(); err == io.EOF {
			return
		}
	}
}

// BenchmarkSort sorts a run's records on one core, an eighth of them of ten positions, and
// then lets slices.SortFunc do it.
func BenchmarkSort(b *testing.B) {
	random := rand.New(rand.NewPCG(1, 2))
	source := make([]record, defaultSizes.run)
	for i := range source {
		source[i] = newRecord(random.Uint64(), uint16(random.Uint32()), uint32(i))
		if i%8 == 0 {
			source[i].pos = random.Uint64N(10) << 55
		}
	}
	list := make([]record, len(source))
	var own, theirs time.Duration
	for b.Loop() {
		copy(list, source)
		own += clocked(func() { must(b, sortRecords(list, 1)) })
		copy(list, source)
		theirs += clocked(func() { slices.SortFunc(list, record.compare) })
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(float64(b.N)*float64(len(source))/1e6/own.Seconds(), "Mrecords/s")
	b.ReportMetric(theirs.Seconds()/own.Seconds(), "x-sortfunc")
}
