package pgn

import (
	"strings"
	"unicode/utf8"
)

// kind sorts bytes by what a token that begins with them can be.
type kind uint8

const (
	kindOdd    kind = iota // begins nothing, or something rare
	kindGap                // white space, control characters, periods: nothing but a gap between tokens
	kindLetter             // A-Z a-z
	kindDigit              // 0-9
	kindMark               // + # = : - _ / inside a word
	kindHigh               // part of a character beyond ASCII
	kindTag                // [
	kindBrace              // {
)

var kinds = func() (t [256]kind) {
	for c := range t {
		switch {
		case c <= ' ' || c == '.':
			t[c] = kindGap
		case c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z':
			t[c] = kindLetter
		case c >= '0' && c <= '9':
			t[c] = kindDigit
		case strings.IndexByte("+#=:-_/", byte(c)) >= 0:
			t[c] = kindMark
		case c >= utf8.RuneSelf:
			t[c] = kindHigh
		}
	}
	t['['], t['{'] = kindTag, kindBrace
	return t
}()

func isSpace(c byte) bool { return c <= ' ' }

func isLineEnd(c byte) bool { return c == '\n' || c == '\r' }

func isAlnum(c byte) bool { return kinds[c] == kindLetter || kinds[c] == kindDigit }

// isWordByte reports letters, digits and marks.
func isWordByte(c byte) bool { return kinds[c]-kindLetter <= kindMark-kindLetter }

// runeAt decodes the character at s[i]; a byte that is not UTF-8 is taken for
// its ISO 8859-1 meaning.
func runeAt(s string, i int) (rune, int) {
	c, n := utf8.DecodeRuneInString(s[i:])
	if c == utf8.RuneError && n <= 1 {
		return rune(s[i]), 1
	}
	return c, n
}

// isBlankRune reports characters beyond ASCII that separate words: no-break
// space, byte-order mark and the ellipsis some write for three periods.
func isBlankRune(c rune) bool { return c == 0x00A0 || c == 0xFEFF || c == 0x2026 }

// wordEnd returns the end of the word that begins at s[i].
func wordEnd(s string, i int) int {
	for i < len(s) {
		switch kinds[s[i]] {
		case kindLetter, kindDigit, kindMark:
			i++
		case kindHigh:
			c, n := runeAt(s, i)
			if isBlankRune(c) {
				return i
			}
			i += n
		default:
			return i
		}
	}
	return i
}

// skipSpace returns the first offset from i on that is no white space.
func skipSpace(s string, i int) int {
	for i < len(s) && isSpace(s[i]) {
		i++
	}
	return i
}

// lineEnd returns the offset of the line end at or behind i, or the text's end.
func lineEnd(s string, i int) int {
	for i < len(s) && !isLineEnd(s[i]) {
		i++
	}
	return i
}

// atLineStart reports whether s[i] stands in the first column.
func atLineStart(s string, i int) bool { return i == 0 || isLineEnd(s[i-1]) }
