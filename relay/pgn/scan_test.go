package pgn

import "strings"

// The classes of the bare scan, made for it alone.
const (
	scanSign  uint8 = iota // a token of one byte
	scanSpace              // between tokens
	scanWord               // moves, numbers, results, names
	scanBrace              // a comment, to the closing brace
	scanQuote              // a tag value, to the closing quotation mark
)

var scanClass = func() (t [256]uint8) {
	for c := range t {
		switch {
		case c <= ' ':
			t[c] = scanSpace
		case c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c >= 0x80 || strings.IndexByte("+#=:-_/", byte(c)) >= 0:
			t[c] = scanWord
		}
	}
	t['{'], t['"'] = scanBrace, scanQuote
	return t
}()

// scanTokens is the least that any reader of PGN has to do: it finds the tokens
// and counts them, keeps nothing and recovers from nothing. Speeds are published
// as multiples of its speed.
func scanTokens(s string) (tokens int) {
	for i := 0; i < len(s); tokens++ {
		switch scanClass[s[i]] {
		case scanSpace:
			i++
			tokens--
		case scanWord:
			for i++; i < len(s) && scanClass[s[i]] == scanWord; i++ {
			}
		case scanBrace:
			i = scanTo(s, i, '}')
		case scanQuote:
			i = scanTo(s, i, '"')
		default:
			i++
		}
	}
	return tokens
}

func scanTo(s string, i int, end byte) int {
	n := strings.IndexByte(s[i+1:], end)
	if n < 0 {
		return len(s)
	}
	return i + n + 2
}
