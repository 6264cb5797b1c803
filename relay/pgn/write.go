package pgn

import (
	"errors"
	"fmt"
	"io"
	"sort"
	"strings"
)

// ErrWrite is wrapped by the errors of Write about a game that cannot stand in
// PGN text.
var ErrWrite = errors.New("pgn: game cannot be written")

// Write writes one game in export format (PGN 3.2, 8): the seven tag roster in
// order, with the standard's defaults, then the other tags in ASCII order, each
// name once; lines of movetext below 80 characters as far as words allow; "N..."
// only where it is required; "*" for a missing result; an empty line at the end.
//
// Text is UTF-8, which the standard does not know. A "}" in a comment becomes
// ")", since nothing in a comment can stand for it. Moves stand as they are in
// SAN, so that other notations are not export format. Reading gives the same
// game back, apart from what this paragraph and the one above name.
//
// An error wraps ErrWrite and names the word that is no move, tag name or
// result, or is w's own; in the first case nothing has been written.
func Write(w io.Writer, g *Game) error {
	t := writer{}
	t.tags(g)
	t.comments(g.Comments)
	number, black := firstPly(g.Tag("FEN"))
	t.line(g.Moves, ply{number, black})
	t.word(resultWord(g))
	t.flush()
	if t.err != nil {
		return t.err
	}
	t.out.WriteString("\n\n")
	_, err := io.WriteString(w, t.out.String())
	return err
}

// resultWord returns the word that ends the game's movetext.
func resultWord(g *Game) string {
	if g.Result == "" {
		return unknown
	}
	return g.Result
}

func (t *writer) tags(g *Game) {
	if r := resultWord(g); r != unknown && (resultOf(r) != r) {
		t.fail("result", r)
	}
	for _, tag := range exportTags(g) {
		if !isTagName(tag.Name) {
			t.fail("tag name", tag.Name)
		}
		fmt.Fprintf(&t.out, "[%s \"%s\"]\n", tag.Name, escapeValue(tag.Value))
	}
	t.out.WriteByte('\n')
}

// escapeValue escapes a tag value; control characters become spaces.
func escapeValue(s string) string {
	s = strings.Map(func(c rune) rune { return max(c, ' ') }, s)
	return strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s)
}

// exportTags returns the tags to write, each name once, in export order.
func exportTags(g *Game) []Tag {
	tags := make([]Tag, 0, len(sevenTags)+len(g.Tags))
	for _, name := range sevenTags {
		tags = append(tags, Tag{name, rosterValue(g, name)})
	}
	have := map[string]bool{}
	for _, tag := range g.Tags {
		if rosterBit(tag.Name) == 0 && !have[tag.Name] {
			tags = append(tags, tag)
		}
		have[tag.Name] = true
	}
	rest := tags[len(sevenTags):]
	sort.SliceStable(rest, func(i, j int) bool { return rest[i].Name < rest[j].Name })
	return tags
}

// rosterValue returns a roster tag's value or its default (PGN 8.1.1).
func rosterValue(g *Game, name string) string {
	for _, tag := range g.Tags {
		if tag.Name == name {
			return tag.Value
		}
	}
	switch name {
	case "Date":
		return "????.??.??"
	case "Result":
		return resultWord(g)
	}
	return "?"
}

func isTagName(s string) bool {
	for i := 0; i < len(s); i++ {
		if !nameBytes[s[i]] {
			return false
		}
	}
	return s != "" && (isAlnum(s[0]) || s[0] == '_')
}
