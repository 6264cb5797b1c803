package relay

import (
	"fmt"
	"testing"
	"time"
)

func TestQuiet(t *testing.T) {
	show := NewShow(Plan{}, noon)
	for i, test := range []struct {
		text    string
		quiet   bool
		changed bool
		refused string
	}{
		{"off", false, false, ""}, {"on", true, true, ""}, {"on", true, false, ""}, {"loud", true, false, `quiet is on or off, not "loud"`},
		{"", true, false, `quiet is on or off, not ""`}, {"off", false, true, ""},
	} {
		was, id := show.HeadRev, fmt.Sprint("q-", i)
		show = show.After(ByHand{At: show.At.Add(time.Second), ID: id, Board: 9, Act: ActQuiet, Text: test.text})
		entered, known := show.Entry(id)
		if !known || entered.Refused != test.refused || show.Quiet != test.quiet || (show.HeadRev != was) != test.changed {
			t.Errorf("%d: %q gives %+v, quiet %v, revision %d after %d; want %+v", i, test.text, entered, show.Quiet, show.HeadRev, was, test)
		}
		if note := show.Log.After(show.Log.Total - 1)[0]; test.refused == "" && (note.Kind != NoteByHand || note.Board != 0 || note.Text != "quiet mode is "+test.text) {
			t.Errorf("%d: the log says %+v", i, note)
		}
	}
}

// TestQuietIsHeldBack: what is kept for scenes that are held back has it, too.
func TestQuietIsHeldBack(t *testing.T) {
	show := NewShow(Plan{}, noon)
	quiet := show.After(ByHand{At: noon.Add(time.Second), ID: "q", Act: ActQuiet, Text: "on"})
	before, after := show.airedTop(nil, nil).show, quiet.airedTop(nil, nil).show
	if before.Quiet || !after.Quiet || show.Quiet {
		t.Errorf("kept: quiet %v, then %v; the first show itself: %v; want false, true, false", before.Quiet, after.Quiet, show.Quiet)
	}
}
