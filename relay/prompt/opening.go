package prompt

import "strings"

// openingWords are what a language has to say of how an opening goes. The functions of the same names say
// what each is.
type openingWords interface {
	Opening(code, name string) Words
	SeldomPlayed(move int, san string, games, of int, usual string) Words
	KnownScore(move, games, percent int) Words
}

// Opening: how the opening is called, with its code.
func Opening(in Language, code, name string) Prompt {
	return in.Opening(code, openingName(name)).said(KindFacts, Background)
}

// SeldomPlayed: a move that so many reference games played of those that came there, and what most played.
func SeldomPlayed(in Language, move int, san string, games, of int, usual string) Prompt {
	return in.SeldomPlayed(move, san, games, of, usual).said(KindReference, Background)
}

// KnownScore: so many reference games came to the position after a move, and White scored so much in them.
func KnownScore(in Language, move, games, percent int) Prompt {
	return in.KnownScore(move, games, percent).said(KindReference, Background)
}

// openingWordsMost is how many words of an opening's name are read aloud.
const openingWordsMost = 9

// nameSigns turns what parts a name as it is written into what parts a sentence. It is made
// once: a board that waits says its opening every second.
var nameSigns = strings.NewReplacer(":", ",", ";", ",", ".", "")

// openingName writes a name as it is read aloud, its finer branches left out where there are too many.
func openingName(name string) string {
	parts := strings.Split(nameSigns.Replace(name), ",")
	said := strings.TrimSpace(parts[0])
	for _, part := range parts[1:] {
		longer := said + ", " + strings.TrimSpace(part)
		if len(strings.Fields(longer)) > openingWordsMost {
			break
		}
		said = longer
	}
	return said
}
