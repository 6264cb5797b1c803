package main

import (
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"syscall"
	"testing"
	"time"

	"clocktell/relay/reference"
)

// collectionGames is how many games the collection below has, unless
// CLOCKTELL_COLLECTION says how many.
const collectionGames = 50_000

// BenchmarkCollection builds a reference from a large collection of invented games, in a
// process of its own, and reports what that takes: the most memory it had, the bytes of
// the file and of its work directory for each game, and games a second.
func BenchmarkCollection(b *testing.B) {
	games := collectionGames
	if text := os.Getenv("CLOCKTELL_COLLECTION"); text != "" {
		var err error
		if games, err = strconv.Atoi(text); err != nil {
			b.Fatal(err)
		}
	}
	program := buildProgram(b)
	path, size := writeCollection(b, games)
	out := filepath.Join(b.TempDir(), "games.ref")
	var took time.Duration
	var used syscall.Rusage
	for b.Loop() {
		began := time.Now()
		build := startChild(b, program, "reference", "build", "--out", out, path)
		said, err := io.ReadAll(build.out)
		if err != nil {
			b.Fatal(err)
		}
		build.kill() // it has ended
		took += time.Since(began)
		used = *build.command.ProcessState.SysUsage().(*syscall.Rusage)
		b.Logf("%s", said)
	}
	index, err := reference.Open(out)
	if err != nil {
		b.Fatal(err)
	}
	defer index.Close()
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(float64(size)/1e6, "MB-read")
	b.ReportMetric(float64(used.Maxrss)/1024, "peak-MB") // in KB: getrusage(2) of Linux
	b.ReportMetric(float64(index.Size())/float64(index.Games()), "B/game")
	b.ReportMetric(float64(games)*float64(b.N)/took.Seconds(), "games/s")
	processor := time.Duration(used.Utime.Nano() + used.Stime.Nano())
	b.ReportMetric(processor.Seconds()*float64(b.N)/took.Seconds()/float64(runtime.GOMAXPROCS(0)), "share")
}
