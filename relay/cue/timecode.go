package cue

import (
	"fmt"
	"math/bits"
	"regexp"
	"strconv"
	"time"
)

// Rate is a frame rate with its way of numbering frames: Num/Den pictures a second,
// labelled by Base numbers a second.
//
// The labels are those of SMPTE ST 12-1, as public descriptions give its rule: HH:MM:SS:FF,
// and with drop-frame HH:MM:SS;FF, where the first numbers of every minute that ten does not
// divide are left out (numbers only, no pictures), so that labels keep up with the time.
type Rate struct {
	Name     string
	Num, Den int64
	Base     int64
	Dropped  int64 // numbers left out a minute; 0: none
}

// Rates lists what recordings have. The rates of 30000/1001 and 60000/1001 are meant with
// drop-frame where nothing else is said, as is usual in broadcasting.
var Rates = []Rate{
	{"23.976", 24000, 1001, 24, 0}, {"24", 24, 1, 24, 0}, {"25", 25, 1, 25, 0},
	{"29.97", 30000, 1001, 30, 2}, {"29.97-nondrop", 30000, 1001, 30, 0}, {"30", 30, 1, 30, 0},
	{"50", 50, 1, 50, 0}, {"59.94", 60000, 1001, 60, 4}, {"59.94-nondrop", 60000, 1001, 60, 0}, {"60", 60, 1, 60, 0},
}

// RateOf returns the rate of that name.
func RateOf(name string) (Rate, error) {
	names := ""
	for _, r := range Rates {
		if r.Name == name {
			return r, nil
		}
		names += ", " + r.Name
	}
	return Rate{}, fmt.Errorf("%.20q is no frame rate; there are %s", name, names[2:])
}

// Drop reports drop-frame labels.
func (r Rate) Drop() bool { return r.Dropped > 0 }

// Day is the number of frames after which labels begin again at 00:00:00:00. With
// 30000/1001 and 60000/1001 that is not quite 24 hours: drop-frame's day lasts
// 86,399.9136 s, the other one's 86,486.4 s.
func (r Rate) Day() int64 { return 24*60*r.minute() + 24*6*r.Dropped }

// minute is the number of frames of a minute that leaves numbers out.
func (r Rate) minute() int64 { return 60*r.Base - r.Dropped }

// Frames returns the number of the picture on screen so long after the first one, which
// has the number 0. It is not bounded by a day.
func (r Rate) Frames(after time.Duration) int64 {
	n, rest := mulDiv(int64(after.Abs()), r.Num, r.Den*int64(time.Second))
	if after >= 0 {
		return n
	}
	if rest > 0 {
		n++
	}
	return -n
}

// Time returns when a picture begins: the shortest time after which Frames gives it.
func (r Rate) Time(frame int64) time.Duration {
	if frame < 0 {
		d, _ := mulDiv(-frame, r.Den*int64(time.Second), r.Num)
		return -time.Duration(d)
	}
	d, rest := mulDiv(frame, r.Den*int64(time.Second), r.Num)
	if rest > 0 {
		d++
	}
	return time.Duration(d)
}

// mulDiv returns a*b/c and the rest, exactly, of numbers that are not negative.
func mulDiv(a, b, c int64) (quotient, rest int64) {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	q, r := bits.Div64(hi, lo, uint64(c))
	return int64(q), int64(r)
}

// Label returns the timecode of a picture. After a day labels begin again: the picture
// Day has that of picture 0, and the one before 0 the day's last.
func (r Rate) Label(frame int64) string {
	n := (frame%r.Day() + r.Day()) % r.Day()
	if r.Drop() {
		ten := 10*r.minute() + r.Dropped
		d, m := n/ten, n%ten
		n += 9 * r.Dropped * d
		if m >= r.Dropped {
			n += r.Dropped * ((m - r.Dropped) / r.minute())
		}
	}
	sign := ":"
	if r.Drop() {
		sign = ";"
	}
	s := n / r.Base
	return fmt.Sprintf("%02d:%02d:%02d%s%02d", s/3600, s/60%60, s%60, sign, n%r.Base)
}

var label = regexp.MustCompile(`^([01][0-9]|2[0-3]):([0-5][0-9]):([0-5][0-9])([:;])([0-5][0-9])$`)

// Parse returns the picture of the first day that has that timecode. Drop-frame is also
// read where it is written with a colon throughout; the other way round it is refused.
func (r Rate) Parse(text string) (int64, error) {
	parts := label.FindStringSubmatch(text)
	if parts == nil {
		return 0, fmt.Errorf("%.20q is no timecode; one is written 01:00:00:00", text)
	}
	h, m, s, f := number(parts[1]), number(parts[2]), number(parts[3]), number(parts[5])
	minutes := 60*h + m
	switch {
	case f >= r.Base:
		return 0, fmt.Errorf("timecode %s: there are the frames 00 to %02d at %s a second", text, r.Base-1, r.Name)
	case parts[4] == ";" && !r.Drop():
		return 0, fmt.Errorf("timecode %s is drop-frame, which %s is not", text, r.Name)
	case s == 0 && f < r.Dropped && m%10 != 0:
		return 0, fmt.Errorf("timecode %s does not exist: drop-frame leaves it out", text)
	}
	return r.Base*(60*minutes+s) + f - r.Dropped*(minutes-minutes/10), nil
}

func number(digits string) int64 {
	n, _ := strconv.ParseInt(digits, 10, 64) // the expression lets nothing else through
	return n
}
