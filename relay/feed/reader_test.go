package feed

import (
	"errors"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

// readerRow is what a Sink hears of an input that is written in steps.
type readerRow struct {
	name   string
	o      ReaderOptions
	write  func(w *io.PipeWriter)
	during time.Duration
	want   []string
}

// write writes the texts, each after 300 ms.
func write(w *io.PipeWriter, texts ...string) {
	for _, text := range texts {
		time.Sleep(300 * ms)
		if _, err := io.WriteString(w, text); err != nil {
			return
		}
	}
}

func TestReader(t *testing.T) {
	check := ReaderOptions{Check: checkTags}
	for _, row := range []readerRow{
		{name: "delivered at pauses", during: 1900 * ms, write: func(w *io.PipeWriter) { write(w, "a ", "b ") },
			want: []string{"300ms new a ", "600ms new a b ", "1.75s same"}},
		{name: "bytes that flow", during: 1250 * ms, write: func(w *io.PipeWriter) {
			for range 20 {
				time.Sleep(70 * ms)
				io.WriteString(w, "ab ")
			}
		}, want: []string{"1.05s new " + strings.Repeat("ab ", 15)}},
		{name: "ends", during: 9 * sec, write: func(w *io.PipeWriter) { write(w, "a ", "b"); w.Close() },
			want: []string{"300ms new a ", "600ms new a b", "600ms ended"}},
		{name: "ends with the last byte delivered", during: 9 * sec, write: func(w *io.PipeWriter) { write(w, "a "); time.Sleep(sec); w.Close() },
			want: []string{"300ms new a ", "1.3s same", "1.3s ended"}},
		{name: "breaks off", during: 9 * sec, write: func(w *io.PipeWriter) { write(w, "a ", "b c"); w.CloseWithError(errors.New("torn")) },
			want: []string{"300ms new a ", "600ms new a b ", "600ms ended"}},
		{name: "holds no game", o: check, during: 9 * sec, write: func(w *io.PipeWriter) { write(w, "<p>"); w.Close() },
			want: []string{"300ms not_pgn", "300ms ended"}},
		{name: "holds no game yet", o: check, during: 5 * sec, write: func(w *io.PipeWriter) { time.Sleep(2 * sec); write(w, pgn) },
			want: []string{"1s not_pgn", "2s not_pgn", "2.3s new " + pgn, "3.45s same", "4.45s same"}},
		{name: "is empty", o: check, during: 9 * sec, write: func(w *io.PipeWriter) { w.Close() },
			want: []string{"0s not_pgn", "0s ended"}},
		{name: "as long as the limit", o: ReaderOptions{MaxBytes: 4}, during: sec, write: func(w *io.PipeWriter) { write(w, "abcd") },
			want: []string{"300ms new abcd"}},
		{name: "too long, and read to its end", o: ReaderOptions{MaxBytes: 3}, during: 9 * sec, write: func(w *io.PipeWriter) { write(w, "ab", "cd", "ef"); w.Close() },
			want: []string{"300ms new ab", "600ms too_large", "900ms ended"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) { row.run(t) })
		})
	}
}

func (row readerRow) run(t *testing.T) {
	from, to := io.Pipe()
	row.o.From = from
	r, err := NewReader(row.o)
	got := &recorder{during: row.during}
	begin, written := time.Now(), make(chan struct{})
	go func() { defer close(written); row.write(to) }()
	runInside(t, r, err, got)
	if took := time.Since(begin); took != row.during {
		t.Errorf("ended after %v, want %v", took, row.during)
	}
	<-written // whoever writes is not held up
	if heard := shorts(got.events, begin); !slices.Equal(heard, row.want) {
		t.Errorf("heard\n%s\nwant\n%s", strings.Join(heard, "\n"), strings.Join(row.want, "\n"))
	}
	if _, err := io.WriteString(to, "x"); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("after Run, a write ends with %v, want it to be closed", err)
	}
}

// However the bytes come, what is delivered is always a longer beginning of the whole, and in
// the end the whole.
func TestReaderRandomPieces(t *testing.T) {
	for seed := range uint64(50) {
		synctest.Test(t, func(t *testing.T) {
			r := rand.New(rand.NewPCG(seed, 1))
			whole := strings.Repeat("1. e4 e5\n2. Nf3 {[%clk 0:01:30]} ", 20)
			from, to := io.Pipe()
			go func() {
				for rest := whole; rest != ""; {
					n := 1 + r.IntN(min(40, len(rest)))
					time.Sleep(time.Duration(r.IntN(300)) * ms)
					io.WriteString(to, rest[:n])
					rest = rest[n:]
				}
				to.Close()
			}()
			source, err := NewReader(ReaderOptions{From: from})
			got := &recorder{during: 10 * time.Minute}
			runInside(t, source, err, got)
			last := ""
			for _, e := range got.events {
				if !e.isNew {
					continue
				}
				if !strings.HasPrefix(whole, e.body) || len(e.body) <= len(last) {
					t.Fatalf("seed %d: %q after %q", seed, e.body, last)
				}
				last = e.body
			}
			if end := got.events[len(got.events)-1]; last != whole || end.reason != ReasonEnded {
				t.Errorf("seed %d: ended with %q and %q", seed, last, end.short())
			}
		})
	}
}

func TestReaderTexts(t *testing.T) {
	for want, end := range map[string]error{
		"feed hall pipe has ended, and nothing more will come; start the program that writes it, and the show, again":      nil,
		"feed hall pipe cannot be read any further: torn; start the program that writes it, and the show, again":           errors.New("torn"),
		"feed hall pipe cannot be read any further: unexpected EOF; start the program that writes it, and the show, again": io.ErrUnexpectedEOF,
	} {
		synctest.Test(t, func(t *testing.T) {
			from, to := io.Pipe()
			to.CloseWithError(end)
			r, err := NewReader(ReaderOptions{From: from, Name: "hall pipe", Check: checkTags})
			got := &recorder{during: sec}
			runInside(t, r, err, got)
			if last := got.events[len(got.events)-1]; last.reason != ReasonEnded || last.err != want {
				t.Errorf("got %q %q, want %q", last.reason, last.err, want)
			}
		})
	}
}

// stuck is an input whose Read no Close ends, as that of a terminal.
type stuck struct{ free chan struct{} }

func (s stuck) Read([]byte) (int, error) { <-s.free; return 0, io.EOF }
func (s stuck) Close() error             { return nil }

func TestReaderLeavesAReadThatHangs(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := stuck{make(chan struct{})}
		r, err := NewReader(ReaderOptions{From: s})
		got := &recorder{during: 300 * ms}
		begin := time.Now()
		runInside(t, r, err, got)
		if took := time.Since(begin); took != got.during+closeGrace || len(got.events) != 0 {
			t.Errorf("ended after %v with %d events, want %v and none", took, len(got.events), got.during+closeGrace)
		}
		close(s.free) // and with that the goroutine ends, or the bubble would say so
	})
}

func TestNewReaderErrors(t *testing.T) {
	from := io.NopCloser(strings.NewReader(""))
	for want, o := range map[string]ReaderOptions{
		"feed standard input: nothing to read from":                                                       {},
		"feed hall: every -1ns is negative; give the time between two reports, or nothing for 1s":         {From: from, Name: "hall", Every: -1},
		"feed standard input: size limit -1 is negative; give a number of bytes, or nothing for 16777216": {From: from, MaxBytes: -1},
	} {
		if r, err := NewReader(o); r != nil || err == nil || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}
