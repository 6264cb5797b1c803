package pgn

import (
	"bytes"
	"strings"
	"testing"

	notnil "github.com/notnil/chess"
)

// BenchmarkRead measures this package against a bare scan for words and against
// a library that reads PGN by the rules, on the library games: bare moves in
// a packet of 200 kB and all together, whole games, and games with clocks,
// evaluations and variations.
func BenchmarkRead(b *testing.B) {
	bare, annotated := libraryFile(b, "big_big.pgn"), libraryFile(b, "big.pgn")
	movetext := bareMovetext(bare)
	packet := movetext[:bytes.LastIndexByte(movetext[:200_000], '\n')]
	for _, c := range []struct {
		name string
		data []byte
	}{{"packet", packet}, {"moves", movetext}, {"games", bare}, {"annotated", annotated}} {
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(c.data)))
			b.ReportAllocs()
			for b.Loop() {
				readAll.Read(c.data)
			}
		})
		b.Run(c.name+"/words", func(b *testing.B) {
			b.SetBytes(int64(len(c.data)))
			for b.Loop() {
				countWords(c.data)
			}
		})
	}
	some := bare[:bytes.LastIndex(bare[:200_000], []byte("[Event "))]
	b.Run("games/notnil", func(b *testing.B) {
		b.SetBytes(int64(len(some)))
		for b.Loop() {
			s := notnil.NewScanner(bytes.NewReader(some))
			for s.Scan() {
				s.Next()
			}
		}
	})
}

// bareMovetext returns the file without its tag sections.
func bareMovetext(data []byte) []byte {
	var b strings.Builder
	for line := range strings.Lines(string(data)) {
		if !strings.HasPrefix(line, "[") {
			b.WriteString(line)
		}
	}
	return []byte(b.String())
}

// countWords is the least any reader has to do: find the words.
func countWords(data []byte) (n int) {
	inWord := false
	for _, c := range data {
		space := isSpace(c)
		if !space && !inWord {
			n++
		}
		inWord = !space
	}
	return n
}
