package prompt

import (
	"strings"
	"testing"

	"clocktell/relay/opinion"
)

var engineScores = []opinion.Score{
	{}, {Centipawns: 49}, {Centipawns: 50}, {Centipawns: 74}, {Centipawns: 75}, {Centipawns: 160}, {Centipawns: -160}, {Centipawns: 299}, {Centipawns: -240},
	{Centipawns: 300}, {Centipawns: -1250}, {Mate: 1}, {Mate: -3}, {Mate: 21}, {Centipawns: 120, Bound: opinion.AtLeast}, {Centipawns: -120, Bound: opinion.AtMost},
	{Mate: -2, Bound: opinion.AtMost},
}

// ofEngine says everything that there is to say of the engine's opinions.
func ofEngine(in Language, name string) []Prompt {
	var out []Prompt
	const line, depth = "23...Rd8 24.Qd3", 14
	outlooks := []opinion.Outlook{opinion.Lost, opinion.Worse, opinion.Level, opinion.Better, opinion.Won}
	for _, score := range engineScores {
		j := Judgement{Score: score, White: name, Black: "Achterkamp"}
		for _, san := range someSANs {
			for _, from := range outlooks {
				for _, to := range outlooks {
					out = append(out, Turned(in, Turn{Name: name, SAN: san, Was: j, Is: j, From: from, To: to, Great: to == opinion.Lost, Best: line, Answer: line, Depths: [2]int{depth, depth}}))
				}
			}
			for _, why := range []opinion.Natural{opinion.Recapture, opinion.TakesFree, opinion.MostPlayed} {
				for _, man := range []byte("QRBN") {
					out = append(out, RefutedMove(in, Refuted{Why: why, Square: "d5", Man: man, Answer: san, Was: j, Is: j, Best: line, Line: line, Depth: depth}))
				}
				out = append(out, RefutedMove(in, Refuted{Why: why, Square: "d5", Man: 'Q', Answer: san, Was: j, Is: j, Best: line, Line: line, Depth: depth}))
				out = append(out, OnlyMove(in, Only{Name: name, Wins: score.Mate > 0, Ahead: score.Centipawns > 100, NotNatural: why, Best: j, Second: j, Line: line, SecondLine: line, Depth: depth}))
			}
			f := First{Name: name, SAN: san, Is: j, Line: line, Depth: depth, New: true}
			only, given, think := f, f, f
			only.Only, given.Square, think.Think = true, "h7", true
			out = append(out, FirstChoice(in, f), FirstChoice(in, only), FirstChoice(in, given), FirstChoice(in, think))
		}
		for n := 1; n <= 3; n++ {
			c := opinion.Choice{Lines: 3, Good: n, Gap: .12, Changes: n, Settled: 9, Depth: depth}
			out = append(out, MissedMate(in, Missed{Name: name, In: n, Is: j, Line: line, Depth: depth}), QuietPosition(in, 8*n, c, j))
			out = append(out, HardThink(in, Hardness{Name: name, Clock: "1:10", Choice: c}), EasyThink(in, Hardness{Name: name, Clock: "1:10", Choice: c}))
		}
		out = append(out, OnlyMove(in, Only{Name: name, Best: j, Second: j, Line: line, SecondLine: line, Depth: depth}))
	}
	return out
}

// TestEngineWords: what is said of a swing and of others, as a person would say it.
func TestEngineWords(t *testing.T) {
	of := func(s opinion.Score) Judgement { return Judgement{Score: s, White: "Ferro", Black: "Okoye"} }
	level, lost := opinion.Level, opinion.Lost
	turn := Turn{SAN: "Rd8", From: level, To: lost, Was: of(opinion.Score{}), Is: of(opinion.Score{Centipawns: 410}), Best: "22...Rc8", Answer: "22...Rd8 23.Qd3", Depths: [2]int{14, 13}}
	pawn := turn
	pawn.SAN, pawn.To, pawn.Is = "c4", opinion.Worse, of(opinion.Score{Centipawns: 160})
	gone := turn
	gone.From, gone.To, gone.Is = opinion.Won, level, of(opinion.Score{Centipawns: -20})
	mate := turn
	mate.Is = of(opinion.Score{Mate: 3})
	for _, test := range []struct {
		say  Prompt
		want string
	}{
		{Turned(English, turn), "Rook d8 loses: the engine has Ferro winning."},
		{Turned(English, pawn), "The move c4 turns it: the engine has Ferro a pawn and a half better."},
		{Turned(English, gone), "Rook d8 lets the win go: the engine has it level."},
		{Turned(English, mate), "Rook d8 loses: the engine has mate in three for Ferro."},
		{Turned(German, turn), "Turm d8 verliert: Laut Engine steht Ferro auf Gewinn."},
		{Turned(German, pawn), "Der Zug c4 kippt die Partie: Laut Engine steht Ferro anderthalb Bauern besser."},
		{Turned(German, gone), "Turm d8 gibt den Gewinn weg: Laut Engine ist es ausgeglichen."},
		{MissedMate(English, Missed{Name: "Ferro", In: 1, Is: of(opinion.Score{})}), "Ferro has missed a mate in one, says the engine."},
		{RefutedMove(English, Refuted{Why: opinion.Recapture, Square: "d5", Answer: "Nc7+"}), "Taking back on d5 fails to knight c7 check, says the engine."},
		{OnlyMove(English, Only{Name: "Ferro", NotNatural: opinion.Recapture}), "Only one move holds for Ferro, says the engine, and it is not the recapture."},
		{HardThink(English, Hardness{Name: "Ferro", Choice: opinion.Choice{Good: 1}}), "Ferro thinks long, and it is hard: the engine sees only one good move."},
	} {
		if test.say.Text != test.want {
			t.Errorf("%q, want %q", test.say.Text, test.want)
		}
	}
	want := "from White's view: 0.00 before with 22...Rc8 (depth 14), +4.10 after 22...Rd8 23.Qd3 (depth 13)"
	if got := Turned(English, turn).Evidence; got != want {
		t.Errorf("evidence %q, want %q", got, want)
	}
}

// TestEngineScores: figures are from White's view and say of a bound that it is one.
func TestEngineScores(t *testing.T) {
	for _, test := range []struct {
		score      opinion.Score
		want, also string
	}{
		{opinion.Score{Centipawns: 135}, "+1.35", "+1,35"}, {opinion.Score{Centipawns: -4}, "−0.04", "−0,04"}, {opinion.Score{}, "0.00", "0,00"},
		{opinion.Score{Mate: 3}, "mate in 3 for White", "Matt in 3 für Weiß"}, {opinion.Score{Mate: -1}, "mate in 1 for Black", "Matt in 1 für Schwarz"},
		{opinion.Score{Centipawns: 135, Bound: opinion.AtLeast}, "at least +1.35", "mindestens +1,35"},
		{opinion.Score{Centipawns: 135, Bound: opinion.AtMost}, "at most +1.35", "höchstens +1,35"},
	} {
		if got, also := (english{}).scored(test.score), (german{}).scored(test.score); got != test.want || also != test.also {
			t.Errorf("%+v: %q, %q; want %q, %q", test.score, got, also, test.want, test.also)
		}
	}
}

// TestEngineUnnamed: no sentence names an engine, and none judges by signs or percent.
func TestEngineUnnamed(t *testing.T) {
	for _, in := range []Language{English, German} {
		for _, p := range ofEngine(in, "Ferro") {
			if p.Kind != KindEngine || !strings.Contains(p.Text, "ngine") || strings.ContainsAny(p.Text, "!?%±=+") {
				t.Errorf("%+v", p)
			}
		}
	}
}
