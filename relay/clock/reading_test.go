package clock

import (
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
)

// Form h:mm:ss from the PGN supplement (draft 2001), its samples among them;
// fractions and m:ss are what feeds add (common practice, no source).
func TestParseReading(t *testing.T) {
	tests := []struct {
		text string
		want time.Duration
	}{
		{"1:59:01", 7141 * sec}, {"0:00:07", 7 * sec}, {"1:45:12", 6312 * sec}, {"0:20:00", 1200 * sec},
		{"01:00:00", 3600 * sec}, {"100:00:00", 360000 * sec}, {"9:58", 598 * sec}, {"125:00", 7500 * sec},
		{" 0:00:09.5 ", 9500 * time.Millisecond}, {"0:00:00.125", 125 * time.Millisecond},
		{"0:01.0000000019", sec + time.Nanosecond},
	}
	for _, tt := range tests {
		if got, err := ParseReading(tt.text); got != tt.want || err != nil {
			t.Errorf("ParseReading(%q) = %v, %v; want %v", tt.text, got, err, tt.want)
		}
	}
}

func TestParseReadingErrors(t *testing.T) {
	tests := []struct{ text, names string }{
		{"", "h:mm:ss"}, {"58", "h:mm:ss"}, {"1:2:3:4", "h:mm:ss"}, {"-0:00:05", "negative"},
		{"0:60:00", "field 2"}, {"0:00:60", "field 3"}, {"0:5", "field 2"}, {"0:+5", "field 2"},
		{"x:00:00", "field 1"}, {":05", "field 1"}, {"0:00:05.", "fraction"}, {"0:00:05.x", "fraction"},
		{"99999999999:00:00", "field 1"},
	}
	for _, tt := range tests {
		got, err := ParseReading(tt.text)
		if err == nil || got != 0 || !strings.Contains(err.Error(), tt.names) {
			t.Errorf("ParseReading(%q) = %v, %v; want an error naming %q", tt.text, got, err, tt.names)
		}
	}
}

// readingForm is the form of a reading as a pattern, made apart from the parser.
var readingForm = regexp.MustCompile(`^([0-9]+):(?:([0-5][0-9]):)?([0-5][0-9])(?:\.([0-9]+))?$`)

// byForm reads a reading by its form.
func byForm(text string) (time.Duration, bool) {
	m := readingForm.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return 0, false
	}
	first, err := strconv.ParseUint(m[1], 10, 64)
	if err != nil || first > maxHours {
		return 0, false
	}
	form := "0h" + m[1] + "m" + m[3]
	if m[2] != "" {
		form = m[1] + "h" + m[2] + "m" + m[3]
	}
	if m[4] != "" {
		form += "." + m[4][:min(len(m[4]), 9)]
	}
	d, err := time.ParseDuration(form + "s")
	return d, err == nil
}

// FuzzParseReading holds the parser to the form, and what is written of a reading to
// what was read.
func FuzzParseReading(f *testing.F) {
	f.Fuzz(func(t *testing.T, text string) {
		d, err := ParseReading(text)
		if want, ok := byForm(text); d != want || (err == nil) != ok {
			t.Fatalf("ParseReading(%q) = %v, %v, want %v, %v", text, d, err, want, ok)
		}
		if err != nil {
			return
		}
		again, err := ParseReading(Format(d))
		if err != nil || again != d.Truncate(sec) {
			t.Fatalf("%q: Format %q reads as %v, %v", text, Format(d), again, err)
		}
	})
}

func TestFormat(t *testing.T) {
	tests := []struct {
		d    time.Duration
		want string
	}{
		{598 * sec, "9:58"}, {3723 * sec, "1:02:03"}, {0, "0:00"}, {-5 * sec, "0:00"},
		{59*sec + 999*time.Millisecond, "0:59"}, {3600 * sec, "1:00:00"}, {25 * time.Hour, "25:00:00"},
	}
	for _, tt := range tests {
		if got := Format(tt.d); got != tt.want {
			t.Errorf("Format(%v) = %q, want %q", tt.d, got, tt.want)
		}
	}
}
