package overlay

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestReasonIsUTF8: a close reason is UTF-8 of at most 123 bytes (RFC 6455, 5.5 and 5.5.1), whatever the
// page's address says and wherever it has to be cut.
func TestReasonIsUTF8(t *testing.T) {
	for _, text := range []string{"", "plain", "\xff\xfe", strings.Repeat("\xff", 200), strings.Repeat("é", 61) + "x", strings.Repeat("é", 62), "x" + strings.Repeat("é", 100), strings.Repeat("♞", 50)} {
		got := short(errors.New(text))
		if !utf8.ValidString(got) || len(got) > closeReasonMost || utf8.ValidString(text) && len(got) < min(len(text), closeReasonMost+1-utf8.UTFMax) {
			t.Errorf("%q is told as %q, %d bytes", text, got, len(got))
		}
	}
}
