package overlay

import (
	"bytes"
	"log/slog"
	"strings"
	"testing"
)

// TestStrangersDoNotFillTheLog: what a door refuses is logged for who looks for faults only;
// what becomes of an entry is logged.
func TestStrangersDoNotFillTheLog(t *testing.T) {
	var log bytes.Buffer
	inHallOf(t, func(h *hall, o *Options) {
		withToken(h, o)
		o.Log = slog.New(slog.NewTextHandler(&log, nil)) // from Info
	}, func(t *testing.T, h *hall) {
		for range 3 {
			for _, path := range []string{"/by-hand", "/at-panel", "/api/actions/to-live", "/api/access/panel"} {
				h.postTo(path, strings.NewReader(goodMove), nil)
				h.postTo(path, strings.NewReader(goodMove), header("Authorization", "Bearer wrong"))
			}
		}
		if log.Len() > 0 {
			t.Errorf("strangers have written:\n%s", &log)
		}
		h.post(strings.NewReader("null"), header("Authorization", "Bearer "+goodToken))
		if got := log.String(); strings.Count(got, "entry refused") != 1 || !strings.Contains(got, "there is no act") {
			t.Errorf("an entry that is refused: %q", got)
		}
	})
}
