package relay

import (
	"fmt"
	"testing"
	"time"
)

func TestHoldCatchesUp(t *testing.T) {
	h := Hold{For: 2 * time.Second, Since: noon, From: 12 * time.Second}
	for _, test := range []struct {
		after, behind time.Duration
		pace          float64
		lasts         time.Duration
	}{
		{-time.Second, 12 * time.Second, 3, 5 * time.Second}, {0, 12 * time.Second, 3, 5 * time.Second},
		{time.Second, 10 * time.Second, 3, 4 * time.Second}, {4 * time.Second, 4 * time.Second, 3, time.Second},
		{5 * time.Second, 2 * time.Second, 1, 0}, {time.Hour, 2 * time.Second, 1, 0},
	} {
		behind, pace, lasts := h.Behind(noon.Add(test.after))
		if behind != test.behind || pace != test.pace || lasts != test.lasts {
			t.Errorf("%v after the change: %v behind, at pace %v for %v, want %+v", test.after, behind, pace, lasts, test)
		}
	}
	longer := Hold{For: 12 * time.Second, Since: noon, From: 2 * time.Second}
	if behind, pace, lasts := longer.Behind(noon); behind != 12*time.Second || pace != 1 || lasts != 0 {
		t.Errorf("a longer hold: %v behind, at pace %v for %v, want 12s at once", behind, pace, lasts)
	}
}

func TestHoldGroups(t *testing.T) {
	show := NewShow(Plan{}, noon)
	set := func(id, group string, by time.Duration) string {
		show = show.After(ByHand{At: show.At.Add(time.Second), ID: id, Act: ActHold, Text: group, For: by, Board: 3})
		entered, _ := show.Entry(id)
		return entered.Refused
	}
	for i, bad := range []string{"", "Air", "9air", "a b", "air!", "-air", "éa", "a123456789012345678901234"} {
		if set(fmt.Sprint("bad-", i), bad, 0) == "" {
			t.Errorf("a group of the name %q was taken", bad)
		}
	}
	for i, by := range []time.Duration{-1, HoldMost + 1} {
		if set(fmt.Sprint("by-", i), "air", by) == "" {
			t.Errorf("a hold of %v was taken", by)
		}
	}
	if len(show.Holds.Groups) != 0 || show.Holds.Rev != 1 {
		t.Fatalf("%+v, want no group", show.Holds)
	}
	for n := range holdGroupsMost {
		if refused := set(fmt.Sprint("g-", n), fmt.Sprint("g", n), HoldMost); refused != "" {
			t.Fatalf("group %d: %s", n, refused)
		}
	}
	if set("one too many", "air", 0) == "" {
		t.Errorf("%d groups and one more were taken", holdGroupsMost)
	}
	if refused := set("another time", "g7", time.Second); refused != "" {
		t.Errorf("a group that there is could not be set again: %s", refused)
	}
	hold, known := show.Holds.Of("g7")
	if want := (Hold{Group: "g7", For: time.Second, Since: show.At, From: HoldMost}); !known || hold != want {
		t.Errorf("%+v, want %+v", hold, want)
	}
	if notes := show.Log.After(show.Log.Total - 1); notes[0].Kind != NoteByHand || notes[0].Board != 0 || notes[0].Text != "group g7 is held back by 1 s" {
		t.Errorf("the log says %+v", notes)
	}
}

func TestParseHold(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"0": 0, "12": 12 * time.Second, "7.5": 7500 * time.Millisecond, "0.001": time.Millisecond, "2.675": 2675 * time.Millisecond, "1800": HoldMost, "1800.000": HoldMost,
	} {
		if got, err := ParseHold(text); err != nil || got != want {
			t.Errorf("%q: %v, %v, want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "-1", "+1", "1e3", "NaN", "Inf", "0x10", "1,5", "1.", ".5", " 1", "1s", "1800.001", "1801", "9999999999", "1.0000001", "١"} {
		if got, err := ParseHold(text); err == nil {
			t.Errorf("%q is taken for %v", text, got)
		}
	}
}
