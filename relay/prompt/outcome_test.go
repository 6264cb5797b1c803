package prompt

import (
	"strings"
	"testing"

	"clocktell/relay/clock"
)

func TestOutcomeWords(t *testing.T) {
	for _, c := range []struct {
		o                               Outcome
		stands, prefers, leans, stehend string
	}{
		{Outcome{}, "about level", "To the engine the position is level.", "Engine: level", "etwa ausgeglichen"},
		{Outcome{Size: Slight, Halves: 1}, "White is slightly better, by half a pawn", "The engine slightly prefers White, by half a pawn.",
			"Engine: White slightly better", "Weiß steht etwas besser, um einen halben Bauern"},
		{Outcome{Size: Better, Side: clock.Black, Halves: 3}, "Black is better, by a pawn and a half", "The engine prefers Black, by a pawn and a half.",
			"Engine: Black better", "Schwarz steht besser, um anderthalb Bauern"},
		{Outcome{Size: Clear, Halves: 5, Bound: AtLeast}, "White is clearly better, by two and a half pawns at least",
			"The engine clearly prefers White, by two and a half pawns.", "Engine: White clearly better", "Weiß steht klar besser, um mindestens zweieinhalb Bauern"},
		{Outcome{Size: Winning, Halves: 10, Bound: AtMost}, "White is ahead by five pawns at most", "The engine sees White winning, by five pawns.",
			"Engine: White winning", "Weiß ist höchstens um fünf Bauern voraus"},
		{Outcome{Size: Winning, Side: clock.Black, Halves: 40}, "Black is winning, by nine pawns or more", "The engine sees Black winning, by nine pawns or more.",
			"Engine: Black winning", "Schwarz steht auf Gewinn, um neun Bauern oder mehr"},
		{Outcome{Size: Mating, Side: clock.Black, Mate: 1}, "Black mates in one", "The engine sees mate in one for Black.",
			"Engine: mate for Black", "Schwarz setzt matt in einem Zug"},
		{Outcome{Size: Mating, Mate: 7, Bound: AtLeast}, "White mates in seven or sooner", "The engine sees mate in seven for White.",
			"Engine: mate for White", "Weiß setzt matt in sieben Zügen oder früher"},
	} {
		for got, want := range map[string]string{
			English.Stands(c.o): c.stands, English.Prefers(c.o): c.prefers, English.Leans(c.o): c.leans, German.Stands(c.o): c.stehend,
		} {
			if got != want {
				t.Errorf("%+v: %q, want %q", c.o, got, want)
			}
		}
	}
}

// TestOutcomesAreSentences: what viewers read is a sentence of up to fifteen words, in
// every language, and what stands beside the mark is short.
func TestOutcomesAreSentences(t *testing.T) {
	for _, in := range []Language{English, German} {
		for size := Level; size <= Mating; size++ {
			for n := 1; n < 60; n++ {
				o := Outcome{Size: size, Halves: n, Mate: n, Side: clock.Side(n % 2)}
				said := in.Prefers(o)
				if !strings.HasSuffix(said, ".") || len(strings.Fields(said)) > 15 || strings.Contains(said, "  ") {
					t.Errorf("%q", said)
				}
				if short := in.Leans(o); len([]rune(short)) > 30 || !strings.HasPrefix(short, "Engine: ") {
					t.Errorf("%q", short)
				}
			}
		}
	}
}
