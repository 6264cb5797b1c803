package overlay

import (
	"testing"
	"time"

	"clocktell/relay"
)

// TestStartMarkRead: the journal gets a time that does not hang on when the entry is read
// again.
func TestStartMarkRead(t *testing.T) {
	at := time.Date(2026, 11, 26, 18, 0, 5, 0, time.UTC)
	for body, want := range map[string]time.Time{
		`{"id":"r1","act":"recording"}`:                                    at,
		`{"id":"r1","act":"recording","mark":"2026-11-26T19:00:00+01:00"}`: at.Add(-5 * time.Second),
		`{"id":"r1","act":"recording","mark":"2026-11-26T18:00:00.25Z"}`:   at.Add(-4750 * time.Millisecond),
	} {
		_, event, err := parseByHand([]byte(body), at)
		if err != nil {
			t.Fatal(err)
		}
		if e := event.(relay.ByHand); !e.Mark.Equal(want) || e.Act != relay.ActRecording {
			t.Errorf("%s: %+v, want the mark at %v", body, e, want)
		}
	}
	for _, mark := range []string{"19:00", "2026-11-26 19:00:00", "now"} {
		if _, _, err := parseByHand([]byte(`{"id":"r1","act":"recording","mark":"`+mark+`"}`), at); err == nil {
			t.Errorf("the mark %q was read", mark)
		}
	}
}
