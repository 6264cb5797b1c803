package prompt

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"clocktell/relay/clock"
)

// Arguments of every kind, the odd ones among them.
var (
	someMoves = []int{1, 2, 12, 21, 57, 99, 140}
	someSpans = []time.Duration{0, sec, 9 * sec, 22 * sec, 58 * sec, 60 * sec, 88 * sec, 96 * sec, 161 * sec, 21 * time.Minute, 21*time.Minute + 40*sec, 101*time.Minute + 30*sec}
	someSANs  = []string{"e4", "exd5", "Nf3", "Nbd7+", "R7xh6+", "Qa6xb7#", "fxg1=Q+", "O-O", "O-O-O+", "Kxe2"}
	someGames = []int{1, 2, 20, 21, 99, 214, 1999, 10_000, 214_512, 1_000_000, 3_400_000}
	budgets   = []Budget{
		{}, {Move: 9 * sec, NoTrouble: true}, {Move: 70 * sec, Usual: 9 * sec, ToControl: 1}, {Move: 9 * sec, ToControl: 12, Below: 60 * sec, AtMove: 31, From: 28, To: 35},
		{Move: 9 * sec, Below: 60 * sec, AtMove: 31, From: 28},
	}
)

// sentences says everything there is to say in a language.
func sentences(in Language) []Prompt {
	var out []Prompt
	add := func(p ...Prompt) { out = append(out, p...) }
	for _, name := range []string{in.Colour(clock.White), in.Colour(clock.Black), "Przybyszewska-Hollenbach"} {
		for _, move := range someMoves {
			for _, d := range someSpans {
				add(LeftPreparation(in, name, move, d, d, true), LeftPreparation(in, name, move, d, d, false), FirstThink(in, name, move, d))
				add(LongThink(in, name, move, d, 0), LongThink(in, name, move, d, d+sec), BackInPreparation(in, name, move, d))
				add(InPreparation(in, name, "", move, d), InPreparation(in, name, "", move, -d), InPreparation(in, name, "Achterkamp", move, d))
				add(CatchingUp(in, name, move, d, d), CatchingUp(in, name, move, d, -d), ClockLead(in, name, Lead{By: d, Mine: d, Yours: d, Moves: move - 1}))
				add(BothPrepared(in, move, d))
				add(paces(in, name, move, d)...)
				add(QuickUnknown(in, name, d), FlagNear(in, name, d), FeedStale(in, "arena", d), ClockDoubtful(in, name, "12.Nf3", "3:00, 2:00"), TimeAdded(in, name, "12.Nf3", d, "e", true))
			}
			for _, b := range budgets {
				add(ToControl(in, name, move, b), OnIncrement(in, name, true, b), OnIncrement(in, name, false, b))
				for _, d := range someSpans {
					add(TimeTrouble(in, name, 1, d, b), TimeTrouble(in, name, 2, d, b), TimeTrouble(in, name, 3, d, b))
				}
			}
		}
	}
	for _, name := range []string{in.Colour(clock.White), "Przybyszewska-Hollenbach"} {
		add(ofEngine(in, name)...)
	}
	return append(append(out, ofReference(in)...), positions(in)...)
}

// paces says what there is to say of how the clocks go.
func paces(in Language, name string, move int, d time.Duration) []Prompt {
	const other = "Achterkamp"
	return []Prompt{
		HalfTime(in, name, move, d), Below(in, name, other, 5*time.Minute, d+7*time.Minute), BothBelow(in, 5*time.Minute), UnderHalf(in, name, other, d, 3*d),
		FiveMoves(in, name, other, 3*d+sec, max(sec, d)), Longest(in, name, move, d), AtOnce(in, name, other, d), AboveStart(in, move, d), QuickMoves(in, name, 5, d),
		SlowMoves(in, name, 3, d), Average(in, name, other, d, 2*d, move), LevelClocks(in, move, d), Unspent(in, name, move, d, d+time.Minute), AheadNow(in, name, other, d),
		Surge(in, name, 5, move, 3*d, d), Regained(in, name, 10, d), Recall(in, name, move, d), MinuteMoves(in, name, 10), MinuteMoves(in, name, 20),
	}
}

func ofReference(in Language) []Prompt {
	var out []Prompt
	for _, name := range []string{"Harbour Gambit", "Harbour Defense: Quay Variation, Long Line, Deep Water, Old Moorings", "Old-Dock: Very. Long, Name Of Many And More Than Enough Words"} {
		out = append(out, Opening(in, "C30", name))
	}
	for _, move := range someMoves {
		for _, san := range someSANs {
			for _, games := range someGames {
				n := New{Move: move, SAN: san, Reached: games, Usual: "c4", UsualGames: 1, Last: "A – B, X 2019"}
				went, elsewhere := n, n
				went.Went, elsewhere.Elsewhere = san, games
				out = append(out, Novelty(in, n), Novelty(in, went), Novelty(in, elsewhere))
				out = append(out, SeldomPlayed(in, move, san, games, games+1000, "d4"), KnownScore(in, move, max(2, games), 54))
				out = append(out, Rare(in, Few{Move: move, SAN: san, Games: min(games, 99), Last: "A – B", Went: san}))
			}
		}
	}
	return out
}

// foreign are words that only the other language has, enough to find a text that was
// forgotten. From memory.
var foreign = map[string][]string{
	"de": strings.Fields(`the is of and after by move moves clock game games behind ahead when usual usually below last lately likely takes
		knight minutes second seconds about over feed position preparation lives later news level first think pace against worth at to`),
	"en": strings.Fields(`der die das ist von vom ein eine und nach zug züge uhr partie partien zurück vorn wenn sobald sonst meist unter schlägt
		springer weiß schwarz minuten sekunde sekunden etwa über quelle stellung vorbereitung später bei keine mehr`),
}

// foreignTo returns the first word of a text that is foreign to a language, "" if none is.
func foreignTo(in Language, text string) string {
	for _, word := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if slices.Contains(foreign[in.Code()], word) {
			return word
		}
	}
	return ""
}

var placeholder = regexp.MustCompile(`%|\{|\}|\bnil\b|<|EXTRA|MISSING|  | [.,:;]|;$|: ?$|\(\)`)

// TestSentences: whatever the figures, everything said in a language is one sentence that
// can be said, and nothing of it is in another.
func TestSentences(t *testing.T) {
	for _, in := range []Language{English, German} {
		all, seen := sentences(in), make(map[Words]bool)
		longest := 0
		for _, p := range all {
			words := Words{p.Text, p.Evidence, p.Ends}
			if seen[words] {
				continue
			}
			seen[words] = true
			n := len(strings.Fields(p.Text))
			longest = max(longest, n)
			if n > wordsMost {
				t.Errorf("%s: %q has %d words", in.Code(), p.Text, n)
			}
			if first := []rune(p.Text)[0]; !unicode.IsUpper(first) || !strings.HasSuffix(p.Text, ".") || strings.Count(p.Text, ".") != 1 {
				t.Errorf("%s: %q is not one sentence", in.Code(), p.Text)
			}
			if p.Evidence == "" || p.Ends == "" || p.Kind == "" || p.Priority == Silent || strings.HasSuffix(p.Ends, ".") {
				t.Errorf("%s: %q lacks something: %+v", in.Code(), p.Text, p)
			}
			checkText(t, in, p.Text, p.Evidence, p.Ends)
		}
		t.Logf("%s: %d sentences with their evidence, of %d words at most", in.Code(), len(seen), longest)
		for _, b := range budgets {
			checkText(t, in, in.Outlook(b)...)
		}
		checkText(t, in, in.Estimated(), in.Prepared(0, 1, 2, 10), in.Prepared(8, 11, 14, 34), in.Ahead(Ahead{20, sec, 0, 2 * sec}))
	}
}

func checkText(t *testing.T, in Language, texts ...string) {
	for _, text := range texts {
		if found := placeholder.FindString(text); found != "" || text == "" {
			t.Errorf("%s: %q holds %q", in.Code(), text, found)
		}
		if found := foreignTo(in, text); found != "" {
			t.Errorf("%s: %q holds %q", in.Code(), text, found)
		}
	}
}

// TestForeign: the check above sees the other language in every sentence of it.
func TestForeign(t *testing.T) {
	for _, in := range []Language{English, German} {
		for _, other := range []Language{English, German} {
			for _, p := range every(other) {
				if found := foreignTo(in, p.Text); (found != "") != (in != other) {
					t.Errorf("%s: foreign in %q: %q", in.Code(), p.Text, found)
				}
			}
		}
	}
}

// TestSameInAllLanguages: kind and priority do not depend on the language, and the words do.
func TestSameInAllLanguages(t *testing.T) {
	english, german := sentences(English), sentences(German)
	if len(english) != len(german) {
		t.Fatalf("%d sentences in English, %d in German", len(english), len(german))
	}
	for i, e := range english {
		if g := german[i]; e.Kind != g.Kind || e.Priority != g.Priority || e.Text == g.Text || e.Ends == g.Ends {
			t.Errorf("%+v and %+v", e, g)
		}
	}
}
