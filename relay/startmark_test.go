package relay

import (
	"fmt"
	"slices"
	"testing"
	"time"
)

func TestStartMarks(t *testing.T) {
	show := NewShow(Plan{}, noon)
	n := 0
	mark := func(e ByHand) string {
		n++
		e.At, e.ID, e.Act = show.At.Add(time.Second), fmt.Sprint("m-", n), ActRecording
		show = show.After(e)
		entered, _ := show.Entry(e.ID)
		return entered.Refused
	}
	for _, e := range []ByHand{
		{Timecode: "1:00:00:00"}, {Timecode: "24:00:00:00"}, {Timecode: "10:00:00"}, {Timecode: "10:00:00:00\n"}, {Text: "Air"},
		{Mark: noon.Add(-25 * time.Hour)}, {Mark: noon.Add(25 * time.Hour)},
	} {
		if mark(e) == "" {
			t.Errorf("%+v was taken", e)
		}
	}
	now := show.At.Add(time.Second)
	for _, e := range []ByHand{
		{Board: 4}, {Mark: noon.Add(-time.Hour), Timecode: "10:00:00:00"}, {Mark: noon.Add(-time.Hour), Timecode: "09:00:00:00"},
		{Mark: noon.Add(-time.Hour), Text: "air", Timecode: "09:59:00;02"},
	} {
		if refused := mark(e); refused != "" {
			t.Errorf("%+v: %s", e, refused)
		}
	}
	want := []StartMark{{At: noon.Add(-time.Hour), Timecode: "09:00:00:00"}, {At: noon.Add(-time.Hour), Timecode: "09:59:00;02", Group: "air"}, {At: now}}
	if !slices.Equal(show.Recordings, want) {
		t.Errorf("%+v, want %+v", show.Recordings, want)
	}
	if note := show.Log.After(show.Log.Total - 1)[0]; note.Kind != NoteByHand || note.Board != 0 || note.Text != "the recording of air began at 11:00:00.000 UTC, timecode 09:59:00;02" {
		t.Errorf("the log says %+v", note)
	}
	for len(show.Recordings) < startMarksMost {
		if refused := mark(ByHand{}); refused != "" {
			t.Fatalf("%d are marked: %s", len(show.Recordings), refused)
		}
	}
	if mark(ByHand{}) == "" {
		t.Errorf("%d marks and one more were taken", startMarksMost)
	}
}
