package overlay

import (
	"bytes"
	"fmt"
	"os"
	"testing"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// TestProtocolLimits: PROTOCOL.md says the limits that hold, and every act.
func TestProtocolLimits(t *testing.T) {
	text, err := os.ReadFile("PROTOCOL.md")
	if err != nil {
		t.Fatal(err)
	}
	says := []string{
		fmt.Sprintf("of at most %d bytes", entryMost), fmt.Sprintf("within %.0f seconds", requestWait.Seconds()),
		fmt.Sprintf("frames of at most %d", logFrameMost), fmt.Sprintf("may have %d bytes", frameMost),
		fmt.Sprintf("up to %d numbers of boards", wallMost), fmt.Sprintf("gets the first %d boards", wallMost),
	}
	says = append(says,
		fmt.Sprintf("at most %.0f; or", relay.HoldMost.Seconds()), fmt.Sprintf("for %.0f seconds", relay.HoldCatchUp.Seconds()),
		fmt.Sprintf("in %d MiB of memory at most", relay.HistoryMost>>20))
	says = append(says,
		fmt.Sprintf("%d of them in %.0f seconds", framesMost, framesWindow.Seconds()), fmt.Sprintf("more than %d KiB, or of more than %d fields", headerMost>>10, headersMost),
		fmt.Sprintf("for %.0f days", cookieAge.Hours()/24))
	says = append(says,
		fmt.Sprintf("`items` has at most %d of them", pagesListed), fmt.Sprintf("at most %d, those whose hold is set first", groupsListed),
		fmt.Sprintf("is later than\n%d ms", wire.LateMs), fmt.Sprintf("came for %.0f seconds, though pages send one every %.0f", silentAfter.Seconds(), pingEvery.Seconds()),
		fmt.Sprintf("within half a minute it has skipped more than %d revisions", skippedMost), fmt.Sprintf("last for %.0f seconds after", troubleFor.Seconds()))
	for _, act := range relay.Acts {
		says = append(says, fmt.Sprintf("`%s`", act))
	}
	for _, words := range says {
		if !bytes.Contains(text, []byte(words)) {
			t.Errorf("PROTOCOL.md does not say %q", words)
		}
	}
}
