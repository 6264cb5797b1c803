//go:build unix

package bitboard

import (
	"bytes"
	"io"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	corentings "github.com/corentings/chess/v2"
	notnil "github.com/notnil/chess"

	"clocktell/relay/pgn"
)

// BenchmarkReplay replays whole files from their text, every move checked: main lines
// only. The words come from a light scanner, or under "pgn" from package pgn. All that
// is compared takes turns in one run. "Mply/s" is the best pass of one core, "mean" what
// all passes together make, "Mply/cpu-s" what they make of a second of processor time;
// "x-two" is the best pass on two cores against that; "cpu" and
// "cpu-two" are the processor time the two had for each second, over all passes: below
// 1 and 2 others were at work, and the figures say less than they could. "x-two-by-cpu"
// is what two cores would make of it if nobody else was: twice the processor time that
// one core used, by that of two.
func BenchmarkReplay(b *testing.B) {
	for _, file := range []struct{ name, file string }{{"moves", "big_big.pgn"}, {"comments", "big.pgn"}} {
		data := libraryFile(b, file.file)
		text := string(data)
		plies, _, broken := replayScan(text)
		if broken > 0 {
			b.Fatalf("%d games broken", broken)
		}
		parts := chunks(text, 16)
		b.Run(file.name, func(b *testing.B) {
			var one, two stopwatch
			for b.Loop() {
				one.time(func() { replayScan(text) })
				two.time(func() { replayOnTwo(parts) })
			}
			b.ReportMetric(0, "ns/op")
			b.ReportMetric(float64(plies)/1e6/one.best.Seconds(), "Mply/s")
			b.ReportMetric(float64(plies)/1e6/one.mean(), "mean")
			b.ReportMetric(float64(plies*one.n)/1e6/one.cpu.Seconds(), "Mply/cpu-s")
			b.ReportMetric(float64(one.best)/float64(two.best), "x-two")
			b.ReportMetric(one.share(), "cpu")
			b.ReportMetric(two.share(), "cpu-two")
			b.ReportMetric(float64(one.cpu)/float64(two.cpu)*2, "x-two-by-cpu")
		})
		b.Run(file.name+"/pgn", func(b *testing.B) {
			var own stopwatch
			for b.Loop() {
				own.time(func() { replayPGN(b, text) })
			}
			b.ReportMetric(0, "ns/op")
			b.ReportMetric(float64(plies)/1e6/own.best.Seconds(), "Mply/s")
			b.ReportMetric(own.share(), "cpu")
		})
		part := data[:bytes.LastIndex(data[:60_000], []byte("[Event "))]
		b.Run(file.name+"/rivals", func(b *testing.B) { benchmarkRivals(b, part) })
	}
}

// benchmarkRivals reports how many times the games of two libraries' readers this one
// replays in the same time. They build trees of games besides, which it does not.
func benchmarkRivals(b *testing.B, part []byte) {
	text := string(part)
	games := strings.Count(text, "[Event ")
	var own, first, second stopwatch
	for b.Loop() {
		own.time(func() { replayScan(text) })
		first.time(func() { readNotnil(b, part) })
		second.time(func() { readCorentings(b, part) })
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(float64(games)/own.best.Seconds(), "games/s")
	b.ReportMetric(float64(first.best)/float64(own.best), "x-notnil")
	b.ReportMetric(float64(second.best)/float64(own.best), "x-corentings")
}

// stopwatch adds up what several passes of one thing took.
type stopwatch struct {
	n         int
	wall, cpu time.Duration
	best      time.Duration
}

func (s *stopwatch) time(f func()) {
	cpu, start := processorTime(), time.Now()
	f()
	took := time.Since(start)
	s.cpu += processorTime() - cpu
	s.wall += took
	s.n++
	if s.n == 1 || took < s.best {
		s.best = took
	}
}

func (s *stopwatch) mean() float64 { return s.wall.Seconds() / float64(s.n) }

func (s *stopwatch) share() float64 { return float64(s.cpu) / float64(s.wall) }

func processorTime() time.Duration {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		return 0
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// chunks cuts a text between games.
func chunks(text string, n int) []string {
	var parts []string
	for size := len(text)/n + 1; text != ""; {
		end := len(text)
		if size < len(text) {
			if i := strings.Index(text[size:], "\n[Event "); i >= 0 {
				end = size + i + 1
			}
		}
		parts, text = append(parts, text[:end]), text[end:]
	}
	return parts
}

func replayOnTwo(parts []string) {
	var next atomic.Int64
	var both sync.WaitGroup
	for range 2 {
		both.Go(func() {
			for i := next.Add(1) - 1; int(i) < len(parts); i = next.Add(1) - 1 {
				replayScan(parts[i])
			}
		})
	}
	both.Wait()
}

func replayPGN(b *testing.B, text string) {
	for text != "" {
		game, end := pgn.Next(text, 1)
		text = text[end:]
		p := begin(b, &game)
		for _, move := range game.Moves {
			m, err := p.ParseSAN(move.SAN)
			if err != nil {
				b.Fatal(move.SAN, err)
			}
			p.Make(m)
		}
	}
}

func readNotnil(b *testing.B, data []byte) {
	s := notnil.NewScanner(bytes.NewReader(data))
	for s.Scan() {
		s.Next()
	}
	if err := s.Err(); err != nil && err != io.EOF {
		b.Fatal(err)
	}
}

func readCorentings(b *testing.B, data []byte) {
	for s := corentings.NewScanner(bytes.NewReader(data)); ; {
		if _, err := s.ParseNext(); err == io.EOF {
			return
		} else if err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkPerft counts legal moves, for what Moves and Make cost.
func BenchmarkPerft(b *testing.B) {
	p := Start()
	leaves := 0
	for b.Loop() {
		leaves += perft(&p, 4)
	}
	b.ReportMetric(float64(leaves)/1e6/b.Elapsed().Seconds(), "Mleaves/s")
}

// BenchmarkTables fills all tables, as happens when the program starts.
func BenchmarkTables(b *testing.B) {
	for b.Loop() {
		fillTables()
	}
}
