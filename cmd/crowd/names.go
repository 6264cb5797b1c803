package main

import (
	"math/rand/v2"
	"strings"
)

// syllables are of no language; what they make up are nobody's names.
var syllables = []string{"bra", "dun", "fel", "gor", "hil", "jas", "kev", "lom", "mir", "nad", "orv", "pel", "quo", "rus", "sab", "tev", "ulm", "vin", "wex", "zar"}

// inventName makes up a player, "Felmirzar, G".
func inventName(rng *rand.Rand) string {
	var name strings.Builder
	for range 3 {
		name.WriteString(syllables[rng.IntN(len(syllables))])
	}
	text := name.String()
	return strings.ToUpper(text[:1]) + text[1:] + ", " + string(rune('A'+rng.IntN(26)))
}
