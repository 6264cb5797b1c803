package prompt

import (
	"fmt"
	"strings"
)

// New is a move that no counted game of the reference played.
type New struct {
	Move      int
	SAN       string
	Reached   int    // games that reached the position before it
	Elsewhere int    // games that are not counted and have played it
	Usual     string // what was played most: "Bc4 120 of 214"
	Last      string // the last game to reach the position before: "A – B, Event 2019"
	Went      string // how that game went on; "" if it ended there
}

// Novelty: the game has left the reference.
func Novelty(n New) Prompt {
	p := Prompt{Kind: KindReference, Priority: Now, Ends: "three moves later"}
	switch {
	case n.Elsewhere > 0:
		p.Text = fmt.Sprintf("Move %s, %s, is new among the games counted.", Number(n.Move), Spoken(n.SAN))
	case n.Reached == 1 && n.Went != "":
		p.Text = fmt.Sprintf("A new position: the only game here went %s on move %s.", Spoken(n.Went), Number(n.Move))
	case n.Reached == 1:
		p.Text = fmt.Sprintf("A new position: the only game to get here ended before move %s.", Number(n.Move))
	default:
		p.Text = fmt.Sprintf("Move %s is new: of %s games here, none played %s.", Number(n.Move), Count(n.Reached), Spoken(n.SAN))
	}
	p.Evidence = joined(
		n.usualWords(), n.lastWords(),
		some(n.Elsewhere > 0, fmt.Sprintf("%d games that are not counted have it", n.Elsewhere)),
	)
	return p
}

func (n New) usualWords() string {
	return some(n.Usual != "", "most played: "+n.Usual)
}

func (n New) lastWords() string {
	return some(n.Last != "", "last game: "+n.Last+some(n.Went != "", ", "+n.Went))
}

// Rare: hardly a game of the reference has come here.
func Rare(move int, san string, games int, last, went string) Prompt {
	text := fmt.Sprintf("Only %s games have come to this position.", Number(games))
	if games == 1 {
		text = "Only one game has come to this position."
	}
	return Prompt{
		Kind: KindReference, Priority: Background, Text: text,
		Evidence: joined(fmt.Sprintf("after move %d, %s", move, san), some(last != "", "last: "+last+some(went != "", ", "+went))),
		Ends:     "three moves later",
	}
}

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

// Count says how many games: as they are up to a hundred, and rounded down beyond, as
// people do.
func Count(n int) string {
	step, unit, word := 1, 1, ""
	switch {
	case n <= 20:
		return Number(n)
	case n < 100:
	case n < 1000:
		step = 50
	case n < 10_000:
		step = 500
	case n < 1_000_000:
		step, unit, word = 1000, 1000, " thousand"
	default:
		step, unit, word = 1_000_000, 1_000_000, " million"
	}
	return some(n%step != 0, "over ") + fmt.Sprint(n/step*step/unit) + word
}

var men = map[byte]string{'K': "king", 'Q': "queen", 'R': "rook", 'B': "bishop", 'N': "knight"}

// Spoken says a move in SAN the way it is read aloud: "knight f3", "bishop takes c6",
// "castles short", "e takes d5".
func Spoken(san string) string {
	move := strings.TrimRight(san, "+#!?")
	suffix := some(strings.HasSuffix(san, "+"), " check") + some(strings.HasSuffix(san, "#"), " mate")
	switch move {
	case "O-O":
		return "castles short" + suffix
	case "O-O-O":
		return "castles long" + suffix
	case "":
		return ""
	}
	rest := move
	man, isMan := men[move[0]]
	if isMan {
		rest = move[1:]
	}
	rest, promoted, _ := strings.Cut(rest, "=")
	from, to, takes := strings.Cut(rest, "x")
	words := []string{man}
	if takes {
		words = append(words, from, "takes", to)
	} else {
		at := max(0, len(rest)-2) // what stands before the square tells two men apart
		words = append(words, rest[:at], rest[at:])
	}
	if promoted != "" {
		words = append(words, "makes a "+men[promoted[0]])
	}
	return strings.Join(strings.Fields(strings.Join(words, " ")), " ") + suffix
}
