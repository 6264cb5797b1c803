package prompt

import "strings"

// New is a move that no counted game of the reference played.
type New struct {
	Move       int
	SAN        string
	Reached    int    // games that reached the position before it
	Elsewhere  int    // games that are not counted and have played it
	Usual      string // what was played most, in SAN; "" nothing
	UsualGames int    // in so many of those that reached the position
	Last       string // the last game to reach the position before: "A – B, Event 2019"
	Went       string // how that game went on; "" if it ended there
}

// Few is a position that hardly a game of the reference has come to.
type Few struct {
	Move  int
	SAN   string // of the move to it
	Games int
	Last  string // the last of them: "A – B, Event 2019"
	Went  string // how it went on; "" if it ended there
}

// Novelty: the game has left the reference.
func Novelty(in Language, n New) Prompt { return in.Novelty(n).said(KindReference, Now) }

// Rare: hardly a game of the reference has come here.
func Rare(in Language, f Few) Prompt { return in.Rare(f).said(KindReference, Background) }

// some returns a text if it applies.
func some(applies bool, text string) string {
	if applies {
		return text
	}
	return ""
}

func joined(parts ...string) string {
	var out []string
	for _, part := range parts {
		if part != "" {
			out = append(out, part)
		}
	}
	return strings.Join(out, "; ")
}

// wordsMost is how many words a sentence has at most. Judgement.
const wordsMost = 15

// speakable returns a sentence if it is short enough to be said, else the short one.
func speakable(sentence, short string) string {
	if len(strings.Fields(sentence)) > wordsMost {
		return short
	}
	return sentence
}
