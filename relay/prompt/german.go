package prompt

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"clocktell/relay/clock"
)

// german has all texts in German, as they are said over a game. A player is never "er" or
// "sie": the feed does not tell which.
type german struct{}

func (german) Code() string { return "de" }

func (german) Colour(side clock.Side) string {
	if side == clock.White {
		return "Weiß"
	}
	return "Schwarz"
}

var germanNumbers = []string{
	"null", "eins", "zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun", "zehn", "elf", "zwölf", "dreizehn",
	"vierzehn", "fünfzehn", "sechzehn", "siebzehn", "achtzehn", "neunzehn", "zwanzig",
}

var germanTens = []string{"", "", "zwanzig", "dreißig", "vierzig", "fünfzig", "sechzig", "siebzig", "achtzig", "neunzig"}

// Number writes one as it is counted, "eins": before a noun it is written out there.
func (german) Number(n int) string {
	switch {
	case n >= 0 && n < len(germanNumbers):
		return germanNumbers[n]
	case n < 0 || n > 99:
		return strconv.Itoa(n)
	case n%10 == 0:
		return germanTens[n/10]
	case n%10 == 1:
		return "einund" + germanTens[n/10]
	}
	return germanNumbers[n%10] + "und" + germanTens[n/10]
}

// Count stands before a plural of any case, so that one of a million stays a figure:
// "über 200", "214 000" with a space that keeps the line, "1 Million", "3 Millionen".
func (g german) Count(n int) string {
	if n <= 20 {
		return g.Number(n)
	}
	near, count, unit := roundedCount(n)
	said := strconv.Itoa(count)
	switch {
	case unit == 1000:
		said += "\u00a0000"
	case unit == 1_000_000 && count == 1:
		said += " Million"
	case unit == 1_000_000:
		said += " Millionen"
	}
	return germanNear[near] + said
}

var germanNear = [...]string{exactly: "", about: "etwa ", over: "über "}

func (g german) Span(d time.Duration) string { return g.length(rounded(d)) }

// length says a length of time in the nominative or accusative, which are the same.
func (g german) length(l length) string {
	said := ""
	switch {
	case l.halves > 199 && l.halves%2 == 1: // no word for a hundred and a half
		return "über " + g.Number(l.halves/2) + " Minuten"
	case l.halves == 2:
		said = "eine Minute"
	case l.halves == 3:
		said = "anderthalb Minuten"
	case l.halves%2 == 1:
		said = g.Number(l.halves/2) + "einhalb Minuten"
	case l.halves > 0:
		said = g.Number(l.halves/2) + " Minuten"
	case l.seconds == 1:
		said = "eine Sekunde"
	default:
		said = g.Number(l.seconds) + " Sekunden"
	}
	return germanNear[l.near] + said
}

// lessThan says that not even so much is left: "keine Minute mehr", "keine zwanzig
// Sekunden mehr".
func (g german) lessThan(d time.Duration) string {
	return "keine " + strings.TrimPrefix(g.length(limit(d)), "eine ") + " mehr"
}

var germanMen = map[byte]string{'K': "König", 'Q': "Dame", 'R': "Turm", 'B': "Läufer", 'N': "Springer"}

// Spoken: "Springer f3", "Läufer schlägt c6", "kurze Rochade", "e schlägt d5", "e8 Dame".
// Sentences are made so that it stands in the nominative.
func (german) Spoken(san string) string {
	m := apart(san)
	end := some(m.check, "Schach") + some(m.mate, "matt")
	switch {
	case m.none:
		return ""
	case m.castles == "O-O":
		return aloud("kurze Rochade", end)
	case m.castles != "":
		return aloud("lange Rochade", end)
	}
	return aloud(germanMen[m.man], m.from, some(m.takes, "schlägt"), m.to, germanMen[m.makes], end)
}

// germanMoves counts moves in the nominative or accusative.
func germanMoves(n int, one string) string {
	if n == 1 {
		return one
	}
	return fmt.Sprintf("%d Züge", n)
}

func (german) Source(board int, white, black string, move int) string {
	return fmt.Sprintf("Brett %d · %s – %s", board, white, black) + some(move > 0, fmt.Sprintf(" · Zug %d", move))
}
