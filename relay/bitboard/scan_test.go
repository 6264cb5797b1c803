package bitboard

import (
	"strings"
	"testing"
)

// replayScan replays the main lines of a text with the lightest scanner that does for
// well-formed PGN, so that what is measured is the core. Every move is checked. It
// returns the plies played and the exclusive or of all hashes met, and how many games
// stopped early.
func replayScan(text string) (plies int, sum uint64, broken int) {
	p := Start()
	begun := false
	for i := 0; i < len(text); {
		switch c := text[i]; {
		case c <= ' ' || c == '.' || c == '*':
			i++
		case c == '[':
			if begun {
				p, begun = Start(), false
			}
			if strings.HasPrefix(text[i:], `[FEN "`) {
				p, _ = ParseFEN(before(text[i+6:], '"'))
			}
			i += past(text[i:], '\n')
		case c == '{':
			i += past(text[i:], '}')
		case c == '(':
			i += variation(text[i:])
		case c == '$' || c >= '0' && c <= '9':
			i += number(text[i:])
		default:
			word := text[i : i+wordEnd(text[i:])]
			i += len(word)
			begun = true
			m, err := p.ParseSAN(word)
			if err != nil {
				broken++
				i += past(text[i:], '[') - 1
				continue
			}
			p.Make(m)
			plies++
			sum ^= p.Hash()
		}
	}
	return plies, sum, broken
}

// past returns the offset behind the first c, or the length of a text without.
func past(text string, c byte) int {
	if i := strings.IndexByte(text, c); i >= 0 {
		return i + 1
	}
	return len(text)
}

func before(text string, c byte) string {
	word, _, _ := strings.Cut(text, string(c))
	return word
}

// number returns the length of a move number, a glyph, or a result.
func number(text string) int {
	i := 1
	for i < len(text) && (text[i] >= '0' && text[i] <= '9' || text[i] == '-' || text[i] == '/') {
		i++
	}
	return i
}

func wordEnd(text string) int {
	for i := range len(text) {
		if c := text[i]; c <= ' ' || c == '{' || c == '(' || c == ')' {
			return i
		}
	}
	return len(text)
}

// variation returns the length of a variation with those in it.
func variation(text string) int {
	depth := 0
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				return i + 1
			}
		case '{':
			i += past(text[i:], '}') - 1
		}
	}
	return len(text)
}

// TestScan holds the benchmark's scanner to package pgn: as many plies, the same
// positions.
func TestScan(t *testing.T) {
	for _, name := range libraryFiles {
		plies, sum, broken := replayScan(string(libraryFile(t, name)))
		wantPlies, want := 0, uint64(0)
		for _, game := range libraryGames(t, name) {
			p := begin(t, &game)
			for _, move := range game.Moves {
				play(t, &p, move.SAN)
				want ^= p.Hash()
				wantPlies++
			}
		}
		if plies != wantPlies || sum != want || broken != 0 {
			t.Errorf("%s: %d plies, sum %x, %d games broken, want %d, %x, none", name, plies, sum, broken, wantPlies, want)
		}
	}
}
