package cue

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
)

// nasty are names and notes as they may come from outside.
var nasty = []string{
	"Tveiterås, Håkon", `a "quoted" one, with comma`, "line\r\nend\n\nblank", "00:01 --> 00:02 & <b>bold</b>", "=1+1", "+49", "-1", "@SUM(A1)",
	"\t=2", "＝1", "\xff\xfe broken", "", "NOTE x", "WEBVTT", "&amp;", "日本語 ♞", "M2 AX 000.0 01:00:00:00", "a\u2028b", strings.Repeat("long ", 100),
}

// nastyLog is a show of two hours with a cue every few seconds, some of them at one instant.
func nastyLog(cues int) *Log {
	l := &Log{Title: "A & B <Cup> --> ", Language: "en", Began: noon, Ended: noon.Add(2 * time.Hour)}
	kinds := []Kind{KindSegment, "novelty", KindResult, KindSaid, KindLine, "pace"}
	for i := range cues {
		text := nasty[i%len(nasty)]
		l.Cues = append(l.Cues, Cue{
			At: noon.Add((time.Duration(i) * 2 * time.Hour / time.Duration(cues)).Truncate(700 * time.Millisecond)), Board: i % 3, White: text, Black: nasty[(i+5)%len(nasty)],
			Kind: kinds[i%len(kinds)], Title: text, Text: text, Evidence: nasty[(i+1)%len(nasty)], OnAir: i%2 == 0,
		})
	}
	return l
}

func tapes(t *testing.T, l *Log, rate, group string, marks ...relay.StartMark) []Tape {
	t.Helper()
	r, err := RateOf(rate)
	if err != nil {
		t.Fatal(err)
	}
	out, err := l.Tapes(r, group, marks)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

type readVTT struct {
	Errors []string
	Cues   []struct {
		ID         string
		Start, End float64
		Text       string
	}
}

// chapterFault says what keeps cues from being chapters, by the rule of WebVTT's section on
// chapters: two of them either do not touch or one lies in the other. The W3C's reader
// leaves that to others.
func (r readVTT) chapterFault() string {
	for i, a := range r.Cues {
		for _, b := range r.Cues[i+1:] {
			apart := a.End <= b.Start || b.End <= a.Start
			within := a.Start <= b.Start && b.End <= a.End || b.Start <= a.Start && a.End <= b.End
			if !apart && !within {
				return fmt.Sprintf("%v overlaps %v in part", a, b)
			}
		}
	}
	return ""
}

// TestChaptersRead: the W3C's own reader finds no fault in what is written, whatever names
// there are, and reads the titles and times back.
func TestChaptersRead(t *testing.T) {
	l := nastyLog(900)
	tape := tapes(t, l, "25", "")[0]
	chapters := tape.Chapters(l.Cues, l.Title, 30*time.Second)
	var text bytes.Buffer
	if err := WriteVTT(&text, l.Title, chapters); err != nil {
		t.Fatal(err)
	}
	var read readVTT
	readBy(t, "vtt", text.String(), &read)
	if len(read.Errors) > 0 || len(read.Cues) != len(chapters) || len(chapters) < 10 {
		t.Fatalf("%d chapters, read %d; faults %q", len(chapters), len(read.Cues), read.Errors)
	}
	if fault := read.chapterFault(); fault != "" {
		t.Error(fault)
	}
	for i, c := range chapters {
		want := oneLine(c.Title)
		if want == "" {
			want = "–"
		}
		got := read.Cues[i]
		if html.UnescapeString(got.Text) != want || math.Abs(got.Start-c.Start.Seconds()) > .0005 || math.Abs(got.End-c.End.Seconds()) > .0005 {
			t.Errorf("chapter %d is read as %+v, want %+v", i+1, got, c)
		}
		if i > 0 && (c.Start-chapters[i-1].Start < 30*time.Second || c.Start != chapters[i-1].End) {
			t.Errorf("chapter %d begins at %v, %v after the one before, which ends at %v", i+1, c.Start, c.Start-chapters[i-1].Start, chapters[i-1].End)
		}
	}
}

// TestStandardsExamples: of the W3C's text on chapters, the intervals of its valid example
// are written, those of the invalid one refused; so are others that the rules exclude.
func TestStandardsExamples(t *testing.T) {
	ms := time.Millisecond
	valid := []Chapter{{0, 10700 * ms, "a"}, {10700 * ms, 47600 * ms, "b"}}
	var text bytes.Buffer
	if err := WriteVTT(&text, "", valid); err != nil || !strings.Contains(text.String(), "00:00:00.000 --> 00:00:10.700\na\n\n2\n00:00:10.700 --> 00:00:47.600\nb\n") {
		t.Errorf("%v: %q", err, text.String())
	}
	if err := WriteVTT(&text, "", []Chapter{{0, time.Minute, "a"}, {0, 20 * time.Second, "b"}, {30 * time.Second, time.Minute, "c"}}); err != nil {
		t.Errorf("chapters in a chapter: %v", err)
	}
	for name, chapters := range map[string][]Chapter{
		"overlaps":    {{0, time.Minute, "a"}, {30 * time.Second, 90 * time.Second, "b"}},
		"begins":      {{time.Minute, 2 * time.Minute, "a"}, {0, time.Second, "b"}},
		"lasts from":  {{time.Second, time.Second, "a"}},
		"lasts from ": {{-time.Second, time.Second, "a"}},
		"lasts":       {{time.Second, time.Second + time.Microsecond, "a"}},
	} {
		text.Reset()
		if err := WriteVTT(&text, "", chapters); err == nil || !strings.Contains(err.Error(), strings.TrimSpace(name)) || text.Len() > 0 {
			t.Errorf("%v: %v, %q", chapters, err, text.String())
		}
	}
	var read readVTT
	readBy(t, "vtt", "WEBVTT\n\n00:00.000 --> 01:00.000\nA\n\n00:30.000 --> 01:30.000\nB\n", &read)
	if read.chapterFault() == "" {
		t.Errorf("the standard's invalid example is read without a fault: %+v", read)
	}
}

// TestCueListRead: another reader, csv-parse of npm, gets every cell back, and none of them
// begins as a formula does.
func TestCueListRead(t *testing.T) {
	l := nastyLog(200)
	tape := tapes(t, l, "50", "")[0]
	var text bytes.Buffer
	if err := tape.WriteCSV(&text, l, time.FixedZone("", 3600)); err != nil {
		t.Fatal(err)
	}
	var rows [][]string
	readBy(t, "csv", text.String(), &rows)
	if len(rows) != 201 || len(rows[0]) != 9 || rows[0][0] != "timecode" || rows[0][8] != "evidence" {
		t.Fatalf("%d rows, the first %q", len(rows), rows[0])
	}
	for i, row := range rows[1:] {
		c := l.Cues[i]
		if row[6] != string(c.Kind) || strings.TrimPrefix(row[7], "'") != oneLine(c.Text) || strings.TrimPrefix(row[4], "'") != oneLine(c.White) {
			t.Errorf("row %d is %q, want %+v", i+1, row, c)
		}
		for _, cell := range row {
			if cell != "" && strings.ContainsAny(cell[:1], "=+-@\t\r") || strings.HasPrefix(cell, "＝") {
				t.Errorf("row %d: the cell %q is a formula to some", i+1, cell)
			}
		}
	}
	if row := rows[1]; row[1] != "2026-10-17T13:00:00.000+01:00" || row[2] != "0:00:00.000" || row[0] != "00:00:00:00" || row[3] != "" {
		t.Errorf("the first cue is %q", row)
	}
}
