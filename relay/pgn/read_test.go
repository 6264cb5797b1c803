package pgn

import "testing"

type readCase struct{ name, text, want string }

func checkRead(t *testing.T, cases []readCase) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := dump(Read([]byte(c.text))); got != c.want {
				t.Errorf("Read(%q)\n got %s\nwant %s", c.text, got, c.want)
			}
		})
	}
}

// Import format is to be read however it is laid out (PGN 3.1). That a packet
// may hold a byte-order mark, NUL bytes or any line end is common practice.
func TestReadLayout(t *testing.T) {
	checkRead(t, []readCase{
		{"nothing", "", ""},
		{"white space", " \r\n\t\x00", ""},
		{"words only", "<html> nothing here </html>", ""},
		{"byte-order mark", "\xEF\xBB\xBF[Event \"a\"]\n\n1. e4 *", "Event:a e4 =*"},
		{"CRLF", "[Event \"a\"]\r\n[Site \"b\"]\r\n\r\n1. e4\r\ne5 1-0\r\n", "Event:a Site:b e4 e5 =1-0"},
		{"CR", "[Event \"a\"]\r[Site \"b\"]\r\r1. e4\re5 {c\rd} 1-0\r", "Event:a Site:b e4 e5 {c d} =1-0"},
		{"NUL bytes", "\x00[Event \"a\"]\x00\n1.\x00e4\x00e5 *\x00\x00", "Event:a e4 e5 =*"},
		{"no tags", "1. e4 e5 1-0 1. d4 d5 0-1", "e4 e5 =1-0 | d4 d5 =0-1"},
		{"result only", "*\n", "=*"},
		{"no empty lines", "[Event \"a\"]\n1. e4 1-0\n[Event \"b\"]\n1. d4 0-1", "Event:a e4 =1-0 | Event:b d4 =0-1"},
		{"escape line", "[Event \"a\"]\n% {( 1. d4 }\n1. e4 *\n%x", "Event:a e4 =*"},
		{"percent elsewhere", "1. e4 %x d4 *", "e4 d4 =* !bad_token@1"},
		{"no-break space", "1.\u00A0e4\u00A0e5 *", "e4 e5 =*"},
	})
}

// Tag pairs in any arrangement: PGN 8.1. What broken ones become, and where the
// next game begins, is ours to choose.
func TestReadTags(t *testing.T) {
	checkRead(t, []readCase{
		{"several in a line", `[Event "a"] [Site "b"][Round"1"] *`, "Event:a Site:b Round:1 =*"},
		{"padding", "[  Event\t\"a\"  ] *", "Event:a =*"},
		{"over lines", "[Event\n\"a\"\n]\n[\nSite \"b\"] *", "Event:a Site:b =*"},
		{"escapes", `[Event "a \"b\" \\ c\d"] *`, `Event:a "b" \ c\d =*`},
		{"empty value", `[White ""] *`, "White: =*"},
		{"comments between", "{x} [Event \"a\"] ; y\n[Site \"b\"] *", "Event:a Site:b {x} {y} =*"},
		{"tag behind moves", "1. e4 e5\n[Event \"b\"]\n1. d4 *", "e4 e5 !no_result@2 | Event:b d4 =*"},
		{"tag behind moves in line", `1. e4 [Event "b"] d4 *`, "e4 !no_result@1 | Event:b d4 =*"},
		{"no moves, no result", "[Event \"a\"]\n[White \"b\"]\n\n[Event \"a\"]\n[White \"c\"]\n",
			"Event:a White:b !no_result@4 | Event:a White:c"},
		{"no Event tag", "[White \"a\"]\n[Black \"b\"]\n\n[White \"c\"]\n*", "White:a Black:b !no_result@4 | White:c =*"},
		{"Event behind an empty line", "[White \"a\"]\n\n[Event \"b\"]\n*", "White:a !no_result@3 | Event:b =*"},
		{"Event not the first", "[White \"a\"]\n[Event \"b\"]\n*", "White:a Event:b =*"},
		{"Event behind other tags and an empty line", "[FEN \"a\"]\n\n[Event \"b\"]\n*", "FEN:a Event:b =*"},
		{"repeated tag", "[Event \"a\"]\n[White \"b\"]\n[White \"c\"]\n*", "Event:a White:b White:c =*"},
		{"unclosed tag", "[Event \"a\"\n[Site \"b\"]\n*", "Event:a Site:b =* !unclosed_tag@1"},
		{"unclosed tag in line", `[Event "a" [Site "b"] *`, "Event:a Site:b =* !unclosed_tag@1"},
		{"unclosed string", "[Event \"a b]\n[Site \"c\"]\n*", "Event:a b Site:c =* !unclosed_tag@1"},
		{"string over a line", "[Event \"a\r\nb\"]\n[Site \"c\"]\n*", "Event:a b Site:c =* !unclosed_tag@1"},
		{"stray quotes", `[Event "the "big" one"][Site "c"] *`, `Event:the "big" one Site:c =* !bad_token@1`},
		{"stray quotes unclosed", "[Event \"the \"big one\n[Site \"c\"] *", `Event:the  Site:c =* !unclosed_tag@1`},
		{"no quotes", "[Event a]\n[Site \"b\"] *", "Site:b =* !bad_token@1"},
		{"name cut", "1. e4 *\n[Eve", "e4 =* !unclosed_tag@2"},
		{"value cut", "1. e4 *\n[White \"Wo", "e4 =* | White:Wo !unclosed_tag@2"},
	})
}

// Movetext: PGN 8.2. Move numbers may be missing or superfluous, with any number
// of periods and white space before them (8.2.2.1).
func TestReadMoves(t *testing.T) {
	checkRead(t, []readCase{
		{"plain", "1. e4 e5 2. Nf3 Nc6 1/2-1/2", "e4 e5 Nf3 Nc6 =1/2-1/2"},
		{"numbers", "1.e4 1...e5 2 . Nf3 2 ... Nc6 3 Bb5 a6 4.. Ba4 Nf6 5O-O*", "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O =*"},
		{"no numbers", "e4 e5 Nf3\nNc6 *", "e4 e5 Nf3 Nc6 =*"},
		{"ellipsis", "1… e5 *", "e5 =*"},
		{"suffixes", "1. e4! e5? 2. f4!! exf4?? 3. Nf3!? g5 ?! *", "e4 $1 e5 $2 f4 $3 exf4 $4 Nf3 $5 g5 $6 =*"},
		{"long suffix", "1. e4!!! *", "e4 $3 =* !bad_token@1"},
		{"glyphs", "1. e4 $1 $14$0 e5$255 $256 $ *", "e4 $1 $14 $0 e5 $255 =* !bad_token@1 !bad_token@1"},
		{"zeros", "1. 0-0 0-0-0+ 2. O-O O-O-O# *", "0-0 0-0-0+ O-O O-O-O# =*"},
		{"en passant", "1. exd6 e.p. bxc3e.p.+ 2. fxg6ep hxg3 ep# 3. axb6e.p *", "exd6 bxc3+ fxg6 hxg3 axb6 =* !bad_token@1"},
		{"double check", "1. Nf6++ Kd8 *", "Nf6++ Kd8 =*"},
		{"figurines", "1. ♘f3 ♞c6 2. ♙e4 ♚xe2 3. e8=♕ *", "♘f3 ♞c6 ♙e4 ♚xe2 e8=♕ =*"},
		{"long algebraic", "1. e2-e4 e7e5 2. Ng1-f3 e7e8q 3. e7-e8(Q)+ *", "e2-e4 e7e5 Ng1-f3 e7e8q e7-e8(Q) =* !bad_token@1"},
		{"bracketed promotion", "1. e8(Q) Kd7 *", "e8(Q) Kd7 =*"},
		{"draw offer", "1. e4 (=) e5(=) *", "e4 {(=)} e5 {(=)} =*"},
		{"null move", "1. -- e5 2. Z0 *", "-- e5 Z0 =*"},
		{"broken words", "1. e4 zzz e5,\n<x> \"y\" Nf3+- 2. } ] ) Nc6 *",
			"e4 e5 Nf3 Nc6 =* !bad_token@1 !bad_token@1 !bad_token@2 !bad_token@2 !bad_token@2 !bad_token@2 !bad_token@2 !bad_token@2"},
		{"garbled move keeps its place", "1. e4 e5 2. Nf9 Nc6 *", "e4 e5 Nf9 Nc6 =* !bad_move@1"},
		{"words are no moves", "1. e4 e5 well then 2. Nf3 *", "e4 e5 Nf3 =* !bad_token@1 !bad_token@1"},
		{"command without braces", "1. e4 [%clk 0:01:00] e5 *", "e4 e5 =* !bad_token@1"},
		{"note without move", "$1 ! 1. e4 *", "e4 =* !bad_token@1 !bad_token@1"},
	})
}

func TestReadResults(t *testing.T) {
	checkRead(t, []readCase{
		{"all", "e4 1-0 e4 0-1 e4 1/2-1/2 e4 ½-½ e4 *", "e4 =1-0 | e4 =0-1 | e4 =1/2-1/2 | e4 =1/2-1/2 | e4 =*"},
		{"half", "e4 1/2 e4 ½ ", "e4 =1/2-1/2 | e4 =1/2-1/2"},
		{"missing at the end", "1. e4 e5 ", "e4 e5"},
		{"missing before a game", "1. e4 e5\n\n[Event \"b\"]\n*", "e4 e5 !no_result@3 | Event:b =*"},
		{"twice", "1. e4 1-0 1-0", "e4 =1-0 !bad_token@1"},
		{"comment behind", "1. e4 1-0 {White wins}\n; indeed\n\n[Event \"b\"]\n*", "e4 {White wins} {indeed} =1-0 | Event:b =*"},
		{"comment without moves", "[Event \"a\"]\n* {not played}", "Event:a {not played} =*"},
		{"in a variation", "1. e4 (1. d4 1-0) e5 *", "e4 ( d4 ) e5 =* !bad_token@1"},
		{"unclosed variation", "1. e4 (1. d4 1-0\n\n[Event \"b\"]\n*", "e4 ( d4 ) =1-0 !unclosed_variation@1 | Event:b =*"},
	})
}

// A half-written file ends in a word or directly behind one.
func TestReadOpenEnd(t *testing.T) {
	checkRead(t, []readCase{
		{"behind a move", "1. e4 e5 2. Nf3", "e4 e5 Nf3 !open_end@1"},
		{"inside a move", "1. e4 e5\n2. Nf", "e4 e5 Nf !open_end@2"},
		{"first letter", "1. e4 N", "e4 N !open_end@1"},
		{"pawn capture", "1. e4 exd", "e4 exd !open_end@1"},
		{"castling", "1. O-O O-", "O-O O- !open_end@1"},
		{"castling whole", "1. O-O-", "O-O- !open_end@1"},
		{"NUL bytes behind", "1. e4\x00\x00", "e4 !open_end@1"},
		{"space behind", "1. e4 ", "e4"},
		{"line end behind", "1. e4\n", "e4"},
		{"suffix behind", "1. e4!", "e4 $1"},
		{"comment behind", "1. e4{x}", "e4 {x}"},
		{"result behind", "1. e4*", "e4 =*"},
		{"number behind", "1. e4 e5 2.", "e4 e5"},
		{"result cut", "1. e4 1-", "e4 !bad_token@1"},
		{"no beginning of a move", "1. e4 xyz", "e4 !bad_token@1"},
		{"not the last game", "1. e4[Event \"b\"]", "e4 !no_result@1 | Event:b"},
		{"in a variation", "1. e4 (1. d4", "e4 ( d4 ) !unclosed_variation@1"},
		{"in a comment", "1. e4 {[%clk 0:1", `e4 {(%clk 0:1} !unclosed_comment@1 !bad_command@1`},
	})
}

// Lines count from 1; LF, CR and CRLF end one.
func TestReadLines(t *testing.T) {
	text := "\n[Event \"a\"]\n\n1. e4 {x\ny} e5\n1-0\n\n[Event \"b\"]\r\n\r1. d4 *\n"
	games := Read([]byte(text))
	if len(games) != 2 {
		t.Fatalf("%d games, want 2", len(games))
	}
	for i, want := range []int{2, 8} {
		if got := games[i].Line; got != want {
			t.Errorf("game %d begins at line %d, want %d", i, got, want)
		}
	}
	for i, got := range []int{games[0].Moves[0].Line, games[0].Moves[1].Line, games[1].Moves[0].Line} {
		if want := []int{4, 5, 10}[i]; got != want {
			t.Errorf("move %d at line %d, want %d", i, got, want)
		}
	}
}

// ISO 8859-1 is the standard's character set (PGN 4.1); UTF-8 is common practice.
func TestReadEncoding(t *testing.T) {
	utf := "[White \"Bäcker, J\u00F6\"]\n\n1. e4 {für} *\n\n"
	latin := "x\n[White \"B\xE4cker\"]\n\n1. e4 {f\xFCr \xA0} \xBD-\xBD\n\n"
	want := "White:Bäcker, Jö e4 {für} =* !bad_token@5 | White:Bäcker e4 {für \u00A0} =1/2-1/2 !encoding@6 | White:Bäcker, Jö e4 {für} =*"
	if got := dump(Read([]byte(utf + latin + utf))); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	got, want := dump(Read([]byte("z [White \"B\xE4\"]\n1. e4 N"))), "White:Bä e4 N !bad_token@1 !encoding@1 !open_end@2"
	if got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}
