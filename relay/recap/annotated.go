package recap

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/desk"
	"clocktell/relay/pgn"
)

// Numeric annotation glyphs. The time ones are in the table of the standard of 1994 (10):
// 136 White, 137 Black has moderate time control pressure, 138 and 139 severe. The standard
// has none for a new move: 146 is a later convention that most programs read (from memory).
const (
	glyphModerate = 136
	glyphSevere   = 138
	glyphNew      = 146
)

// tagName is a tag's name as a line has room for it. PGN wants a letter or a digit first (PGN 7,
// 8.1), which feeds do not always mind.
var tagName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_]{0,47}$`)

// Limits of what is written, in characters. PGN lines have at most 255 (PGN 4.3), and those of
// the movetext less than 80 (PGN 8.2.1).
const (
	tagValueMost = 200
	wordMost     = 60
)

// WritePGN writes games, annotated with what their show made of them, in export format. Those
// without a move come last: some readers find no end to them.
func WritePGN(w io.Writer, in *Words, games ...*Game) error {
	moved := slices.Clone(games)
	slices.SortStableFunc(moved, func(a, b *Game) int { return min(1, len(b.Board.Plies)) - min(1, len(a.Board.Plies)) })
	for _, g := range moved {
		if err := pgn.Write(w, annotated(g, in)); err != nil {
			return fmt.Errorf("board %d: %w", g.Board.Number, err)
		}
	}
	return nil
}

// annotated returns a game as PGN has it.
func annotated(g *Game, in *Words) *pgn.Game {
	b := g.Board
	out := &pgn.Game{Tags: tagsOf(b), Result: b.Result, Moves: make([]pgn.Move, len(b.Plies))}
	notes := make([]pgn.Notes, len(b.Plies))
	for i := range b.Plies {
		ply := &b.Plies[i]
		out.Moves[i].SAN = ply.SAN
		notes[i].Comments = readingOf(b, i)
		if ply.ByHand {
			notes[i].Comments = append(notes[i].Comments, comment(in.ByHand))
		}
	}
	a := annotator{g: g, in: in, out: out, notes: notes}
	a.glyphs()
	a.said()
	a.shown()
	a.asked()
	if b.Fault != "" {
		a.comment(len(b.Plies), b.Fault)
	}
	for i := range notes {
		if n := &notes[i]; len(n.NAGs)+len(n.Comments)+len(n.Variations) > 0 {
			n.Comments = joined(n.Comments)
			out.Moves[i].Notes = n
		}
	}
	out.Comments = joined(out.Comments)
	return out
}

// tagsOf returns the tags as the feed has them, with what the show knows better.
func tagsOf(b *relay.Board) []pgn.Tag {
	var tags []pgn.Tag
	if told := b.Told(); told != nil {
		tags = slices.Clone(told.Tags)
	}
	set := func(name, value string, over bool) {
		i := slices.IndexFunc(tags, func(t pgn.Tag) bool { return t.Name == name })
		switch {
		case value == "":
		case i < 0:
			tags = append(tags, pgn.Tag{Name: name, Value: value})
		case over:
			tags[i].Value = value
		}
	}
	set("White", b.Players[clock.White].Name, true)
	set("Black", b.Players[clock.Black].Name, true)
	set("Result", b.Result, true)
	set("ECO", b.Opening.Code, false)
	set("Opening", b.Opening.Name, false)
	set("PlyCount", fmt.Sprint(len(b.Plies)), true)
	if b.StartTag() != "" {
		set("SetUp", "1", true)
		set("FEN", b.StartTag(), true)
	}
	if len(b.Plies) > 0 { // its moves are those of chess, whatever the start; not all readers know the names that feeds have for that
		tags = slices.DeleteFunc(tags, func(t pgn.Tag) bool { return t.Name == "Variant" })
	}
	tags = slices.DeleteFunc(tags, func(t pgn.Tag) bool { return !tagName.MatchString(t.Name) })
	for i := range tags {
		tags[i].Value = cutTo(tags[i].Value, tagValueMost)
	}
	return tags
}

// cutTo returns a tag's value with at most so many characters as it is written, in which
// quotes and backslashes take two.
func cutTo(text string, most int) string {
	for i, r := range text {
		most--
		if r == '"' || r == '\\' {
			most--
		}
		if most < 0 {
			return text[:i]
		}
	}
	return text
}

// readingOf returns the comments of a ply as the feed wrote them, its clocks among them; of a
// ply that the feed does not tell, or of another clock than it tells, the clock that counts.
func readingOf(b *relay.Board, i int) []pgn.Comment {
	ply := &b.Plies[i]
	var out []pgn.Comment
	if told := b.Told(); told != nil && i < len(told.Moves) && told.Moves[i].SAN == ply.Text && told.Moves[i].Notes != nil {
		for _, c := range told.Moves[i].Notes.Comments {
			out = append(out, pgn.Comment{Text: tidy(c.Text), Commands: c.Commands})
		}
	}
	written := slices.ContainsFunc(out, func(c pgn.Comment) bool { return tells(c, ply.Reading) })
	if written || !ply.Reading.Left.OK {
		return out
	}
	for k := range out {
		out[k].Commands = slices.DeleteFunc(slices.Clone(out[k].Commands), func(c pgn.Command) bool { return c.Name == "clk" })
	}
	clk := pgn.Command{Name: "clk", Operands: []string{clockText(ply.Reading.Left.D)}}
	return append([]pgn.Comment{{Commands: []pgn.Command{clk}}}, out...)
}

// tells reports that a comment has the clock of a reading.
func tells(c pgn.Comment, r clock.Reading) bool {
	return slices.ContainsFunc(c.Commands, func(c pgn.Command) bool {
		if c.Name != "clk" || len(c.Operands) != 1 {
			return false
		}
		d, err := clock.ParseReading(c.Operands[0])
		return err == nil && r.Left.OK && d == r.Left.D
	})
}

// clockText is a clock as the supplement of 2001 has it: h:mm:ss, with what is finer.
func clockText(d time.Duration) string {
	d = max(0, d)
	text := fmt.Sprintf("%d:%02d:%02d", int(d.Hours()), int(d.Minutes())%60, int(d.Seconds())%60)
	if part := d % time.Second; part > 0 {
		text += strings.TrimRight(fmt.Sprintf(".%03d", part.Milliseconds()), "0")
	}
	return strings.TrimSuffix(text, ".")
}

func comment(text string) pgn.Comment { return pgn.Comment{Text: tidy(text)} }

// tidy makes a text one that every reader takes: no brace, of which PGN knows no nested ones,
// no control sign, no bracket that could be taken for a command, and no word longer than a line.
func tidy(text string) string {
	text = strings.NewReplacer("{", "(", "}", ")", "[%", "(%").Replace(strings.ToValidUTF8(text, "?"))
	words := strings.FieldsFunc(text, func(r rune) bool {
		return r <= ' ' || r == 0x7f || r >= 0x80 && r <= 0xa0 || r == 0x2028 || r == 0x2029
	})
	var out []string
	for _, w := range words {
		for utf8.RuneCountInString(w) > wordMost {
			runes := []rune(w)
			out, w = append(out, string(runes[:wordMost])), string(runes[wordMost:])
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

// joined makes one comment of several: some readers keep only one behind a move.
func joined(comments []pgn.Comment) []pgn.Comment {
	var all pgn.Comment
	var texts []string
	for _, c := range comments {
		all.Commands = append(all.Commands, c.Commands...)
		if c.Text != "" {
			texts = append(texts, c.Text)
		}
	}
	all.Text = strings.Join(texts, " · ")
	if all.Text == "" && len(all.Commands) == 0 {
		return nil
	}
	return []pgn.Comment{all}
}

// linePGN returns a side line as a variation. What is said of it stands behind its first move:
// some readers lose a comment before that.
func linePGN(moves []desk.Step, text string) pgn.Variation {
	v := pgn.Variation{}
	for _, m := range moves {
		v.Moves = append(v.Moves, pgn.Move{SAN: m.SAN})
	}
	if text = tidy(text); text != "" {
		v.Moves[0].Notes = &pgn.Notes{Comments: []pgn.Comment{{Text: text}}}
	}
	return v
}
