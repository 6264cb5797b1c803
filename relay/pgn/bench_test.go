package pgn

import (
	"bytes"
	"io"
	"testing"
	"time"

	corentings "github.com/corentings/chess/v2"
	notnil "github.com/notnil/chess"
)

// BenchmarkRead measures this package on bare moves and on games with evaluations and
// clocks, see libraryFile. "x-scan" is its speed as a multiple of the speed of
// scanTokens on the same text, "x-notnil" and "x-corentings" as one of two libraries'
// readers on a part of it; those check moves by the rules, which this package does
// not. All take turns in one run, so that they find the machine in the same mood.
func BenchmarkRead(b *testing.B) {
	for _, file := range []struct{ name, file string }{{"moves", "big_big.pgn"}, {"comments", "big.pgn"}} {
		data := libraryFile(b, file.file)
		text := string(data)
		part := data[:bytes.LastIndex(data[:60_000], []byte("[Event "))]
		b.Run(file.name, func(b *testing.B) {
			race(b, len(data), func() { readAll.Read(data) }, rival{"x-scan", func() { scanTokens(text) }})
			reportAllocs(b, func() int { return len(readAll.Read(data)) })
		})
		b.Run(file.name+"/next", func(b *testing.B) {
			race(b, len(data), func() { readPieces(text) }, rival{"x-scan", func() { scanTokens(text) }})
			reportAllocs(b, func() int { return readPieces(text) })
		})
		b.Run(file.name+"/rivals", func(b *testing.B) {
			race(b, len(part), func() { readAll.Read(part) },
				rival{"x-notnil", func() { readNotnil(part) }}, rival{"x-corentings", func() { readCorentings(part) }})
		})
	}
}

// rival is what this package is measured against.
type rival struct {
	unit string
	run  func()
}

// race lets this package and its rivals take turns.
func race(b *testing.B, size int, run func(), rivals ...rival) {
	var own time.Duration
	theirs := make([]time.Duration, len(rivals))
	for b.Loop() {
		own += clocked(run)
		for i := range rivals {
			theirs[i] += clocked(rivals[i].run)
		}
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(float64(b.N)*float64(size)/1e6/own.Seconds(), "MB/s")
	for i := range rivals {
		b.ReportMetric(theirs[i].Seconds()/own.Seconds(), rivals[i].unit)
	}
}

func clocked(run func()) time.Duration {
	start := time.Now()
	run()
	return time.Since(start)
}

// reportAllocs reports how often memory is asked for, for each game read.
func reportAllocs(b *testing.B, read func() (games int)) {
	games := 0
	allocs := testing.AllocsPerRun(1, func() { games = read() })
	b.ReportMetric(allocs/float64(games), "allocs/game")
}

func readPieces(text string) (games int) {
	for ; text != ""; games++ {
		_, end := Next(text, 1)
		text = text[end:]
	}
	return games
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
