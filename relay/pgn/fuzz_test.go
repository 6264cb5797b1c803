package pgn

import (
	"bytes"
	"errors"
	"io"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// exported returns the game as it should come back after Write: what Write's
// documentation names is changed, nothing else.
func exported(g Game) Game {
	out := Game{Tags: exportTags(&g), Result: resultWord(&g)}
	out.Comments = exportedComments(g.Comments)
	out.Moves = exportedMoves(g.Moves)
	return out
}

func exportedMoves(moves []Move) []Move {
	var out []Move
	for _, m := range moves {
		m.Line = 0
		m.Notes = exportedNotes(m.notes())
		out = append(out, m)
	}
	return out
}

func exportedNotes(n Notes) *Notes {
	out := Notes{NAGs: slices.Clone(n.NAGs), Comments: exportedComments(n.Comments)}
	for _, v := range n.Variations {
		out.Variations = append(out.Variations, Variation{exportedComments(v.Comments), exportedMoves(v.Moves)})
	}
	return &out
}

func exportedComments(comments []Comment) []Comment {
	brace := strings.NewReplacer("}", ")")
	var out []Comment
	for _, c := range comments {
		n := Comment{Text: brace.Replace(c.Text)}
		for _, cmd := range c.Commands {
			var operands []string
			for _, op := range cmd.Operands {
				operands = append(operands, brace.Replace(op))
			}
			n.Commands = append(n.Commands, Command{cmd.Name, operands})
		}
		out = append(out, n)
	}
	return out
}

// playable leaves out what was kept though it is no move, with all that hangs on it,
// and returns how many words that were.
func playable(moves []Move) (out []Move, odd int) {
	for _, m := range moves {
		if !isMove(m.SAN) {
			odd++
			continue
		}
		if m.Notes != nil {
			notes := *m.Notes
			notes.Variations = nil
			for _, v := range m.Notes.Variations {
				line, n := playable(v.Moves)
				odd += n
				if len(line)+len(v.Comments) > 0 {
					notes.Variations = append(notes.Variations, Variation{v.Comments, line})
				}
			}
			m.Notes = &notes
		}
		out = append(out, m)
	}
	return out, odd
}

// checkRoundTrip writes a game, reads it back and compares. Words that are no moves
// cannot be written; faults must tell of them.
func checkRoundTrip(t *testing.T, g Game) {
	t.Helper()
	moves, odd := playable(g.Moves)
	if odd > 0 {
		if err := Write(io.Discard, &g); !errors.Is(err, ErrWrite) {
			t.Fatalf("Write takes words that are no moves: %v\n%s", err, dump([]Game{g}))
		}
		told := faultCount(g, FaultOpenEnd) + faultCount(g, FaultBadMove)
		if told < odd && faultCount(g, FaultLimitFaults) == 0 {
			t.Fatalf("%d words are no moves and %d faults say so: %s", odd, told, dump([]Game{g}))
		}
		g.Moves = moves
	}
	var b bytes.Buffer
	if err := Write(&b, &g); err != nil {
		t.Fatalf("Write: %v\n%s", err, dump([]Game{g}))
	}
	again := DefaultLimits
	again.CommentBytes *= 3 // quotes, spaces and roster tags that Write adds must not meet a limit
	again.Tags += len(sevenTags)
	back := again.Read(b.Bytes())
	if len(back) != 1 || len(back[0].Faults) > 0 {
		t.Fatalf("%d games, want 1 without faults: %s\nwritten\n%s", len(back), dump(back), &b)
	}
	if got, want := exported(back[0]), exported(g); !reflect.DeepEqual(got, want) {
		t.Fatalf("got  %s\nwant %s\nwritten\n%s", dump([]Game{got}), dump([]Game{want}), &b)
	}
	var twice bytes.Buffer
	if err := Write(&twice, &back[0]); err != nil || twice.String() != b.String() {
		t.Fatalf("written again: %v\n%s\nwant\n%s", err, &twice, &b)
	}
}

// checkGames holds for whatever Read returns.
func checkGames(t *testing.T, games []Game) {
	t.Helper()
	for i, g := range games {
		line := 0
		for _, m := range g.Moves {
			if m.Line < line || m.Line < g.Line {
				t.Errorf("game %d of line %d: move %q in line %d behind line %d", i, g.Line, m.SAN, m.Line, line)
			}
			line = m.Line
		}
		if s := dump(games[i : i+1]); !utf8.ValidString(s) {
			t.Errorf("game %d is not valid UTF-8: %q", i, s)
		}
	}
}

// FuzzRead reads anything: no panic, sound games within the memory they may take,
// and each game written and read again is the same.
func FuzzRead(f *testing.F) {
	f.Fuzz(func(t *testing.T, data []byte) {
		games := Read(slices.Clone(data))
		checkGames(t, games)
		if got, most := footprint(games), memoryLeast+memoryFactor*len(data); got > most {
			t.Errorf("%d bytes of memory for %d of text, want at most %d", got, len(data), most)
		}
		for _, g := range games {
			checkRoundTrip(t, g)
		}
	})
}

// FuzzNext reads anything game by game, with other text behind the games.
func FuzzNext(f *testing.F) {
	f.Fuzz(func(t *testing.T, packet, follower string) {
		pieces := checkPieces(t, packet)
		checkFollowed(t, packet, pieces, append(followersIn(packet), follower))
	})
}

// FuzzComment reads a clock between two texts. Whatever they are, it is found as it
// stands, as long as they have no bracket of their own; and what commands are read
// of any comment are written and read again.
func FuzzComment(f *testing.F) {
	f.Fuzz(func(t *testing.T, before, clock, after string) {
		for _, text := range []string{before, clock, after, before + "[%clk " + clock + "]" + after} {
			games := Read([]byte("1. e4 {" + text + "} *"))
			for _, g := range games {
				checkRoundTrip(t, g)
			}
		}
		if strings.ContainsAny(before+after, "[}") || strings.Trim(clock, "0123456789:.-") != "" || clock == "" {
			return
		}
		m := Read([]byte("1. e4 {" + before + "[%clk " + clock + "]" + after + "} *"))[0].Moves[0]
		if got, ok := m.Command("clk"); !ok || !slices.Equal(got, []string{clock}) {
			t.Errorf("clock %q between %q and %q is read as %q, %v", clock, before, after, got, ok)
		}
	})
}

// TestLibraryRoundTrip writes and reads again every annotated library game.
func TestLibraryRoundTrip(t *testing.T) {
	games := Read(libraryFile(t, "big.pgn"))
	for _, g := range games {
		checkRoundTrip(t, g)
	}
	if got, want := len(games), 1000; got != want {
		t.Errorf("%d games, want %d", got, want)
	}
}
