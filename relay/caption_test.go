package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

func onAir(s *relaytest.Stage) string {
	if c := s.Show.OnAir.Caption; c != nil {
		return c.Text
	}
	return ""
}

// TestCaption: a sentence goes on the air, gives way to another, leaves by hand, and by
// itself when its time is over.
func TestCaption(t *testing.T) {
	s, key := silentHall(t)
	own := relay.AtPanel{Who: "Ada", Act: relay.PanelAir, Text: "Back after the break."}
	if got := s.AtPanel(own); got != "" || onAir(s) != own.Text {
		t.Fatalf("%q, on the air is %q", got, onAir(s))
	}
	s.AtPanel(does("Ben", relay.PanelAir, key))
	if c := s.Show.OnAir.Caption; c == nil || c.Key != key || c.Text != s.Show.Said.Items[0].Text || c.By != "Ben" {
		t.Fatalf("%+v", c)
	}
	if got := s.AtPanel(relay.AtPanel{Who: "Ada", Act: relay.PanelOff}); got != "" || onAir(s) != "" {
		t.Fatalf("taken off: %q, on the air is %q", got, onAir(s))
	}
	s.AtPanel(own)
	rev := s.Show.OnAir.Rev
	s.Wait(19 * time.Second)
	if onAir(s) == "" {
		t.Error("it left before its 20 seconds")
	}
	s.Wait(time.Second)
	if onAir(s) != "" || s.Show.OnAir.Rev != rev+1 {
		t.Errorf("after 20 seconds %q is on the air, revision %d after %d", onAir(s), s.Show.OnAir.Rev, rev)
	}
}

// TestCaptionStopsBeingTrue: a sentence that is no longer true leaves the air at once, but
// not before it could be read; one that is not true does not get there.
func TestCaptionStopsBeingTrue(t *testing.T) {
	s, key := silentHall(t)
	s.AtPanel(does("Ada", relay.PanelAir, key))
	s.Same(3 * time.Second)
	if s.Show.Said.Items[0].Withdrawn.IsZero() || onAir(s) == "" {
		t.Fatalf("withdrawn %v, on the air %q: want it withdrawn, and still to be read", s.Show.Said.Items[0].Withdrawn, onAir(s))
	}
	s.Same(time.Second)
	if onAir(s) != "" {
		t.Errorf("%q is on the air four seconds after it was put there, and not true", onAir(s))
	}
	if got := s.AtPanel(does("Ada", relay.PanelAir, key)); !strings.Contains(got, "no longer true") {
		t.Errorf("put back: %q", got)
	}
}

// TestCaptionStays: without a time it stays until somebody takes it off.
func TestCaptionStays(t *testing.T) {
	s := relaytest.NewStage()
	s.AtPanel(relay.AtPanel{Who: "Ada", Act: relay.PanelAir, Text: "Welcome."})
	s.Wait(time.Hour)
	if onAir(s) != "Welcome." {
		t.Errorf("after an hour %q is on the air", onAir(s))
	}
}
