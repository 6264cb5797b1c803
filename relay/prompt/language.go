package prompt

import (
	"fmt"
	"strings"
)

// Language is the language of a show: every text that is said of one occasion or another,
// and the figures in it. What kind a prompt is of and how soon it should be said is the
// same in all of them and decided elsewhere. A text that one language lacks does not compile.
type Language interface {
	// Code is the language's code of ISO 639-1, such as "en".
	Code() string

	// Number writes a number that is counted or that names a move: up to ninety-nine in
	// words, others as figures.
	Number(n int) string
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

// Codes lists the codes of all languages.
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
	return nil, fmt.Errorf("%q is no language of the prompts; there are %s", code, strings.Join(Codes(), ", "))
}
