package access

import "regexp"

// tokenLike is whatever has a token's letters and is half as long as one or longer.
var tokenLike = regexp.MustCompile(`[A-Z2-7]{16,}`)

// Redact returns a text without what looks like a token.
func Redact(text string) string { return tokenLike.ReplaceAllString(text, "[a token]") }
