package feed

import (
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"net/http"
	"strconv"
	"sync"
	"time"
)

// checkTags is the shape of a Check: one tag pair, or it is no PGN.
func checkTags(body []byte) error {
	if !bytes.Contains(body, []byte("[White ")) {
		return errors.New("no tag pair in " + strconv.Itoa(len(body)) + " bytes")
	}
	return nil
}

func status(code int, header ...string) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		for i := 0; i < len(header); i += 2 {
			w.Header().Set(header[i], header[i+1])
		}
		w.WriteHeader(code)
	}
}

// inSeconds asks to come back at a date, in the form HTTP-date prefers.
func inSeconds(n int) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		at := time.Now().Add(time.Duration(n) * time.Second).UTC().Format(http.TimeFormat)
		status(503, "Retry-After", at)(w, r)
	}
}

// raw writes bytes to the line as they are and ends it with end.
func raw(text string, end func(*farEnd)) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		conn, _, err := w.(http.Hijacker).Hijack()
		if err != nil {
			panic(err)
		}
		io.WriteString(conn, text)
		end(conn.(*farEnd))
	}
}

func closed(f *farEnd) { f.Close() }

func hangBeforeHeader(_ http.ResponseWriter, r *http.Request) { <-r.Context().Done() }

func hangInBody(w http.ResponseWriter, r *http.Request) {
	io.WriteString(w, pgn)
	w.(http.Flusher).Flush()
	<-r.Context().Done()
}

// dripHeader sends one byte of a header per second for ever.
func dripHeader(w http.ResponseWriter, _ *http.Request) {
	conn, _, err := w.(http.Hijacker).Hijack()
	if err != nil {
		panic(err)
	}
	defer conn.Close()
	for text := "HTTP/1.1 200 OK\r\nX: "; ; text = "x" {
		if _, err := io.WriteString(conn, text); err != nil {
			return
		}
		time.Sleep(time.Second)
	}
}

// drip sends one byte per second for ever.
func drip(w http.ResponseWriter, r *http.Request) {
	tick := time.NewTicker(time.Second)
	defer tick.Stop()
	for {
		select {
		case <-tick.C:
			io.WriteString(w, " ")
			w.(http.Flusher).Flush()
		case <-r.Context().Done():
			return
		}
	}
}

func endless(w http.ResponseWriter, _ *http.Request) {
	block := bytes.Repeat([]byte("1. e4 "), 1<<10)
	for {
		if _, err := w.Write(block); err != nil {
			return
		}
	}
}

func big(bytesLong int) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Length", strconv.Itoa(bytesLong))
		w.Write(make([]byte, bytesLong))
	}
}

func zipped(body []byte) []byte {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	z.Write(body)
	z.Close()
	return b.Bytes()
}

// stored is gzip that holds body as it is, and hence is longer.
func stored(body []byte) []byte {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.NoCompression)
	if err != nil {
		panic(err)
	}
	z.Write(body)
	z.Close()
	return b.Bytes()
}

func coded(coding string, body []byte) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Encoding", coding)
		w.Write(body)
	}
}

// bomb is gzip of 20 MB that are nothing. Made when asked for: it takes a second.
var bomb = sync.OnceValue(func() []byte { return zipped(make([]byte, 20<<20)) })

func bombing(w http.ResponseWriter, r *http.Request) { coded("gzip", bomb())(w, r) }

// emptyMembers is gzip that never ends and never decodes to a byte.
func emptyMembers(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Encoding", "gzip")
	members := bytes.Repeat(zipped(nil), 1<<10)
	for {
		if _, err := w.Write(members); err != nil {
			return
		}
	}
}

// bouncing redirects to itself, in two steps.
func bouncing(w http.ResponseWriter, r *http.Request) {
	to := map[string]string{"/games.pgn": "/a", "/a": "/b", "/b": "/a"}[r.URL.Path]
	http.Redirect(w, r, to, http.StatusFound)
}

// damaged is gzip with a wrong checksum [RFC 1952 §2.3.1: CRC32 in the last 8 bytes].
func damaged() []byte {
	b := zipped([]byte(pgn))
	b[len(b)-8] ^= 1
	return b
}
