package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"time"

	"clocktell/relay/config"
	"clocktell/relay/feed"
)

// hasty lets a poll wait no longer than a tenth of a second.
func hasty(c *config.Config) { c.Feeds[0].Timeout.Duration = 100 * time.Millisecond }

// silent waits until the client gives up.
func silent(r *http.Request) { <-r.Context().Done() }

// slowRows never come to their end in time.
var slowRows = []faultRow{
	{name: "slow header", adjust: hasty,
		serve: func(*faultScene) http.HandlerFunc { return func(_ http.ResponseWriter, r *http.Request) { silent(r) } },
		want:  faultWant{reason: feed.ReasonTimeout, says: "no complete answer within 0.1 s"}},
	{name: "slow body", adjust: hasty,
		serve: func(s *faultScene) http.HandlerFunc {
			return func(w http.ResponseWriter, r *http.Request) {
				text := s.packet(duringPlies, duringPlies)
				io.WriteString(w, text[:len(text)/2])
				w.(http.Flusher).Flush()
				silent(r)
			}
		},
		want: faultWant{reason: feed.ReasonTimeout, says: "no complete answer within 0.1 s"}},
	{name: "endless body", basis: "the program's own limit, max_bytes",
		serve: func(*faultScene) http.HandlerFunc {
			return func(w http.ResponseWriter, _ *http.Request) { io.Copy(w, endless{}) }
		},
		want: faultWant{reason: feed.ReasonTooLarge, says: "larger than 4194304 bytes"}},
	{name: "too much announced", basis: "the program's own limit, max_bytes",
		serve: rawAnswer("HTTP/1.1 200 OK\r\nContent-Length: 50000000\r\n\r\n"),
		want:  faultWant{reason: feed.ReasonTooLarge, says: "larger than 4194304 bytes"}},
	{name: "endless header", basis: "the program's own limit; RFC 9110 §5.4 leaves it to the recipient",
		serve: rawAnswer("HTTP/1.1 200 OK\r\nX-Padding: " + strings.Repeat("x", 128<<10) + "\r\n\r\n"),
		want:  faultWant{reason: feed.ReasonTooLarge, says: "header is larger"}},
}

// rawAnswer answers with these bytes and hangs up.
func rawAnswer(parts ...string) func(*faultScene) http.HandlerFunc {
	return wired(func(*faultScene) string { return strings.Join(parts, "") }, func(c net.Conn) { c.Close() })
}

// wired answers with bytes made for the scene, and ends the connection in a way of its own.
func wired(text func(*faultScene) string, end func(net.Conn)) func(*faultScene) http.HandlerFunc {
	return func(s *faultScene) http.HandlerFunc {
		return func(w http.ResponseWriter, _ *http.Request) {
			conn, _, err := http.NewResponseController(w).Hijack()
			if err != nil {
				panic(err) // HTTP/1.1 without a body can always be hijacked
			}
			io.WriteString(conn, text(s))
			end(conn)
		}
	}
}

// coded answers with these bytes and says that they are coded so.
func coded(coding string, body func(text string) []byte) func(*faultScene) http.HandlerFunc {
	return func(s *faultScene) http.HandlerFunc {
		return func(w http.ResponseWriter, _ *http.Request) {
			w.Header()["Content-Encoding"] = strings.Split(coding, ";")
			w.Write(body(s.packet(duringPlies, duringPlies)))
		}
	}
}

func plain(text string) []byte { return []byte(text) }

func zipped(text string) []byte {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	io.WriteString(z, text) // a buffer takes everything
	z.Close()
	return b.Bytes()
}

func halfOf(b []byte) []byte { return b[:len(b)/2] }

// header is a header for a body of that length.
func header(length int, more ...string) string {
	return fmt.Sprintf("HTTP/1.1 200 OK\r\nConnection: close\r\nContent-Length: %d\r\n%s\r\n", length, strings.Join(more, ""))
}

// half is half of a packet behind a header for the whole.
func half(s *faultScene) string {
	text := s.packet(duringPlies, duringPlies)
	return header(len(text)) + text[:len(text)/2]
}

func reset(c net.Conn) {
	c.(*net.TCPConn).SetLinger(0)
	c.Close()
}

func hangUp(c net.Conn) { c.Close() }

// brokenRows are answers whose transfer is broken.
var brokenRows = []faultRow{
	{name: "reset mid-body", basis: "RFC 9112 §8: an incomplete message", serve: wired(half, reset),
		want: faultWant{reason: feed.ReasonCut, says: "the answer ended early"}},
	{name: "length too long", basis: "RFC 9112 §8: fewer bytes than Content-Length are an incomplete message", serve: wired(half, hangUp),
		want: faultWant{reason: feed.ReasonCut, says: "the answer ended early"}},
	{name: "gzip of garbage", basis: "RFC 1952 §2.3.1: a member begins with 1f 8b", serve: coded("gzip", func(string) []byte { return []byte("\x1f\x8b\x08 garbage, garbage") }),
		want: faultWant{reason: feed.ReasonMalformed, says: "gzip is broken"}},
	{name: "gzip cut", basis: "RFC 1952 §2.3: a member ends with CRC32 and ISIZE", serve: coded("gzip", func(text string) []byte { return halfOf(zipped(text)) }),
		want: faultWant{reason: feed.ReasonMalformed, says: "gzip is broken"}},
	{name: "called gzip, but plain", basis: "RFC 9110 §8.4", serve: coded("gzip", plain),
		want: faultWant{reason: feed.ReasonMalformed, says: "gzip is broken"}},
	{name: "unknown coding", basis: "RFC 9110 §8.4, §12.5.3: only gzip is asked for", serve: coded("br", plain),
		want: faultWant{reason: feed.ReasonMalformed, says: `coded as "br"`}},
	{name: "coding named twice", basis: "RFC 9110 §8.4: coded twice, in that order", serve: coded("gzip;gzip", zipped),
		want: faultWant{reason: feed.ReasonMalformed, says: `coded as "gzip,gzip"`}},
	{name: "two lengths that differ", basis: "RFC 9112 §6.3: an unrecoverable error",
		serve: wired(func(s *faultScene) string {
			text := s.packet(duringPlies, duringPlies)
			return header(len(text), fmt.Sprintf("Content-Length: %d\r\n", len(text)/2)) + text
		}, hangUp),
		want: faultWant{reason: feed.ReasonMalformed, says: "Content-Length"}},
	{name: "broken chunk", basis: "RFC 9112 §7.1: a chunk begins with its length in hexadecimal digits",
		serve: rawAnswer("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n6\r\n[Event\r\nzz\r\n"),
		want:  faultWant{reason: feed.ReasonMalformed, says: "chunks are broken"}},
	{name: "no last chunk", basis: "RFC 9112 §8: without the zero-sized chunk it is incomplete",
		serve: rawAnswer("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n6\r\n[Event\r\n"),
		want:  faultWant{reason: feed.ReasonCut, says: "the answer ended early"}},
	{name: "not HTTP", basis: "RFC 9112 §4: a status line comes first", serve: rawAnswer("220 hall ready\r\n\r\n"),
		want: faultWant{reason: feed.ReasonMalformed, says: "the answer is not HTTP"}},
	{name: "closed without a word", serve: rawAnswer(""),
		want: faultWant{reason: feed.ReasonConnect, says: "no connection"}},
}

// soundRows are answers that only look odd.
var soundRows = []faultRow{
	{name: "duplicate headers", basis: "RFC 9110 §8.6: equal lengths may be taken as one; §5.3 for the others",
		serve: wired(func(s *faultScene) string {
			text := s.packet(duringPlies, duringPlies)
			twice := fmt.Sprintf("Content-Length: %d\r\nETag: \"a\"\r\nETag: \"b\"\r\nContent-Type: text/plain\r\nContent-Type: text/html\r\n", len(text))
			return header(len(text), twice) + text
		}, hangUp)},
	{name: "gzip under its old name", basis: "RFC 9110 §8.4.1.3", serve: coded("x-gzip", zipped)},
	{name: "gzip in two members", basis: "RFC 1952 §2.2: members follow one another",
		serve: coded("gzip", func(text string) []byte { return append(zipped(text[:100]), zipped(text[100:])...) })},
	{name: "no length at all", basis: "RFC 9112 §6.3: then the end of the connection is the end of the body",
		serve: wired(func(s *faultScene) string { return "HTTP/1.0 200 OK\r\n\r\n" + s.packet(duringPlies, duringPlies) }, hangUp)},
	{name: "a chunk for every byte", basis: "RFC 9112 §7.1",
		serve: wired(func(s *faultScene) string {
			var b strings.Builder
			b.WriteString("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n")
			for text := s.packet(duringPlies, duringPlies); text != ""; text = text[1:] {
				b.WriteString("1;note=odd\r\n" + text[:1] + "\r\n")
			}
			return b.String() + "0\r\n\r\n"
		}, hangUp)},
	{name: "a redirect to the games", basis: "RFC 9110 §15.4.3",
		serve: func(s *faultScene) http.HandlerFunc {
			return func(w http.ResponseWriter, r *http.Request) {
				if r.URL.Path == "/games.pgn" {
					http.Redirect(w, r, "/moved.pgn", http.StatusFound)
					return
				}
				io.WriteString(w, s.packet(duringPlies, duringPlies))
			}
		}},
}
