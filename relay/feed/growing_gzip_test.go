package feed

import (
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"net/http"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
	"testing/synctest"
	"time"
)

// flushed sends each text 300 ms after the last, in one gzip member that is flushed
// after each [RFC 1951 §3.2.4: an empty stored block], and stays open.
func flushed(texts ...string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Encoding", "gzip")
		z := gzip.NewWriter(w)
		for _, text := range texts {
			io.WriteString(z, text)
			z.Flush()
			w.(http.Flusher).Flush()
			time.Sleep(300 * ms)
		}
		<-r.Context().Done()
	}
}

// memberwise is flushed with a member of its own for each text.
func memberwise(texts ...string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Encoding", "gzip")
		for _, text := range texts {
			w.Write(zipped([]byte(text)))
			w.(http.Flusher).Flush()
			time.Sleep(300 * ms)
		}
		<-r.Context().Done()
	}
}

func TestGrowingGzip(t *testing.T) {
	broken := func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Encoding", "gzip")
		w.Write(zipped([]byte("a ")))
		w.(http.Flusher).Flush()
		time.Sleep(300 * ms)
		w.Write([]byte("not gzip at all"))
		w.(http.Flusher).Flush()
		<-r.Context().Done()
	}
	for _, row := range []growingRow{
		{name: "one member, flushed", during: 900 * ms, responses: []http.HandlerFunc{flushed("a ", "b ", "c ")},
			want: []string{"0s new a ", "300ms new a b ", "600ms new a b c "}},
		{name: "a member each", during: 900 * ms, responses: []http.HandlerFunc{memberwise("a ", "b ", "c ")},
			want: []string{"0s new a ", "300ms new a b ", "600ms new a b c "}},
		{name: "broken later", during: 900 * ms, responses: []http.HandlerFunc{broken},
			want: []string{"0s new a ", "300ms malformed"}},
		{name: "a bomb", during: 100 * ms, o: GrowingOptions{HTTPOptions: HTTPOptions{MaxBytes: 1 << 20}}, responses: []http.HandlerFunc{bombing},
			want: []string{"0s too_large"}},
		{name: "old name", during: 100 * ms, responses: []http.HandlerFunc{coded("X-GZIP", zipped([]byte("a")))},
			want: []string{"0s new a"}},
		{name: "no gzip at all", during: 100 * ms, responses: []http.HandlerFunc{coded("gzip", nil)},
			want: []string{"0s malformed"}},
	} {
		row.run(t)
	}
}

// Held against gzip.Reader of the standard library, which reads all members as one.
func TestMembersReadsWhatGzipReads(t *testing.T) {
	one, two := zipped([]byte(pgn)), stored([]byte(strings.Repeat("x", 100_000)))
	for name, input := range map[string][]byte{
		"one":        one,
		"two":        slices.Concat(one, two),
		"empty ones": slices.Concat(zipped(nil), one, zipped(nil), zipped(nil)),
		"damaged":    damaged(),
		"cut":        one[:len(one)-3],
		"cut header": slices.Concat(one, two[:5]),
		"garbage":    slices.Concat(one, []byte("garbage behind it")),
	} {
		want, wantErr := []byte(nil), error(nil)
		z, err := gzip.NewReader(bytes.NewReader(input))
		if err == nil {
			want, wantErr = io.ReadAll(z)
		}
		for _, from := range []io.Reader{bytes.NewReader(input), iotest.OneByteReader(bytes.NewReader(input))} {
			r, err := growingUnpacked("gzip", from)
			if err != nil {
				t.Fatal(err)
			}
			got, gotErr := io.ReadAll(r)
			if !bytes.Equal(got, want) || !errors.Is(gotErr, wantErr) {
				t.Errorf("%s: got %d bytes and %v, gzip.Reader %d and %v", name, len(got), gotErr, len(want), wantErr)
			}
		}
	}
}

// An answer that was announced as coded in a way nobody asked for is not read at all.
func TestGrowingCoding(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		got := &recorder{limit: 1}
		(&arena{handler: func(w http.ResponseWriter, r *http.Request) {
			w.Header()["Content-Encoding"] = []string{"gzip", "br"}
			w.Write(zipped([]byte(pgn)))
		}}).follow(t, GrowingOptions{}, got)
		if e := got.events[0]; e.reason != ReasonMalformed || !strings.Contains(e.err, `coded as "gzip,br"`) {
			t.Errorf("got %q %q, want malformed, naming both", e.reason, e.err)
		}
	})
}
