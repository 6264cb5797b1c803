package cue

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"time"
)

// csvHead names the columns of a cue list.
var csvHead = []string{"timecode", "time of day", "show time", "board", "white", "black", "kind", "text", "evidence"}

// WriteCSV writes the cues of a recording by RFC 4180. The time of day is that of the air,
// in the zone given, and the show's time the time since it began, without any hold. Cells
// that a spreadsheet would take for a formula begin with an apostrophe.
func (t Tape) WriteCSV(w io.Writer, l *Log, zone *time.Location) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	rows := [][]string{csvHead}
	for _, p := range t.Place(l.Cues) {
		board := ""
		if p.Board > 0 {
			board = fmt.Sprint(p.Board)
		}
		rows = append(rows, []string{
			t.Rate.Label(p.Frame), t.Start.Add(p.After).In(zone).Format("2006-01-02T15:04:05.000Z07:00"), sinceText(p.At.Sub(l.Began)),
			board, plain(p.White), plain(p.Black), string(p.Kind), plain(p.Text), plain(p.Evidence),
		})
	}
	return out.WriteAll(rows)
}

// sinceText writes a time since the show began: 1:02:03.400.
func sinceText(d time.Duration) string {
	ms := max(0, d.Milliseconds())
	return fmt.Sprintf("%d:%02d:%02d.%03d", ms/3_600_000, ms/60_000%60, ms/1000%60, ms%1000)
}

// plain returns a text that no spreadsheet takes for a formula: one of these first is what
// does it, also their full-width forms. Common practice, no standard; players' names and
// people's notes come from outside.
func plain(text string) string {
	text = oneLine(text)
	if text != "" && strings.ContainsAny(string([]rune(text)[:1]), "=+-@\t\r＝＋－＠|%") {
		return "'" + text
	}
	return text
}
