package recap

import (
	"fmt"
	"strings"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/desk"
)

// Words is what a recap says of itself, in one language; {} stands for what is named.
type Words struct {
	Code   string // of the language
	Pieces string // letters of king, queen, rook, bishop and knight
	Date   string // day, month, year
	Months [12]string

	White, Black                  string
	WhiteWon, BlackWon            string // the winner
	Drawn, UnderWay               string
	NoMoves                       string
	Round, Board, Game, Moves     string // {}
	OneMove                       string
	Score, NotShown, Control      string // {}
	Key, After, Start             string // a key moment, its move
	LongestThink                  string // how long, the move
	OwnThink                      string // who, how long, the move
	ShownThen                     string // the moves
	Turned                        string // an engine's verdict, the move, the verdict
	Mates                         string // who, in how many moves
	Left, Spent                   string // {}
	SaidTitle, SaidNone, OnAir    string
	LinesTitle, ShownAfter        string
	AskedTitle, Question, Answer  string
	Seconds                       string // {}
	MovesTitle                    string // thinks from which length on are told
	MovesPlain                    string
	ByHand                        string
	ClocksTitle, Range, All       string // from, to
	New                           string // on the flag
	Preparation, Unsure, Think    string
	Trouble, NoReading            string
	LineTitle, LineNote, NoClocks string
	Doubts                        string // {} of how many readings

	BothPrepared, OnePrepared string // who, how many moves, ...
	WasNew, InTrouble         string // the move; who, from which move on

	Summary, Title, Games      string
	LongestOfDay               string // how long, who, the move, the board
	SaidCount, SaidOne         string // {}
	Longest, Novelty, Prompts  string
	Used, Back                 string
	AllPGN, OnePGN             string
	Diagram                    string // {}
	MadeBy                     string // {} when
	MovesHead                  string
	ForEditing                 string
	Chapters, CueList, CutList string
}

// Languages has the words of every language that a show can be in, by its code.
var Languages = map[string]*Words{"en": &english, "de": &german}

// WordsOf returns the words of a language, English ones where there are none.
func WordsOf(code string) *Words {
	if in := Languages[code]; in != nil {
		return in
	}
	return &english
}

// NotShownOf tells why a game is told no further.
func (in *Words) NotShownOf(fault string) string { return fill(in.NotShown, fault) }

// fill puts parts where {} stands, in order.
func fill(text string, parts ...any) string {
	for _, p := range parts {
		text = strings.Replace(text, "{}", strings.ReplaceAll(fmt.Sprint(p), "{}", "( )"), 1)
	}
	return text
}

// date writes a date of the form 2026.10.17; what it cannot read stands as it is.
func (in *Words) date(text string) string {
	t, err := time.Parse("2006.01.02", text)
	if err != nil {
		return strings.Trim(strings.ReplaceAll(text, ".??", ""), "?.")
	}
	return fill(in.Date, t.Day(), in.Months[t.Month()-1], t.Year())
}

// resultWords tells how a game ended, in words.
func (in *Words) resultWords(b *relay.Board) string {
	switch b.Result {
	case "1-0":
		return fill(in.WhiteWon, b.Called(clock.White))
	case "0-1":
		return fill(in.BlackWon, b.Called(clock.Black))
	case "1/2-1/2":
		return in.Drawn
	}
	return in.UnderWay
}

// san writes a move with the piece letters of the language.
func (in *Words) san(text string) string {
	var out strings.Builder
	for _, r := range text {
		if i := strings.IndexRune("KQRBN", r); i >= 0 {
			r = []rune(in.Pieces)[i]
		} else if r == 'x' {
			r = '×'
		}
		out.WriteRune(r)
	}
	return out.String()
}

// spell writes the move at an index with its number.
func (g *Game) spell(in *Words, i int) string {
	return dotted(g.Board.HalfMove(i)) + in.san(g.Board.Plies[i].SAN)
}

// spell writes moves with their numbers.
func spell(in *Words, moves []desk.Step) string {
	var out []string
	for i, m := range moves {
		text := in.san(m.SAN)
		if i == 0 || m.Number%2 == 1 {
			text = dotted(m.Number) + text
		}
		out = append(out, text)
	}
	return strings.Join(out, " ")
}

// dotted is the number of a half-move: "12." or "12…".
func dotted(halfMove int) string {
	if halfMove%2 == 1 {
		return fmt.Sprintf("%d.", (halfMove+1)/2)
	}
	return fmt.Sprintf("%d…", halfMove/2)
}

// score writes a result as papers do.
func score(result string) string {
	switch result {
	case "1-0":
		return "1–0"
	case "0-1":
		return "0–1"
	case "1/2-1/2":
		return "½–½"
	}
	return "…"
}
