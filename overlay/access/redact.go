package access

import "regexp"

// tokenLike is whatever has a token's letters and is half as long as one or longer.
var tokenLike = regexp.MustCompile(`[A-Z2-7]{16,}`)

// Holds reports a text that holds a token which is valid now, such as a link that somebody
// pasted into the wrong field.
func (k *Keys) Holds(text []byte) bool {
	for _, run := range tokenLike.FindAll(text, -1) {
		for ; len(run) >= tokenBits/letterBits; run = run[1:] {
			if k.RoleOf(string(run[:tokenBits/letterBits])) != Nobody {
				return true
			}
		}
	}
	return false
}

// Redact returns a text without what looks like a token.
func Redact(text string) string { return tokenLike.ReplaceAllString(text, "[a token]") }
