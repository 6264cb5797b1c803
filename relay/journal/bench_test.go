package journal

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"clocktell/relay"
)

// pair is a durable write by the journal beside a bare one of the same bytes: an
// append and File.Sync in the same folder, which is the least that durability
// costs.
type pair struct {
	b             *testing.B
	file          *os.File
	bare, journal []time.Duration
	house         time.Duration // the longest time for which cleaning up may hold up the next event
}

func newPair(b *testing.B, dir string) *pair {
	b.Helper()
	file, err := os.Create(filepath.Join(dir, "bare"))
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { file.Close() })
	return &pair{b: b, file: file}
}

func (p *pair) appendBare(bytes []byte) {
	began := time.Now()
	if _, err := p.file.Write(bytes); err != nil {
		p.b.Fatal(err)
	}
	if err := p.file.Sync(); err != nil {
		p.b.Fatal(err)
	}
	p.bare = append(p.bare, time.Since(began))
}

func (p *pair) report() {
	bare, journal := p50(p.bare), p50(p.journal)
	p.b.ReportMetric(float64(bare.Nanoseconds())/1000, "bare-p50-µs")
	p.b.ReportMetric(float64(journal.Nanoseconds())/1000, "journal-p50-µs")
	p.b.ReportMetric(float64(journal)/float64(bare), "ratio")
	p.b.ReportMetric(float64(slices.Max(p.journal).Microseconds())/1000, "journal-max-ms")
	p.b.ReportMetric(float64(p.house.Microseconds())/1000, "house-max-ms")
	p.b.ReportMetric(0, "ns/op")
}

func p50(d []time.Duration) time.Duration {
	slices.Sort(d)
	return d[len(d)/2]
}

// BenchmarkDurable measures what it costs to write a packet with one new move,
// from the event that comes to the event that may go on. Every second time the
// journal goes first.
func BenchmarkDurable(b *testing.B) { benchmarkDurable(b, 1) }

// BenchmarkGroup16 measures a commit of 16 packets that came at once.
func BenchmarkGroup16(b *testing.B) { benchmarkDurable(b, 16) }

func benchmarkDurable(b *testing.B, group int) {
	dir := b.TempDir()
	j := mustOpen(b, options(dir))
	p := newPair(b, dir)
	var bytes []byte
	n := 0
	for b.Loop() {
		events := make([]relay.Event, group)
		for i := range events {
			e := packet(n + i)
			e.Parts[1].Text = movetext
			events[i] = e
		}
		bytes = bytes[:0]
		for _, r := range j.rows(events, false) {
			bytes = append(bytes, r.body...)
		}
		if n/group%2 == 0 {
			p.appendBare(bytes)
		}
		began := time.Now()
		j.commit(j.rows(events, false))
		p.journal = append(p.journal, time.Since(began))
		if n/group%2 != 0 {
			p.appendBare(bytes)
		}
		n += group
		began = time.Now()
		j.keepHouse() // after the events went on
		p.house = max(p.house, time.Since(began))
	}
	b.ReportMetric(float64(len(bytes)/group), "bytes/record")
	if j.health != well {
		b.Fatal(j.lastError())
	}
	p.report()
}

// movetext is about what a packet with one new move brings.
const movetext = `23. Nf3-g5 {[%clk 0:41:07] [%emt 0:03:12]} 23... Rfd8 {[%clk 0:38:55] [%emt 0:01:49]} 24. Qh5 {[%clk 0:40:30]} *` + "\n\n"

// BenchmarkRestore reads a day's show: 200,000 answers without news and 5000
// packets.
func BenchmarkRestore(b *testing.B) {
	const packets, answersBetween = 5000, 40
	dir := b.TempDir()
	j := mustOpen(b, options(dir))
	var rows []row
	for n := range packets {
		events := make([]relay.Event, 0, answersBetween+1)
		for i := range answersBetween {
			events = append(events, answer(n*answersBetween+i))
		}
		rows = append(rows, j.rows(append(events, packet(n*answersBetween)), false)...)
	}
	j.commit(rows)
	mustClose(b, j)
	b.ResetTimer()
	var opening, reading time.Duration
	events := 0
	for b.Loop() {
		began := time.Now()
		j, err := Open(b.Context(), options(dir))
		if err != nil {
			b.Fatal(err)
		}
		opening += time.Since(began)
		began = time.Now()
		for _, err := range j.Records() {
			if err != nil {
				b.Fatal(err)
			}
			events++
		}
		reading += time.Since(began)
		mustClose(b, j)
	}
	if events != b.N*packets*(answersBetween+1) {
		b.Fatalf("%d events", events)
	}
	b.ReportMetric(opening.Seconds()*1000/float64(b.N), "open-ms")
	b.ReportMetric(reading.Seconds()*1000/float64(b.N), "read-ms")
	b.ReportMetric(float64(events)/reading.Seconds(), "events/s")
}
