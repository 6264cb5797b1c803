package pgn

import (
	"strings"
	"unicode/utf8"
)

// fold trims white space and makes every run of it one space.
func fold(s string) string {
	s = trimSpace(s)
	if isFolded(s) {
		return s
	}
	var b strings.Builder
	b.Grow(len(s))
	appendFolded(&b, s)
	return b.String()
}

// trimSpace removes white space and control characters from both ends.
func trimSpace[T string | []byte](s T) T {
	for len(s) > 0 && isSpace(s[0]) {
		s = s[1:]
	}
	for len(s) > 0 && isSpace(s[len(s)-1]) {
		s = s[:len(s)-1]
	}
	return s
}

// isFolded reports whether the trimmed text s has only single spaces.
func isFolded(s string) bool {
	for i := 0; i < len(s); i++ {
		if isSpace(s[i]) && (s[i] != ' ' || isSpace(s[i-1])) {
			return false
		}
	}
	return true
}

// appendFolded writes the trimmed text s with every run of white space as one space.
func appendFolded[T string | []byte](b *strings.Builder, s T) {
	for i := 0; i < len(s); i++ {
		if !isSpace(s[i]) {
			b.WriteByte(s[i])
		} else if !isSpace(s[i-1]) {
			b.WriteByte(' ')
		}
	}
}

// cut shortens s to at most n bytes without splitting a character.
func cut(s string, n int) string {
	if len(s) <= n {
		return s
	}
	for n > 0 && !utf8.RuneStart(s[n]) {
		n--
	}
	return s[:n]
}

// latin1 decodes ISO 8859-1, where every byte is the character of that number.
func latin1(s string) string {
	var b strings.Builder
	b.Grow(len(s) + len(s)/8)
	for i := 0; i < len(s); i++ {
		b.WriteRune(rune(s[i]))
	}
	return b.String()
}
