package wire

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// TestHealthPageKnowsTroubles: the health page has the limit of lateness and the names of troubles as
// they are here. They are not in wire.js, which scenes load, too.
func TestHealthPageKnowsTroubles(t *testing.T) {
	for file, says := range map[string][]string{
		"pages.js":     {fmt.Sprintf("LATE_MS = %d;", LateMs)},
		"pagewords.js": {fmt.Sprintf("trouble === '%s'", TroubleSilent), fmt.Sprintf("trouble === '%s'", TroubleBehind)},
	} {
		text, err := os.ReadFile("../../static/health/" + file)
		if err != nil {
			t.Fatal(err)
		}
		for _, words := range says {
			if !strings.Contains(string(text), words) {
				t.Errorf("%s does not say %s", file, words)
			}
		}
	}
}
