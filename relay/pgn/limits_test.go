package pgn

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// faultCount returns how many faults of that reason a game has.
func faultCount(g Game, reason string) int {
	n := 0
	for _, f := range g.Faults {
		if f.Reason == reason {
			n++
		}
	}
	return n
}

// wantOnly checks that a game has exactly one fault, of the given reason.
func wantOnly(t *testing.T, g Game, reason string) {
	t.Helper()
	if len(g.Faults) != 1 || g.Faults[0].Reason != reason {
		t.Errorf("faults %v, want one %s", g.Faults, reason)
	}
}

// Every limit is broken once, with a sound game behind that must not be lost.
const soundGame = "\n\n[Event \"sound\"]\n\n1. e4 e5 *\n"

func readWithSound(t *testing.T, text string) Game {
	t.Helper()
	games := Read([]byte(text + soundGame))
	if len(games) != 2 {
		t.Fatalf("%d games, want 2", len(games))
	}
	if got, want := dump(games[1:]), "Event:sound e4 e5 =*"; got != want {
		t.Errorf("the game behind: %s, want %s", got, want)
	}
	return games[0]
}

func TestLimitNesting(t *testing.T) {
	const deep = 100_000
	g := readWithSound(t, "1. e4 "+strings.Repeat("(d4 ", deep)+strings.Repeat(")", deep)+" e5 *")
	wantOnly(t, g, FaultLimitNesting)
	depth := 0
	for m := g.Moves[0]; len(m.notes().Variations) > 0; m = m.Notes.Variations[0].Moves[0] {
		depth++
	}
	if depth != DefaultLimits.Nesting {
		t.Errorf("nested %d deep, want %d", depth, DefaultLimits.Nesting)
	}
	if got, want := len(g.Moves), 2; got != want {
		t.Errorf("%d moves, want %d", got, want)
	}
}

func TestLimitNestingUnclosed(t *testing.T) {
	g := readWithSound(t, "1. e4 "+strings.Repeat("(d4 ", 100_000))
	if got := faultCount(g, FaultUnclosedVariation); got != 1 {
		t.Errorf("faults %v, want one %s among them", g.Faults, FaultUnclosedVariation)
	}
}

func TestLimitGames(t *testing.T) {
	games := Read([]byte(strings.Repeat("[Event \"a\"]\n\n1. e4 *\n\n", 3_000)))
	if got, want := len(games), DefaultLimits.Games; got != want {
		t.Fatalf("%d games, want %d", got, want)
	}
	last := games[len(games)-1]
	wantOnly(t, last, FaultLimitGames)
	if got, want := last.Faults[0].Line, 4*DefaultLimits.Games+1; got != want {
		t.Errorf("limit met at line %d, want %d", got, want)
	}
}

func TestLimitPlies(t *testing.T) {
	g := readWithSound(t, strings.Repeat("Nf3 {x} (d4 {y}) $1 ", 5_000)+"1-0")
	wantOnly(t, g, FaultLimitPlies)
	if got, want := len(g.Moves), DefaultLimits.Plies; got != want {
		t.Errorf("%d moves, want %d", got, want)
	}
	last := g.Moves[len(g.Moves)-1]
	if len(last.Notes.Comments) != 1 || len(last.Notes.Variations) != 1 || g.Result != "1-0" {
		t.Errorf("last move %+v, result %q: want its own comment and variation, 1-0", last, g.Result)
	}
}

func TestLimitVariationMoves(t *testing.T) {
	g := readWithSound(t, "e4 ("+strings.Repeat("Nf3 ", 30_000)+") e5 (c5) *")
	if got, want := len(g.Moves[0].Notes.Variations[0].Moves), DefaultLimits.VariationMoves; got != want {
		t.Errorf("%d moves, want %d", got, want)
	}
	if got := faultCount(g, FaultLimitPlies); got != 2 || len(g.Moves) != 2 {
		t.Errorf("%d moves, faults %v, want 2 moves and one fault for each variation", len(g.Moves), g.Faults)
	}
}

func TestLimitTags(t *testing.T) {
	g := readWithSound(t, strings.Repeat("[A \"b\"]\n", 1_000)+"1. e4 *")
	wantOnly(t, g, FaultLimitTags)
	if got, want := len(g.Tags), DefaultLimits.Tags; got != want {
		t.Errorf("%d tags, want %d", got, want)
	}
	long := strings.Repeat("ä", 5_000)
	g = readWithSound(t, "[A \""+long+"\"] 1. e4 *")
	wantOnly(t, g, FaultLimitTag)
	if got, want := g.Tags[0].Value, long[:DefaultLimits.TagBytes]; got != want {
		t.Errorf("value of %d bytes, want %d", len(got), len(want))
	}
	g = readWithSound(t, "["+strings.Repeat("A", 5_000)+" \"b\"] 1. e4 *")
	wantOnly(t, g, FaultLimitWord)
}

func TestLimitComment(t *testing.T) {
	g := readWithSound(t, "1. e4 {[%clk 0:01:00] "+strings.Repeat("xü ", 30_000)+"} e5 *")
	wantOnly(t, g, FaultLimitComment)
	c := g.Moves[0].Notes.Comments[0]
	if len(c.Text) > DefaultLimits.CommentBytes || len(c.Text) < DefaultLimits.CommentBytes-50 || !utf8.ValidString(c.Text) {
		t.Errorf("comment of %d bytes, want nearly %d, valid", len(c.Text), DefaultLimits.CommentBytes)
	}
	if got, want := len(c.Commands), 1; got != want {
		t.Errorf("%d commands, want %d", got, want)
	}
}

func TestLimitMoveNotes(t *testing.T) {
	g := readWithSound(t, "1. e4 "+strings.Repeat("$1 ", 500)+strings.Repeat("{x} ", 500)+strings.Repeat("(d4) ", 500)+"e5 *")
	wantOnly(t, g, FaultLimitMoveNotes)
	m, want := g.Moves[0].Notes, DefaultLimits.MoveNotes
	if len(m.NAGs) != want || len(m.Comments) != want || len(m.Variations) != want {
		t.Errorf("%d, %d, %d notes, want %d each", len(m.NAGs), len(m.Comments), len(m.Variations), want)
	}
}

func TestLimitFaults(t *testing.T) {
	g := readWithSound(t, "1. e4 "+strings.Repeat("zz ", 5_000)+"e5 *")
	if got, want := len(g.Faults), DefaultLimits.Faults+1; got != want {
		t.Fatalf("%d faults, want %d", got, want)
	}
	if got, want := g.Faults[DefaultLimits.Faults].Reason, FaultLimitFaults; got != want {
		t.Errorf("last fault %s, want %s", got, want)
	}
	for _, f := range g.Faults {
		if len(f.Detail) > detailBytes {
			t.Errorf("detail of %d bytes, want at most %d", len(f.Detail), detailBytes)
		}
	}
}

// What is wrong with a game as a whole is told beyond the limit.
func TestLimitFaultsOpenEnd(t *testing.T) {
	games := Read([]byte("1. e4 " + strings.Repeat("zz ", 5_000) + "N"))
	if got := faultCount(games[0], FaultOpenEnd); got != 1 {
		t.Errorf("%d times %s, want once", got, FaultOpenEnd)
	}
}

func TestLongLine(t *testing.T) {
	const size = 2 << 20
	g := readWithSound(t, "1. e4 "+strings.Repeat("x", size)+" e5 *")
	wantOnly(t, g, FaultLimitWord)
	if got, want := len(g.Moves), 2; got != want {
		t.Errorf("%d moves, want %d", got, want)
	}
	g = readWithSound(t, "[Event \"a\"] "+strings.Repeat("1. e4 e5 ", size/9))
	if got, want := len(g.Moves), DefaultLimits.Plies; got != want {
		t.Errorf("%d moves, want %d", got, want)
	}
}
