package pgn

import (
	"runtime"
	"strings"
	"testing"
	"unsafe"
)

// How many bytes of memory the games of a packet may take for each of its bytes, and
// how many reading them may take on the way. The densest text has a game with a
// glyph and a fault in five bytes; lists that grow take their size some times over.
const (
	memoryFactor = 128
	readFactor   = 512
	memoryLeast  = 4 * int(unsafe.Sizeof(Game{})) // for whatever is read
)

// footprint returns the bytes that games take, each slice at its capacity.
func footprint(games []Game) int {
	n := size(games)
	for i := range games {
		g := &games[i]
		n += size(g.Tags) + size(g.Faults) + len(g.Result)
		for _, tag := range g.Tags {
			n += len(tag.Name) + len(tag.Value)
		}
		for _, f := range g.Faults {
			n += len(f.Detail)
		}
		n += commentsFootprint(g.Comments) + movesFootprint(g.Moves)
	}
	return n
}

func size[T any](s []T) int {
	var element T
	return cap(s) * int(unsafe.Sizeof(element))
}

func movesFootprint(moves []Move) int {
	n := size(moves)
	for i := range moves {
		n += len(moves[i].SAN)
		notes := moves[i].Notes
		if notes == nil {
			continue
		}
		n += int(unsafe.Sizeof(*notes)) + size(notes.NAGs) + commentsFootprint(notes.Comments) + size(notes.Variations)
		for _, v := range notes.Variations {
			n += commentsFootprint(v.Comments) + movesFootprint(v.Moves)
		}
	}
	return n
}

func commentsFootprint(comments []Comment) int {
	n := size(comments)
	for _, c := range comments {
		n += len(c.Text) + size(c.Commands)
		for _, cmd := range c.Commands {
			n += len(cmd.Name) + size(cmd.Operands)
			for _, op := range cmd.Operands {
				n += len(op)
			}
		}
	}
	return n
}

// TestMemory reads dense texts without limits.
func TestMemory(t *testing.T) {
	const size = 256 << 10
	limits := DefaultLimits
	limits.Games, limits.Plies, limits.VariationMoves, limits.MoveNotes, limits.Tags, limits.Faults = size, size, size, size, size, size
	for _, text := range []string{
		"e4!\xBD ", "e4*", "e4!*\xFF", "* ", "} ", "e4!", "e4 ", "e4{a}", "e4!{a}(e4!)", "(e4)", "e4(e4(e4(e4))) ", `[a""]`, `[a"\""]*`,
		"{[%a]}", "{[%a ,,,,,,,,,,,,,,,,]}", "{[%a b][%a b]c}", "{[%a", "{[[[[[[[%a", "{[%a [%a [%a", "{a\n[a\"\"]", ";[%a b", "\xE4*", "\u00e4*",
		"{a\tb[%c]d\te}", "(e4", "e4({a}e4{a})", "e4({a})", "e4{a}e4(e4)*",
	} {
		data := []byte("e4 " + strings.Repeat(text, size/len(text)))
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		games := limits.Read(data)
		runtime.ReadMemStats(&after)
		kept, taken := footprint(games)/len(data), int(after.TotalAlloc-before.TotalAlloc)/len(data)
		t.Logf("%q: %d games, %d times its length kept, %d taken on the way", text, len(games), kept, taken)
		if len(games) == 0 || kept > memoryFactor {
			t.Errorf("%q: %d games take %d times its length, want at most %d", text, len(games), kept, memoryFactor)
		}
		if taken > readFactor {
			t.Errorf("%q takes %d times its length on the way, want at most %d", text, taken, readFactor)
		}
	}
}

// TestAllocs reads games of some thousand tokens: memory is asked for by the block.
func TestAllocs(t *testing.T) {
	for name, moves := range map[string]string{
		"bare":      "1. Nf3 Nc6 2. exd5 O-O\n",
		"clocks":    "1. Nf3 {[%clk 0:09:58]} Nc6 { [%eval 0.3,20] [%clk\n0:09:57] }\n",
		"remarks":   "1. Nf3 {over two\nlines} Nc6 {text [%clk 1:00:00]  around} ; and more\n",
		"glyphs":    "1. Nf3! $14 Nc6?! $1 $2\n",
		"variation": "1. Nf3 (1. e4 {a} e5 (1... c5)) (1. d4) Nc6\n",
	} {
		text := "[Event \"a\"]\n\n" + strings.Repeat(moves, 250) + "*\n"
		const most = 40 // blocks of every kind, each twice as long as the one before
		if got := testing.AllocsPerRun(3, func() { Next(text, 1) }); got > most {
			t.Errorf("%s: %.0f allocations for one game of %d bytes, want at most %d", name, got, len(text), most)
		} else {
			t.Logf("%s: %.0f allocations for one game of %d bytes", name, got, len(text))
		}
	}
}
