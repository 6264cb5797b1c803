package main

import (
	"net/http"
	"strings"

	"clocktell/relay"
	"clocktell/relay/feed"
)

// body answers with something that is no PGN at all.
func body(text string) func(*faultScene) http.HandlerFunc {
	return func(*faultScene) http.HandlerFunc { return answer(text) }
}

// bodyRows are answers of status 200 without a game in them.
var bodyRows = []faultRow{
	{name: "a web page with 200", basis: "RFC 9110 §15.3.1: 200 says nothing of what was meant", serve: body("<!doctype html>\n<title>Sign in</title>\n<p>1. e4 e5 *</p>\n<pre>\n[White \"Alba, Anna\"]\n</pre>\n"),
		want: faultWant{reason: feed.ReasonNotPGN, says: "does not hold PGN"}},
	{name: "JSON with 200", basis: "RFC 8259", serve: body(`{"games":[{"white":"Alba, Anna","pgn":"[White \"Alba, Anna\"]\n\n1. e4 e5 *"}]}`),
		want: faultWant{reason: feed.ReasonNotPGN, says: "does not hold PGN"}},
	{name: "JSON list with 200", basis: "RFC 8259", serve: body("[\"White\", \"Alba, Anna\"]\n[ \"e4\", \"e5\" ]"),
		want: faultWant{reason: feed.ReasonNotPGN, says: "does not hold PGN"}},
	{name: "a web page behind a byte-order mark", basis: "RFC 3629 §6", serve: body("\xEF\xBB\xBF<!doctype html>\n<pre>\n[White \"Alba, Anna\"]\n\n1. e4 e5 *\n</pre>\n"),
		want: faultWant{reason: feed.ReasonNotPGN, says: "does not hold PGN"}},
	{name: "plain words with 200", serve: body("The hall is closed for lunch until 2 o'clock.\n"),
		want: faultWant{reason: feed.ReasonNotPGN, says: "does not hold PGN"}},
	{name: "UTF-16", basis: "PGN 4.1: not one of the character sets read", serve: func(s *faultScene) http.HandlerFunc {
		return answer("\xFF\xFE" + strings.Join(strings.Split(s.packet(duringPlies, duringPlies), ""), "\x00") + "\x00")
	}, want: faultWant{reason: feed.ReasonNotPGN, says: "does not hold PGN"}},
	{name: "empty body", basis: "PGN 8: a database may be empty, an arena's is not", serve: body(""),
		want: faultWant{reason: feed.ReasonNotPGN, says: "does not hold PGN"}},
	{name: "white space alone", basis: "PGN 7: it separates tokens and is none", serve: body(" \r\n\t\n\n  "),
		want: faultWant{reason: feed.ReasonNotPGN, says: "does not hold PGN"}},
	{name: "NUL bytes alone", serve: body(strings.Repeat("\x00", 4096)),
		want: faultWant{reason: feed.ReasonNotPGN, says: "does not hold PGN"}},
}

// whole serves what f makes of the packet.
func whole(f func(packet string) string) func(faultGames) []string {
	return func(g faultGames) []string {
		return []string{f(g.s.joined(g.bad(g.s.during()), g.good(duringPlies)))}
	}
}

// talkative adds what only a line end ends: a comment, and a line that is not read.
func talkative(packet string) string {
	return strings.ReplaceAll(packet, "\n3. ", " ; said to the line's end: e5\n% not read: e5\n3. ")
}

// latin1 encodes text, all of it below U+0100, as ISO 8859-1.
func latin1(text string) string {
	var b strings.Builder
	for _, c := range text {
		b.WriteByte(byte(c))
	}
	return b.String()
}

// textRows are odd ways of writing a packet that hide nothing of it.
var textRows = []faultRow{
	{name: "byte-order mark", basis: "RFC 3629 §6", packets: whole(func(p string) string { return "\xEF\xBB\xBF" + p })},
	{name: "CR line ends", basis: "PGN 3.1: import takes what other systems write", packets: whole(func(p string) string { return strings.ReplaceAll(talkative(p), "\n", "\r") })},
	{name: "CRLF line ends", basis: "PGN 3.1", packets: whole(func(p string) string { return strings.ReplaceAll(talkative(p), "\n", "\r\n") })},
	{name: "names in ISO 8859-1", basis: "PGN 4.1: the standard's own character set; named because a show is UTF-8",
		game: latin1,
		want: faultWant{reading: []string{"board 1, line 1: not UTF-8; read as ISO 8859-1"}, unread: map[string]int{"encoding": 1}}},
	{name: "NUL bytes between moves", basis: "common practice: files filled up with NUL", game: instead("\n3. ", "\x00\n3.\x00", "\n*\n", "\n\x00*\x00\x00\n")},
	{name: "NUL bytes at the end", last: true, game: func(text string) string { return text + strings.Repeat("\x00", 512) }},
	{name: "a NUL byte inside a tag", basis: "PGN 7: a string has printing characters alone", game: instead("Alba, Anna", "Alba,\x00Anna")},
	{name: "NUL bytes at the end of a tag", basis: "common practice: fields of a fixed width filled up with NUL", game: instead("Alba, Anna", "Alba, Anna\x00\x00")},
	{name: "escaped lines", basis: "PGN 6: a line that begins with % is not read", game: instead("\n\n1.", "\n% not a move: e5 {[%clk 9:99:99]}\n\n1.")},
	{name: "a line of 2 MB, moves and all", basis: "PGN 4.3: lines have 255 characters at the most; import is lax", game: func(text string) string {
		return strings.ReplaceAll(text, " {", strings.Repeat(" ", 2<<20/duringPlies)+"{")
	}},
	{name: "comments behind semicolons", basis: "PGN 5", game: instead("\n*", " ; a comment (with [brackets] to the line's end\n*")},
	{name: "no empty lines", basis: "PGN 8.1, 8.2: tags and moves tell themselves apart", packets: whole(func(p string) string { return strings.ReplaceAll(p, "\n\n", "\n") })},
	{name: "doubled line ends", basis: "common practice: CRLF converted twice", packets: whole(func(p string) string { return strings.ReplaceAll(p, "\n", "\r\r\n") })},
	{name: "no-break spaces", basis: "common practice: text copied from a page", game: instead(" Nc6", "\u00A0Nc6", "3. ", "3.\u00A0")},
	{name: "an end-of-file character", basis: "common practice: 0x1A of old systems", last: true, game: func(text string) string { return text + "\x1A" }},
	{name: "unknown tags", basis: "PGN 9: a reader ignores what it does not know", game: instead("[Result", "[Mood \"calm\"]\n[Result")},
	{name: "glyphs and suffixes", basis: "PGN 8.2.3.8, 8.2.4", game: instead("Nf3", "Nf3!?", "Nc6", "Nc6 $13")},
}

// unclosed is what a comment without an end hides: the result as well.
var unclosed = map[string]int{"unclosed_comment": 1, "no_result": 1}

// brokenTextRows are packets with something that cannot be read.
var brokenTextRows = []faultRow{
	{name: "a comment of 2 MB in one line", basis: "the program's own limit", game: func(text string) string {
		return strings.Replace(text, "\n*", " {"+strings.Repeat("talk ", 2<<20/5)+"}\n*", 1)
	}, want: faultWant{reading: []string{"a comment was cut"}, unread: map[string]int{"limit_comment": 1}}},
	{name: "a word of 2 MB", basis: "PGN 7: a symbol has 255 characters at the most", game: func(text string) string {
		return strings.Replace(text, "\n*", " "+strings.Repeat("word", 2<<20/4)+"\n*", 1)
	}, want: faultWant{reading: []string{"a word too long"}, unread: map[string]int{"limit_word": 1}}},
	{name: "100,000 nested variations", basis: "PGN 8.2.5 sets no limit; this one is the program's own", game: func(text string) string {
		return strings.Replace(text, "\n*", " "+strings.Repeat("(3... Be7 ", 100_000)+strings.Repeat(")", 100_000)+"\n*", 1)
	}, want: faultWant{reading: []string{"a variation nested too deep"}, unread: map[string]int{"limit_nesting": 1}}},
	{name: "100,000 brackets with nothing in them", basis: "PGN 8.2.5: a variation has moves", game: func(text string) string {
		return strings.Replace(text, "\n*", " "+strings.Repeat("(", 100_000)+strings.Repeat(")", 100_000)+"\n*", 1)
	}, want: faultWant{reading: []string{`means nothing here and was left out: "("`}, unread: map[string]int{"bad_token": 1}}},
	{name: "unclosed comment behind the moves", basis: "PGN 5", game: instead("\n*", " {no end\n*"),
		want: faultWant{reading: []string{"a comment is not closed", "the moves end without a result"}, unread: unclosed}},
	{name: "unclosed comment before the new moves", basis: "PGN 5", game: instead("3. Bc4 "+fifth+" Bc5 "+sixth, "{no end 3. Bc4 Bc5"),
		want: faultWant{reading: []string{"a comment is not closed", "the moves end without a result"}, unread: unclosed, shows: "e4 e5 Nf3 Nc6"}},
	{name: "unclosed comment before moves already shown", basis: "PGN 5",
		game: instead("2. Nf3 "+clk(3)+" Nc6 "+clk(4)+"\n3. Bc4 "+fifth+" Bc5 "+sixth, "{no end 2. Nf3 Nc6 3. Bc4 Bc5"),
		want: faultWant{reading: []string{"a comment is not closed", "the moves end without a result"}, unread: unclosed, shows: "e4 e5 Nf3 Nc6"}},
	{name: "a comment that swallows a new move", basis: "PGN 5: comments do not nest, so that the next brace closes it", game: instead("3. Bc4", "{no end 3. Bc4"),
		want: faultWant{shows: "e4 e5 Nf3 Nc6", odd: []int{4}, notes: noted(relay.NoteFault, relay.NoteClock),
			reading: []string{"move 3.Bc5: Bc5 is not a legal move", "2...Nc6: clock rose"}, unread: map[string]int{"unplayable": 1, "clock": 1}}},
	{name: "a comment that swallows a move already shown", basis: "PGN 5", game: instead("2. Nf3", "{no end 2. Nf3"),
		want: faultWant{shows: "e4 e5 Nf3 Nc6", notes: noted(relay.NoteFault),
			reading: []string{"move 2.Nc6: Nc6 is not a legal move"}, unread: map[string]int{"unplayable": 1}}},
	{name: "unclosed tag", basis: "PGN 8.1", game: instead("[Round \"1\"]", "[Round \"1\""),
		want: faultWant{reading: []string{"a tag pair is not closed"}, unread: map[string]int{"unclosed_tag": 1}}},
	{name: "unclosed tag value", basis: "PGN 7: a string ends with a quote", game: instead("\"Alba, Anna\"]", "\"Alba, Anna]"),
		want: faultWant{reading: []string{"a tag pair is not closed"}, unread: map[string]int{"unclosed_tag": 1}}},
	{name: "unclosed variation", basis: "PGN 8.2.5", game: instead("\n*", " (3... Be7 4. d3\n*"),
		want: faultWant{reading: []string{"a variation is not closed"}, unread: map[string]int{"unclosed_variation": 1}}},
	{name: "a tag without quotes", basis: "PGN 8.1.1", game: instead("[White \"Alba, Anna\"]", "[White Alba, Anna]"),
		want: faultWant{reading: []string{`means nothing here and was left out: "[White Alba, Anna]"`}, unread: map[string]int{"bad_token": 1}}},
	{name: "a word that means nothing", basis: "PGN 8.2", game: instead("\n*", " adjourned\n*"),
		want: faultWant{reading: []string{`"adjourned"`}, unread: map[string]int{"bad_token": 1}}},
	{name: "no result behind the moves", basis: "PGN 8.2.6: each game ends with one", game: instead("\n*\n", "\n"),
		want: faultWant{reading: []string{"the moves end without a result"}, unread: map[string]int{"no_result": 1}}},
	{name: "a start position that cannot be used", basis: "PGN 9.7", game: instead("[TimeControl", "[SetUp \"1\"]\n[FEN \"rubbish\"]\n[TimeControl"),
		want: faultWant{shows: "e4 e5 Nf3 Nc6", loose: true, notes: noted(relay.NoteFault)}},
	{name: "a time control that is none", basis: "PGN 9.6.1", game: instead("600+5", "ten minutes"), want: faultWant{notes: noted(relay.NoteControl)}},
	{name: "a command cut off", basis: "PGN supplement 3.2", game: instead("{[%clk 0:06:33]}", "{[%clk 0:06:33}"),
		want: faultWant{reading: []string{"an embedded command that is not complete"}, unread: map[string]int{"bad_command": 1}, odd: []int{6}}},
}

// noted lists kinds of notes.
func noted(kinds ...relay.NoteKind) []relay.NoteKind { return kinds }
