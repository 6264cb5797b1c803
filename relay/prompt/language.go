package prompt

import (
	"fmt"
	"strings"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/remark"
)

// Language is the language of a show: every text that is said on one occasion or another,
// and the figures in it. What kind a prompt is of and how soon it should be said is the
// same in all of them and decided elsewhere. A text that one language lacks does not compile.
type Language interface {
	// Code is the language's code of ISO 639-1, such as "en".
	Code() string

	// Colour names a side that has no name.
	Colour(side clock.Side) string
	// Number writes a number that is counted or that names a move: up to ninety-nine in
	// words, others as figures.
	Number(n int) string
	// Count says how many games, from 2: as they are up to a hundred, and rounded down
	// beyond, as people do.
	Count(n int) string
	// Span says a length of time the way people do: by the second only when there are few
	// of them, to five seconds up to a minute, to the half minute beyond.
	Span(d time.Duration) string
	// Spoken says a move in SAN the way it is read aloud; "" for "".
	Spoken(san string) string

	// The occasions; the functions of the same names say what each is.

	InPreparation(name, opponent string, moves int, gained time.Duration) Words
	BothPrepared(moves int, gained time.Duration) Words
	LeftPreparation(name string, move int, spent, lately time.Duration, longest bool) Words
	BackInPreparation(name string, move int, lately time.Duration) Words
	FirstThink(name string, move int, spent time.Duration) Words
	QuickUnknown(name string, spent time.Duration) Words

	LongThink(name string, move int, limit, usual time.Duration) Words
	TimeTrouble(name string, level int, limit time.Duration, b Budget) Words
	OnIncrement(name string, delay bool, b Budget) Words
	FlagNear(name string, limit time.Duration) Words
	ToControl(name string, move int, b Budget) Words
	ClockLead(name string, l Lead) Words
	CatchingUp(name string, move int, most, by time.Duration) Words
	ClockDoubtful(name, move, doubt string) Words
	TimeAdded(name, move string, by time.Duration, doubt string, again bool) Words

	Novelty(n New) Words
	Rare(r Few) Words
	FeedStale(feed string, silence time.Duration) Words

	Position(r *remark.Remark, name string) Words

	// Prepared says how many moves a player usually has prepared, behind other evidence:
	// half of so many games lie between low and high.
	Prepared(low, median, high, games int) string
	// Estimated says that times come from when moves arrived, behind other evidence.
	Estimated() string
	// Outlook says in lines what a side's time still has to do.
	Outlook(b Budget) []string
	// Source says what a sentence on the air is about; move 0: no move in particular.
	Source(board int, white, black string, move int) string
	// Ahead says where a clock is going.
	Ahead(a Ahead) string

	matchWords
	paceWords
	openingWords
	outcomeWords
	engineWords
}

// Words are what a language has to say on one occasion.
type Words struct {
	Text     string // one sentence, to be read aloud
	Evidence string // the exact figures behind it
	Ends     string // what withdraws it
}

// The languages there are.
var (
	English Language = english{}
	German  Language = german{}
)

// languages holds all of them, the usual one first.
var languages = []Language{English, German}

// Codes lists the codes of all languages, the usual one first.
func Codes() []string {
	codes := make([]string, len(languages))
	for i, language := range languages {
		codes[i] = language.Code()
	}
	return codes
}

// LanguageOf returns the language of a code. The error names the codes there are.
func LanguageOf(code string) (Language, error) {
	for _, language := range languages {
		if language.Code() == code {
			return language, nil
		}
	}
	return nil, fmt.Errorf("%q is no language of the prompts; there are \"%s\"", code, strings.Join(Codes(), `", "`))
}
