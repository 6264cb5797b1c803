package pgn

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

func TestNext(t *testing.T) {
	for _, c := range []struct {
		name, text string
		end        int
		want       string
	}{
		{"nothing", "", 0, ""},
		{"no game", "<html>\n{a} no", 13, ""},
		{"only", "1. e4 *\n", 8, "e4 =*"},
		{"text before", "}\n1. e4 * 1. d4", 13, "e4 =* !bad_token@7"},
		{"comment behind", "e4 * {a}\n\ne4", 10, "e4 {a} =*"},
		{"tag behind moves", "e4 [Event \"b\"]", 3, "e4 !no_result@7"},
		{"last, no result", "e4 ", 3, "e4"},
		{"last, open end", "e4", 2, "e4 !open_end@7"},
		{"not the last, no open end", "e4[A \"b\"]", 2, "e4 !no_result@7"},
		{"unclosed comment", "e4 {a\n[Event \"b\"]\n", 6, "e4 {a} !unclosed_comment@7 !no_result@8"},
		{"other game not UTF-8", "e4 {ü} * [A \"\xE4\"]", 10, "e4 {ü} =*"},
		{"repeated tag", "[White \"a\"]\n\n[White \"b\"]", 13, "White:a !no_result@9"},
	} {
		g, end := Next(c.text, 7)
		got := ""
		if g.Line != 0 {
			got = dump([]Game{g})
		}
		if end != c.end || got != c.want {
			t.Errorf("%s: Next = %q, %d, want %q, %d", c.name, got, end, c.want, c.end)
		}
	}
}

// A packet of more games than the limit still comes piece by piece.
func TestNextKnowsNoLimitOfGames(t *testing.T) {
	l := DefaultLimits
	l.Games = 0
	if g, end := l.Next("e4 * d4 *", 1); dump([]Game{g}) != "e4 =*" || end != 5 {
		t.Errorf("Next = %s, %d, want the first game", dump([]Game{g}), end)
	}
}

func TestStartsGame(t *testing.T) {
	for text, want := range map[string]bool{
		`[Event "a"]`: true, `[Event "a" [`: true, `[Event ""`: true, "[ Event\n\"a\"": true, `[Event "a\"b"]`: true,
		"": false, "[": false, `[Event`: false, `[Event "`: false, `[Event "]`: false, "[Event \"a\n\"]": false,
		`[Event "a\"`: false, `[Site "a"]`: false, `[event "a"]`: false,
		"\n[Event \"a\"]": false, "1. e4": false, `*[Event "a"]`: false,
	} {
		if got := StartsGame(text); got != want {
			t.Errorf("StartsGame(%q) = %v, want %v", text, got, want)
		}
	}
}

func TestCountLines(t *testing.T) {
	for text, want := range map[string]int{"": 0, "a": 0, "a\n": 1, "\n\nb": 2, "\r\n\r\n": 2, "\r\r": 2, "\n\r": 2, "\r\r\n\n": 3} {
		if got := CountLines(text); got != want {
			t.Errorf("CountLines(%q) = %d, want %d", text, got, want)
		}
	}
}

// checkPieces reads a packet game by game, holds that to Read, and returns the
// pieces.
func checkPieces(t *testing.T, packet string) []string {
	t.Helper()
	limits := DefaultLimits
	limits.Games = len(packet) // more cannot stand in it
	games := limits.Read([]byte(packet))
	var pieces []string
	line := 1
	for rest := packet; rest != ""; rest = packet[len(packet)-len(rest):] {
		g, end := Next(rest, line)
		if g.Line == 0 {
			if n := len(pieces); n != len(games) || n > 0 || end != len(rest) {
				t.Fatalf("no game in the %d bytes behind %d pieces of %q, of %d games", len(rest), n, packet, len(games))
			}
			return nil
		}
		if n := len(pieces); n >= len(games) || end <= 0 || !reflect.DeepEqual(g, games[n]) {
			t.Fatalf("piece %d of %q is\n     %s\nwant %s", n, packet, dump([]Game{g}), dump(games[n:min(n+1, len(games))]))
		}
		pieces = append(pieces, rest[:end])
		line += CountLines(rest[:end])
		rest = rest[end:]
	}
	if len(pieces) != len(games) {
		t.Fatalf("%d pieces of %q, want %d", len(pieces), packet, len(games))
	}
	return pieces
}

// checkFollowed puts other texts that start a game behind the pieces of a packet.
// Next must read the pieces as before.
func checkFollowed(t *testing.T, packet string, pieces, followers []string) {
	t.Helper()
	at := 0
	for _, p := range pieces[:max(0, len(pieces)-1)] {
		want, _ := Next(packet[at:], 1)
		at += len(p)
		for _, f := range followers {
			if !StartsGame(f) {
				continue
			}
			if g, end := Next(p+f, 1); end != len(p) || !reflect.DeepEqual(g, want) {
				t.Fatalf("%q before %q: Next = %s, %d\nbefore %q: %s, %d", p, f, dump([]Game{g}), end, packet[at:], dump([]Game{want}), len(p))
			}
		}
	}
}

// followersIn returns the suffixes of text that start a game, not too many.
func followersIn(text string) []string {
	followers := []string{`[Event "]`, `[Event "]"`, "[Event \"\"\n\"]", "[Event\n\"a\"]", `[Event "a"]`, `[White "a"]`, "e4"}
	for i := range len(text) {
		if StartsGame(text[i:]) && len(followers) < 12 {
			followers = append(followers, text[i:])
		}
	}
	return followers
}

// wreckage is what the tests below put between and into sound text.
var wreckage = []string{
	"", "{", "}", "(", ")", "[", "]", `"`, `\`, ";", "%", "\n", "\n\n", "\r", "\r\n", " ", "\x00", "\xE4", "ä", "½", "½-½", "*", "1-0", "0-1 ",
	"e4", "Nf3 ", "O-O-", "0-0", "1.", "e.p.", "--", "!", "$1", "[Event \"a\"]\n", "[White \"b\"]\n", "[White \"b", "[Site \"c\"] ", "[Event", "{[%clk ", "]} ",
	"\n[Event \"a\n", "\n[Event \"a\n [Event \"b\"]", "\n\n[White \"c\"]\n",
}

// wreck cuts a piece out of text and spoils it in some places.
func wreck(r *rand.Rand, text string) string {
	from := r.IntN(len(text))
	b := []byte(text[from:min(len(text), from+1+r.IntN(3000))])
	for range r.IntN(8) {
		at := r.IntN(len(b) + 1)
		cut := min(len(b), at+r.IntN(3)*r.IntN(20))
		b = append(b[:at:at], append([]byte(wreckage[r.IntN(len(wreckage))]), b[cut:]...)...)
	}
	return string(b)
}

// TestPieces holds Next to Read and to what StartsGame promises: on the feeds of
// this project, on games of a library (see libraryFile) cut and spoilt, and on
// texts of nothing but odd tokens.
func TestPieces(t *testing.T) {
	var texts []string
	feeds, err := filepath.Glob("../../testdata/*/*.pgn")
	if err != nil || len(feeds) == 0 {
		t.Fatalf("feeds: %v, %v", feeds, err)
	}
	for _, name := range feeds {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, string(data))
	}
	texts = append(texts, string(libraryFile(t, "big.pgn")[:200_000]), string(libraryFile(t, "variations.pgn")))
	for _, text := range texts {
		checkPieces(t, text)
	}
	r := rand.New(rand.NewPCG(1, 2))
	many := 0
	for i := range 6_000 {
		packet := ""
		if i%2 == 0 {
			packet = wreck(r, texts[r.IntN(len(texts))])
		}
		for range r.IntN(30) {
			packet += wreckage[r.IntN(len(wreckage))]
		}
		pieces := checkPieces(t, packet)
		many += min(len(pieces), 2) / 2
		checkFollowed(t, packet, pieces, followersIn(packet))
	}
	if many < 2_000 {
		t.Errorf("only %d packets of several games", many)
	}
}
