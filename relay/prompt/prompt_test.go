package prompt

import (
	"strings"
	"testing"
	"time"
	"unicode"
)

const sec = time.Second

// How people round times when they speak is common practice, no source.
func TestSpan(t *testing.T) {
	for _, test := range []struct {
		d    time.Duration
		want string
	}{
		{0, "zero seconds"}, {400 * time.Millisecond, "zero seconds"}, {sec, "one second"}, {9 * sec, "nine seconds"}, {20 * sec, "twenty seconds"},
		{22 * sec, "about twenty seconds"}, {23 * sec, "about twenty-five seconds"}, {25 * sec, "twenty-five seconds"}, {52 * sec, "about fifty seconds"}, {54 * sec, "about fifty-five seconds"}, {55 * sec, "about a minute"},
		{60 * sec, "a minute"}, {65 * sec, "about a minute"}, {66 * sec, "over a minute"}, {84 * sec, "over a minute"}, {88 * sec, "about a minute and a half"},
		{96 * sec, "over a minute and a half"}, {118 * sec, "about two minutes"}, {125 * sec, "about two minutes"}, {130 * sec, "over two minutes"},
		{150 * sec, "two and a half minutes"}, {161 * sec, "over two and a half minutes"}, {13 * 60 * sec, "thirteen minutes"},
		{25*60*sec + 10*sec, "over twenty-five minutes"},
	} {
		if got := English.Span(test.d); got != test.want {
			t.Errorf("Span(%v) = %q, want %q", test.d, got, test.want)
		}
	}
}

func TestNumber(t *testing.T) {
	for n, want := range map[int]string{0: "zero", 1: "one", 12: "twelve", 20: "twenty", 21: "twenty-one", 40: "forty", 99: "ninety-nine", 100: "100", -1: "-1"} {
		if got := English.Number(n); got != want {
			t.Errorf("Number(%d) = %q, want %q", n, got, want)
		}
	}
}

// everyOf returns every of some languages.
func everyOf(languages ...Language) (out []Prompt) {
	for _, in := range languages {
		out = append(out, every(in)...)
	}
	return out
}

// every returns a prompt of each kind and wording.
func every(in Language) []Prompt {
	name, e := "Przybyszewska-Hollenbach", Budget{Move: 9 * sec}
	return []Prompt{
		InPreparation(in, name, "Achterkamp", 9, 41*sec), InPreparation(in, name, "", 9, 41*sec), InPreparation(in, name, "", 9, -12*sec),
		LeftPreparation(in, name, 15, 161*sec, 20*sec, true), LeftPreparation(in, name, 15, 9*sec, 20*sec, false), LongThink(in, name, 12, 30*sec, 0), LongThink(in, name, 57, 67*sec, 27*sec),
		TimeTrouble(in, name, 1, 60*sec, e), TimeTrouble(in, name, 2, 60*sec, e), TimeTrouble(in, name, 3, 20*sec, e),
		OnIncrement(in, name, false, e), OnIncrement(in, name, true, e), FlagNear(in, name, 10*sec), ToControl(in, name, 40, e),
		ClockLead(in, name, Lead{By: 246 * sec}), CatchingUp(in, name, 17, 246*sec, 120*sec), CatchingUp(in, name, 17, 246*sec, -sec), ClockDoubtful(in, name, "12.Nf3", "e"), TimeAdded(in, name, "12.Nf3", 225*sec, "e", false), TimeAdded(in, name, "12.Nf3", 225*sec, "e", true), FeedStale(in, "arena", 15*sec),
		BackInPreparation(in, name, 21, 4*sec), FirstThink(in, name, 12, 221*sec), QuickUnknown(in, name, 2*sec),
		Rare(in, Few{Move: 12, SAN: "Nf3", Games: 3}), Rare(in, Few{Move: 12, SAN: "Nf3", Games: 1}),
	}
}

// TestSpeakable: one sentence of at most fifteen words, no figures to spell out,
// and everything a card needs.
func TestSpeakable(t *testing.T) {
	for _, p := range everyOf(English, German) {
		if n := len(strings.Fields(p.Text)); n > 15 {
			t.Errorf("%q has %d words", p.Text, n)
		}
		if !strings.HasSuffix(p.Text, ".") || strings.Count(p.Text, ".") != 1 || !unicode.IsUpper([]rune(p.Text)[0]) {
			t.Errorf("%q is not one sentence", p.Text)
		}
		if strings.ContainsFunc(p.Text, unicode.IsDigit) {
			t.Errorf("%q has figures where there are words for them", p.Text)
		}
		if p.Evidence == "" || p.Ends == "" || p.Kind == "" || p.Priority == Silent {
			t.Errorf("%q lacks something: %+v", p.Text, p)
		}
	}
}

// TestWords reads the sentences that have parts.
func TestWords(t *testing.T) {
	in := English
	for _, test := range []struct{ got, want string }{
		{InPreparation(in, "A", "B", 9, 41*sec).Text, "A is still in preparation while B is thinking."},
		{InPreparation(in, "A", "", 9, 41*sec).Text, "A still plays from preparation: the clock stands above its start."},
		{InPreparation(in, "A", "", 9, -12*sec).Evidence, "after 9 timed moves the clock stood 0:12 below its start"},
		{LeftPreparation(in, "A", 15, 161*sec, 0, true).Text, "A is out of preparation: over two and a half minutes on move fifteen."},
		{LeftPreparation(in, "A", 8, 8*sec, 12*sec, false).Text, "A is out of preparation by move eight."},
		{LeftPreparation(in, "A", 8, 8*sec, 12*sec, false).Evidence, "0:08 on move 8; 0:12 a move lately"},
		{TimeTrouble(in, "A", 2, 60*sec, Budget{}).Text, "A is in time trouble, down to the last minute."},
		{TimeTrouble(in, "A", 3, 12*sec, Budget{}).Text, "A is down to the last twelve seconds."},
		{TimeTrouble(in, "A", 2, 36*sec, Budget{}).Text, "A is in time trouble, down to the last forty seconds."},
		{TimeTrouble(in, "A", 2, 90*sec, Budget{}).Text, "A is in time trouble, down to the last minute and a half."},
		{TimeTrouble(in, "A", 2, 100*sec, Budget{}).Text, "A is in time trouble, down to the last two minutes."},
		{ToControl(in, "A", 40, Budget{}).Text, "A is running short of time for the control at move forty."},
		{OnIncrement(in, "A", false, Budget{}).Text, "A lives on the increment now."},
		{OnIncrement(in, "A", true, Budget{}).Text, "A lives on the delay now."},
	} {
		if test.got != test.want {
			t.Errorf("got %q, want %q", test.got, test.want)
		}
	}
}
