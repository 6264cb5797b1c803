package cue

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"clocktell/relay"
)

// event is one of a cut list as a program reads it.
type event struct {
	number                       int
	reel, track, cut             string
	sourceIn, sourceOut, in, out int64
	notes                        []string
}

var (
	edlEvent = regexp.MustCompile(`^(\d{3})  ([A-Z0-9]{1,8}) +(V|A|A2|AA|B|AA/V) +(C) +(\S{11}) (\S{11}) (\S{11}) (\S{11})$`)
	edlHead  = regexp.MustCompile(`^TITLE: .{1,70}$`)
)

// readEDL reads a cut list by the grammar of the plain form: a title, the way of numbering
// frames, then events of eight fields with notes behind them. No registry that was looked
// into serves a reader of it that others wrote, so this one is the test's own, made from a
// description of the form and not from what writes it.
func readEDL(t *testing.T, text string, r Rate) []event {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(text, "\r\n"), "\r\n")
	fcm := map[bool]string{true: "FCM: DROP FRAME", false: "FCM: NON-DROP FRAME"}[r.Drop()]
	if len(lines) < 4 || !edlHead.MatchString(lines[0]) || lines[1] != fcm {
		t.Fatalf("the list begins with %.300q", text)
	}
	var out []event
	for _, line := range lines[2:] {
		fields := edlEvent.FindStringSubmatch(line)
		switch {
		case line == "":
		case fields != nil:
			e := event{reel: fields[2], track: fields[3], cut: fields[4]}
			fmt.Sscan(strings.TrimLeft(fields[1], "0"), &e.number)
			for i, into := range []*int64{&e.sourceIn, &e.sourceOut, &e.in, &e.out} {
				n, err := r.Parse(fields[5+i])
				if err != nil {
					t.Fatalf("%q: %v", line, err)
				}
				*into = n
			}
			out = append(out, e)
		case strings.HasPrefix(line, "* ") && utf8.RuneCountInString(line) < edlNoteMost+40 && len(out) > 0 && !strings.ContainsAny(line, "\r\n"):
			out[len(out)-1].notes = append(out[len(out)-1].notes, line[2:])
		default:
			t.Fatalf("no line of a cut list: %q", line)
		}
	}
	return out
}

// checkEvents wants events in order, numbered, without gaps, as long in the source as in
// the record, with a locator each.
func checkEvents(t *testing.T, events []event) {
	t.Helper()
	for i, e := range events {
		if e.number != i+1 || e.out <= e.in || e.sourceIn != e.in || e.sourceOut != e.out || i > 0 && e.in != events[i-1].out {
			t.Fatalf("event %d is %+v, after %+v", i+1, e, events[max(0, i-1)])
		}
		if len(e.notes) < 2 || !strings.HasPrefix(e.notes[0], "FROM CLIP NAME: ") || !strings.HasPrefix(e.notes[1], "LOC: ") {
			t.Fatalf("event %d has the notes %q", i+1, e.notes)
		}
	}
}

// TestCutLists: 2,500 cues, some at one picture, make lists of 999 events at the most, in
// which every cue is found at its picture.
func TestCutLists(t *testing.T) {
	l := nastyLog(2500)
	l.Cues[7].At = l.Cues[6].At
	for _, r := range Rates {
		tape := tapes(t, l, r.Name, "", relay.StartMark{At: noon, Timecode: "10:00:00:00"})[0]
		lists := tape.EDL(l.Title, "cam 1 / left side", l.Cues)
		events, locators := 0, 0
		for i, text := range lists {
			list := readEDL(t, text, r)
			checkEvents(t, list)
			if n := len(list); n > edlEventsMost || i < len(lists)-1 && n != edlEventsMost || list[0].reel != "CAM1LEFT" {
				t.Errorf("%s: list %d has %d events of the reel %s", r.Name, i+1, n, list[0].reel)
			}
			for _, e := range list {
				events++
				locators += strings.Count(strings.Join(e.notes, "\n"), "LOC: ")
			}
		}
		if len(lists) != 3 || locators != len(l.Cues) || events >= len(l.Cues) {
			t.Errorf("%s: %d lists, %d events, %d locators of %d cues", r.Name, len(lists), events, locators, len(l.Cues))
		}
	}
}

// TestCutListOverMidnight: labels begin again after a day; a list does not go beyond it.
func TestCutListOverMidnight(t *testing.T) {
	l := nastyLog(60)
	for _, name := range []string{"25", "29.97"} {
		tape := tapes(t, l, name, "", relay.StartMark{At: noon, Timecode: "23:00:00:00"})[0]
		lists := tape.EDL(strings.Repeat("late ", 40), "", l.Cues)
		if len(lists) != 2 {
			t.Fatalf("%s: %d lists, want 2", name, len(lists))
		}
		first, second := readEDL(t, lists[0], tape.Rate), readEDL(t, lists[1], tape.Rate)
		checkEvents(t, first)
		checkEvents(t, second)
		if last := first[len(first)-1]; last.out != tape.Rate.Day()-1 || second[0].in > 60*tape.Rate.Base*3 || first[0].reel != "AX" {
			t.Errorf("%s: the day ends with %+v, the next begins with %+v", name, last, second[0])
		}
	}
}

// TestCut: what is too long for its place ends with an ellipsis, within it.
func TestCut(t *testing.T) {
	for text, want := range map[string]string{"": "", "abcdefgh": "abcdefgh", "abcdefghi": "abcdefg…", "ééééééééé": "ééééééé…", "abc  def\nghi": "abc def…"} {
		if got := cut(text, 8); got != want {
			t.Errorf("%q is cut to %q, want %q", text, got, want)
		}
	}
}

func TestReel(t *testing.T) {
	for name, want := range map[string]string{"": "AX", "–": "AX", "air": "AIR", "-air-recording12": "AIRRECOR", "a1": "A1", "Ünit": "NIT"} {
		if got := Reel(name); got != want {
			t.Errorf("%q is the reel %q, want %q", name, got, want)
		}
	}
}
