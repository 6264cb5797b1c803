package match

import (
	"slices"
	"strings"
	"unicode"
)

// SameName reports whether two names are made of the same words, in any order and in
// either case: "Brandvold, Sunniva" and "Sunniva BRANDVOLD". A name without a letter is
// nobody's. Accents count, and so do initials: "S. Brandvold" is somebody else.
func SameName(a, b string) bool {
	k := key(a)
	return k != "" && k == key(b)
}

// key is the name's words, folded and sorted.
func key(name string) string {
	words := strings.FieldsFunc(fold(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r)
	})
	slices.Sort(words)
	out := strings.Join(words, " ")
	if !strings.ContainsFunc(out, unicode.IsLetter) {
		return ""
	}
	return out
}

// fold takes each letter to the least one of those that differ from it in case only.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		least := r
		for next := unicode.SimpleFold(r); next != r; next = unicode.SimpleFold(next) {
			least = min(least, next)
		}
		return least
	}, s)
}
