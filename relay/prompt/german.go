package prompt

import "strconv"

// german has all texts in German, as they are said over a game.
type german struct{}

func (german) Code() string { return "de" }

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
