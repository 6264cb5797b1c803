package cue

import (
	"fmt"
	"math/big"
	"strings"
	"testing"
	"time"
)

func rate(t *testing.T, name string) Rate {
	t.Helper()
	r, err := RateOf(name)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestDropFrameTable: numbers and labels of 30000/1001 drop-frame, computed from the rule
// of SMPTE ST 12-1 as several public descriptions give it; the day has 2,589,408 frames.
// At 60000/1001 four numbers are left out a minute, so the table holds with both doubled.
func TestDropFrameTable(t *testing.T) {
	thirty, sixty := rate(t, "29.97"), rate(t, "59.94")
	for _, row := range []struct {
		n     int64
		label string
	}{
		{0, "00:00:00;00"}, {1799, "00:00:59;29"}, {1800, "00:01:00;02"}, {3597, "00:01:59;29"}, {3598, "00:02:00;02"},
		{17981, "00:09:59;29"}, {17982, "00:10:00;00"}, {107892, "01:00:00;00"}, {116884, "01:05:00;02"},
		{2589407, "23:59:59;29"}, {2589408, "00:00:00;00"}, {-1, "23:59:59;29"},
	} {
		if got := thirty.Label(row.n); got != row.label {
			t.Errorf("frame %d is %s, want %s", row.n, got, row.label)
		}
		if n, err := thirty.Parse(row.label); err != nil || (n-row.n)%2589408 != 0 {
			t.Errorf("%s is frame %d, %v, want %d", row.label, n, err, row.n)
		}
		frames := number(row.label[9:])
		doubled := fmt.Sprintf("%s%02d", row.label[:9], 2*frames)
		if got := sixty.Label(2 * row.n); got != doubled {
			t.Errorf("59.94: frame %d is %s, want %s", 2*row.n, got, doubled)
		}
	}
	if thirty.Day() != 2589408 || sixty.Day() != 2*2589408 {
		t.Errorf("days of %d and %d frames", thirty.Day(), sixty.Day())
	}
}

// TestHours: how long an hour of labels lasts. 3599.9964 s drop-frame, 3603.6 s without,
// by arithmetic from 30000/1001.
func TestHours(t *testing.T) {
	for name, want := range map[string]time.Duration{
		"29.97": 3599996400 * time.Microsecond, "59.94": 3599996400 * time.Microsecond,
		"29.97-nondrop": 3603600 * time.Millisecond, "59.94-nondrop": 3603600 * time.Millisecond, "23.976": 3603600 * time.Millisecond,
		"24": time.Hour, "25": time.Hour, "30": time.Hour, "50": time.Hour, "60": time.Hour,
	} {
		r := rate(t, name)
		n, err := r.Parse("01:00:00:00")
		if got := r.Time(n); err != nil || got != want {
			t.Errorf("%s: an hour of labels lasts %v, %v, want %v", name, got, err, want)
		}
	}
}

// TestWholeDay goes through the frames of a day at every rate, in steps that come to every
// number at many minutes: each label is later than
// the one before, is read back as the same frame, and none is written that drop-frame
// leaves out. The time of a frame is the first one that gives it.
func TestWholeDay(t *testing.T) {
	for _, r := range Rates {
		step := int64(101) // coprime to every base
		if r.Drop() {
			step = 19
		}
		before := ""
		for n := int64(0); n < r.Day(); n += step {
			text := r.Label(n)
			if text <= before {
				t.Fatalf("%s: frame %d is %s, after %s", r.Name, n, text, before)
			}
			before = text
			if back, err := r.Parse(text); err != nil || back != n {
				t.Fatalf("%s: %s of frame %d is read as %d, %v", r.Name, text, n, back, err)
			}
			if at := r.Time(n); r.Frames(at) != n || n > 0 && r.Frames(at-1) != n-1 {
				t.Fatalf("%s: frame %d begins at %v, which is frame %d, after frame %d", r.Name, n, at, r.Frames(at), r.Frames(at-1))
			}
		}
		if r.Label(r.Day()) != r.Label(0) || r.Label(r.Day() - 1)[:8] != "23:59:59" {
			t.Errorf("%s: the day of %d frames ends with %s and goes on with %s", r.Name, r.Day(), r.Label(r.Day()-1), r.Label(r.Day()))
		}
	}
}

// TestFramesAgainstFractions: the same as arithmetic on fractions gives, by math/big.
func TestFramesAgainstFractions(t *testing.T) {
	for _, r := range Rates {
		for _, d := range []time.Duration{0, 1, time.Second, 33366666, 33366667, time.Hour + 7, 86399913600 * time.Microsecond, 1000*time.Hour + 123456789, -1, -time.Second, -33366667} {
			exact := new(big.Rat).Mul(big.NewRat(int64(d), int64(time.Second)), big.NewRat(r.Num, r.Den))
			want := new(big.Int).Div(exact.Num(), exact.Denom()) // the floor, as the denominator is positive
			if got := r.Frames(d); want.Cmp(big.NewInt(got)) != 0 {
				t.Errorf("%s: %v is frame %d, want %v", r.Name, d, got, want)
			}
		}
	}
}

func TestNoTimecode(t *testing.T) {
	for _, test := range []struct{ rate, text, want string }{
		{"29.97", "00:01:00;00", "leaves it out"}, {"29.97", "00:01:00;01", "leaves it out"}, {"59.94", "00:59:00;03", "leaves it out"},
		{"25", "00:00:00:25", "frames 00 to 24"}, {"25", "00:00:00;00", "is drop-frame"}, {"25", "24:00:00:00", "no timecode"},
		{"25", "00:60:00:00", "no timecode"}, {"25", "1:00:00:00", "no timecode"}, {"25", "", "no timecode"}, {"25", "00:00:00:00\n", "no timecode"},
	} {
		if n, err := rate(t, test.rate).Parse(test.text); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s at %s is frame %d, %v; want an error with %q", test.text, test.rate, n, err, test.want)
		}
	}
	if n, err := rate(t, "29.97").Parse("00:10:00;01"); err != nil || n != 17983 {
		t.Errorf("00:10:00;01 is %d, %v, want 17983", n, err)
	}
	if _, err := RateOf("26"); err == nil || !strings.Contains(err.Error(), "59.94-nondrop") {
		t.Errorf("a rate of 26: %v", err)
	}
}
