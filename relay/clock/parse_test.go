package clock

import (
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"
)

const sec = time.Second

// The samples of the PGN standard 1994, 9.6.1, and of its supplement (draft 2001),
// section 8. The standard glosses 4500+60 as 90 minutes; 4500 seconds are 75.
// "40/5400+30:1800+30" is no form of the standard (our extension).
func TestParseControl(t *testing.T) {
	tests := []struct {
		text, words string
		known       bool
		start, inc1 time.Duration
		toControl   int
	}{
		{"?", "", false, 0, 0, 0},
		{"-", "no time limit", false, 0, 0, 0},
		{"40/9000", "40 moves in 150 min", true, 9000 * sec, 0, 40},
		{"300", "5 min", true, 300 * sec, 0, 0},
		{"4500+60", "75 min + 60 s", true, 4500 * sec, 60 * sec, 0},
		{"*180", "hourglass of 3 min", true, 180 * sec, 0, 0},
		{"40/7200:3600", "40 moves in 120 min, then 60 min", true, 7200 * sec, 0, 40},
		{"40/5400+30:1800+30", "40 moves in 90 min + 30 s, then 30 min + 30 s", true, 5400 * sec, 30 * sec, 40},
		{" 600+5 ", "10 min + 5 s", true, 600 * sec, 5 * sec, 0},
		{"600+0", "10 min", true, 600 * sec, 0, 0},
		{"0+3", "0 s + 3 s", true, 0, 3 * sec, 0},
		{"90+1", "90 s + 1 s", true, 90 * sec, 1 * sec, 0},
	}
	for _, tt := range tests {
		c, err := ParseControl(tt.text)
		if err != nil {
			t.Errorf("ParseControl(%q): %v", tt.text, err)
			continue
		}
		if c.String() != tt.words || c.Known() != tt.known {
			t.Errorf("%q: got %q, known %v; want %q, %v", tt.text, c, c.Known(), tt.words, tt.known)
		}
		if c.Start() != tt.start || c.Increment(1) != tt.inc1 || c.MovesToControl(0) != tt.toControl {
			t.Errorf("%q: got start %v, increment %v, %d moves to control; want %v, %v, %d", tt.text,
				c.Start(), c.Increment(1), c.MovesToControl(0), tt.start, tt.inc1, tt.toControl)
		}
	}
}

// Every error must name the field at fault and a way out.
func TestParseControlErrors(t *testing.T) {
	tests := []struct{ text, names, wayOut string }{
		{"", "field 1", `write "?"`},
		{"40/7200:", `field 2 ""`, `write "?"`},
		{"10 min", `"10 min"`, `as in "300"`},
		{"10+5s", `"5s"`, `as in "300"`},
		{"-5", `"-5"`, `as in "300"`},
		{"0/300", `moves "0"`, `as in "40/9000"`},
		{"x/300", `moves "x"`, `as in "40/9000"`},
		{"40/", `seconds ""`, `as in "300"`},
		{"0", `"0"`, "from 1"},
		{"0+0", `"0"`, "from 1"},
		{"*", `seconds ""`, `as in "300"`},
		{"300:300", "field 1", "last field"},
		{"600+5:300", "field 1", "last field"},
		{"99999999999999999999", "field 1", "1000000"},
		{"600+5+5", `"5+5"`, "600+5"},
		{strings.Repeat("1/1:", 40) + "1", "41 fields", "at most 16"},
	}
	for _, tt := range tests {
		c, err := ParseControl(tt.text)
		if err == nil || c.Known() {
			t.Errorf("ParseControl(%q) = %v, %v; want an error and an unknown control", tt.text, c, err)
			continue
		}
		if !strings.Contains(err.Error(), tt.names) || !strings.Contains(err.Error(), tt.wayOut) {
			t.Errorf("ParseControl(%q): error %q should have %q and %q", tt.text, err, tt.names, tt.wayOut)
		}
	}
}

// Worked out by hand from the rule that the last field repeats (PGN 9.6.1).
func TestPeriods(t *testing.T) {
	tests := []struct {
		text       string
		move       int
		inc, bonus time.Duration
		before     int // moves to the control before that move
	}{
		{"40/7200:3600", 39, 0, 0, 2},
		{"40/7200:3600", 40, 0, 3600 * sec, 1},
		{"40/7200:3600", 41, 0, 0, 0},
		{"40/7200:20/3600:900+30", 60, 0, 900 * sec, 1},
		{"40/7200:20/3600:900+30", 61, 30 * sec, 0, 0},
		{"40/9000", 40, 0, 9000 * sec, 1},
		{"40/9000", 41, 0, 0, 40},
		{"40/9000", 80, 0, 9000 * sec, 1},
		{"40/5400+30:1800+10", 40, 30 * sec, 1800 * sec, 1},
		{"40/5400+30:1800+10", 41, 10 * sec, 0, 0},
		{"600+5", 1000, 5 * sec, 0, 0},
		{"600+5", 0, 0, 0, 0},
		{"?", 7, 0, 0, 0},
	}
	for _, tt := range tests {
		c, _ := ParseControl(tt.text)
		if c.Increment(tt.move) != tt.inc || c.Bonus(tt.move) != tt.bonus || c.MovesToControl(tt.move-1) != tt.before {
			t.Errorf("%q move %d: got %v, %v, %d; want %v, %v, %d", tt.text, tt.move,
				c.Increment(tt.move), c.Bonus(tt.move), c.MovesToControl(tt.move-1), tt.inc, tt.bonus, tt.before)
		}
	}
}

// written returns a control as a TimeControl tag (PGN 1994, 9.6.1).
func written(c Control) string {
	var fields []string
	for _, p := range c.Periods {
		base := strconv.FormatInt(int64(p.Base/time.Second), 10)
		switch p.Kind {
		case KindUnknown:
			base = "?"
		case KindNone:
			base = "-"
		case KindSandclock:
			base = "*" + base
		case KindMoves:
			base = strconv.Itoa(p.Moves) + "/" + base
		}
		if p.Kind == KindIncrement || p.Increment > 0 {
			base += "+" + strconv.FormatInt(int64(p.Increment/time.Second), 10)
		}
		fields = append(fields, base)
	}
	return strings.Join(fields, ":")
}

// FuzzParseControl reads any time control: what is refused says so in few words, what
// is taken makes sense at every move and is written and read again.
func FuzzParseControl(f *testing.F) {
	const longestError = 3*(60*4+10) + 200 // three clipped texts, each byte quoted as \x00, and our words
	f.Fuzz(func(t *testing.T, text string) {
		c, err := ParseControl(text)
		if err != nil {
			if c.Known() || len(err.Error()) > longestError {
				t.Fatalf("ParseControl(%q): control %v with error %v", text, c, err)
			}
			return
		}
		if len(c.Periods) == 0 || len(c.Periods) > maxPeriods || c.Start() < 0 {
			t.Fatalf("ParseControl(%q) = %+v", text, c)
		}
		for move := range 200 {
			if c.Increment(move) < 0 || c.Bonus(move) < 0 || c.MovesToControl(move) < 0 || c.MovesToControl(move) > maxMoves {
				t.Fatalf("%q: move %d has increment %v, bonus %v, %d to control", text, move, c.Increment(move), c.Bonus(move), c.MovesToControl(move))
			}
		}
		if again, err := ParseControl(written(c)); err != nil || !reflect.DeepEqual(again, c) {
			t.Fatalf("%q is %+v, but %q is %+v, %v", text, c, written(c), again, err)
		}
		_, _ = c.String(), c.Class()
	})
}
