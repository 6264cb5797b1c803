package build

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"clocktell/relay/pgn"
)

// cutAll cuts a text and returns the pieces.
func cutAll(t *testing.T, r io.Reader, size, most int) []cut {
	t.Helper()
	c := &cutter{r: r, size: size, most: most}
	var out []cut
	for {
		piece, err := c.next(nil)
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, piece)
	}
}

// gamesOf reads the games of all pieces, as text.
func gamesOf(pieces []cut) []string {
	var out []string
	for _, piece := range pieces {
		for _, g := range limits.Read(piece.text) {
			out = append(out, fmt.Sprint(g.Tags, len(g.Moves), g.Result))
		}
	}
	return out
}

// TestCutsAreBetweenGames reads the library's games in blocks and whole: the same games,
// whatever the size of the blocks and however the bytes come.
func TestCutsAreBetweenGames(t *testing.T) {
	for _, path := range libraryFiles(t) {
		text := mustRead(t, path)
		text = text[:min(len(text), 1<<20)]
		want := gamesOf([]cut{{text: []byte(text)}})
		for _, size := range []int{700, 5_000, 60_000, 1 << 21} {
			pieces := cutAll(t, strings.NewReader(text), size, 1<<20)
			if got := gamesOf(pieces); fmt.Sprint(got) != fmt.Sprint(want) {
				t.Errorf("blocks of %d bytes have %d games, want %d", size, len(got), len(want))
			}
			lines, length := 0, int64(0)
			for i, piece := range pieces {
				lines += piece.lines
				length += piece.length
				if len(piece.text) == 0 {
					t.Errorf("block %d is empty", i)
				}
			}
			if lines != pgn.CountLines(text) || length != int64(len(text)) {
				t.Errorf("blocks of %d bytes have %d lines and %d bytes, want %d and %d", size, lines, length, pgn.CountLines(text), len(text))
			}
			slow := cutAll(t, iotest.HalfReader(strings.NewReader(text)), size, 1<<20)
			for i := range slow {
				if string(slow[i].text) != string(pieces[i].text) {
					t.Fatalf("block %d of %d bytes is cut elsewhere when the bytes come slowly", i, size)
				}
			}
		}
	}
}

// Texts that make it hard to see where a game begins. In each a game with the event
// "b" follows one with the event "a".
func TestCutHard(t *testing.T) {
	tail := "[Event \"b\"]\n[White \"B\"]\n\n1. d4 *\n"
	tests := map[string]string{
		"comment not closed":   "[Event \"a\"]\n\n1. e4 {never closed\n\n" + tail,
		"event in a comment":   "[Event \"a\"]\n\n1. e4 {such as [Event \"c\"] here} e5 *\n\n" + tail,
		"no empty line":        "[Event \"a\"]\n\n1. e4 *\n" + tail,
		"carriage returns":     strings.ReplaceAll("[Event \"a\"]\n\n1. e4 *\n\n"+tail, "\n", "\r\n"),
		"old line ends":        strings.ReplaceAll("[Event \"a\"]\n\n1. e4 *\n\n"+tail, "\n", "\r"),
		"another tag first":    "[Site \"x\"]\n[Event \"a\"]\n\n1. e4 *\n\n[Site \"y\"]\n" + tail,
		"spaces in the tag":    "[Event \"a\"]\n\n1. e4 *\n\n[ Event \"b\"]\n[White \"B\"]\n\n1. d4 *\n",
		"nothing but a result": "[Event \"a\"]\n\n*\n\n" + tail,
	}
	for name, text := range tests {
		want := gamesOf([]cut{{text: []byte(text)}})
		for size := 16; size < len(text)+16; size += 7 {
			if got := gamesOf(cutAll(t, strings.NewReader(text), size, 1<<20)); fmt.Sprint(got) != fmt.Sprint(want) {
				t.Errorf("%s, blocks of %d bytes:\n%v, want\n%v", name, size, got, want)
			}
		}
	}
}

// A game longer than the limit is left out, and the ones around it are read.
func TestCutTooLong(t *testing.T) {
	long := "[Event \"long\"]\n[White \"L\"]\n\n1. e4 {" + strings.Repeat("so it goes\n\n", 5000) + "} *\n\n"
	short := "[Event \"short\"]\n\n1. d4 *\n\n"
	for _, text := range []string{short + long + short, long + short, short + long, long} {
		pieces := cutAll(t, strings.NewReader(text), 1<<10, 1<<14)
		tooLong, length, lines := 0, int64(0), 0
		var rest []cut
		for _, piece := range pieces {
			length += piece.length
			lines += piece.lines
			if piece.tooLong {
				tooLong++
				if !strings.HasPrefix(string(piece.text), "[Event \"long\"]") {
					t.Errorf("what is too long begins with %.40q", piece.text)
				}
			} else {
				rest = append(rest, piece)
			}
		}
		if n := len(gamesOf(rest)); tooLong != 1 || n != strings.Count(text, "short") {
			t.Errorf("%d games too long and %d others, want 1 and %d", tooLong, n, strings.Count(text, "short"))
		}
		if length != int64(len(text)) || lines != pgn.CountLines(text) {
			t.Errorf("%d bytes and %d lines, want %d and %d", length, lines, len(text), pgn.CountLines(text))
		}
	}
}

// What cannot be read is told, and no part of it taken for a game.
func TestCutUnreadable(t *testing.T) {
	broken := errors.New("the disk is broken")
	r := io.MultiReader(strings.NewReader("[Event \"a\"]\n\n1. e4 *\n\n[Event \"b\"]\n"), iotest.ErrReader(broken))
	c := &cutter{r: r, size: 1 << 10, most: 1 << 14}
	if piece, err := c.next(nil); !errors.Is(err, broken) {
		t.Errorf("got %q and %v, want the error", piece.text, err)
	}
}
