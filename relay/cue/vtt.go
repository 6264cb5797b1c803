package cue

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode"
)

// WriteVTT writes chapters as WebVTT (W3C): plain text with character references, one cue
// after the other. The error names a chapter that is none: one that ends before it begins,
// begins before the one before it, or overlaps it in part.
func WriteVTT(w io.Writer, title string, chapters []Chapter) error {
	if err := checkChapters(chapters); err != nil {
		return err
	}
	out := bufio.NewWriter(w)
	out.WriteString("WEBVTT")
	if title = escaped(title); title != "" {
		out.WriteString(" " + title)
	}
	out.WriteString("\n")
	for i, c := range chapters {
		text := escaped(c.Title)
		if text == "" {
			text = "–"
		}
		fmt.Fprintf(out, "\n%d\n%s --> %s\n%s\n", i+1, stamp(c.Start), stamp(c.End), text)
	}
	return out.Flush()
}

// checkChapters wants chapters one after the other, or one inside the other.
func checkChapters(chapters []Chapter) error {
	var open []Chapter // that may have others inside
	for i, c := range chapters {
		if c.Start < 0 || c.End.Milliseconds() <= c.Start.Milliseconds() {
			return fmt.Errorf("chapter %d, %.40q, lasts from %v to %v", i+1, c.Title, c.Start, c.End)
		}
		if i > 0 && c.Start < chapters[i-1].Start {
			return fmt.Errorf("chapter %d, %.40q, begins before the one before it", i+1, c.Title)
		}
		for len(open) > 0 && open[len(open)-1].End <= c.Start {
			open = open[:len(open)-1]
		}
		if len(open) > 0 && c.End > open[len(open)-1].End {
			return fmt.Errorf("chapter %d, %.40q, overlaps %.40q in part", i+1, c.Title, open[len(open)-1].Title)
		}
		open = append(open, c)
	}
	return nil
}

// stamp writes a time as WebVTT does, with its hours.
func stamp(d time.Duration) string {
	ms := d.Milliseconds()
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3_600_000, ms/60_000%60, ms/1000%60, ms%1000)
}

var references = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// escaped returns a text on one line as the payload of a WebVTT cue has it. With > written
// as a reference it cannot have the arrow of a timing line.
func escaped(text string) string { return references.Replace(oneLine(text)) }

// oneLine returns a text without line ends and other control characters, in whole
// characters, with single spaces.
func oneLine(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "�"))
	return strings.Join(strings.Fields(text), " ")
}
