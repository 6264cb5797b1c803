package match

import (
	"math"
	"testing"
)

// Rows of the table as a published copy of FIDE Rating Regulations B.02, 8.1.2 has them.
func TestExpectedRows(t *testing.T) {
	for _, row := range []band{
		{0, 3, 50, 50}, {4, 10, 51, 49}, {18, 25, 53, 47}, {47, 53, 57, 43}, {69, 76, 60, 40}, {84, 91, 62, 38},
		{92, 98, 63, 37}, {99, 106, 64, 36}, {146, 153, 70, 30}, {198, 206, 76, 24}, {236, 245, 80, 20}, {257, 267, 82, 18},
		{279, 290, 84, 16}, {345, 357, 89, 11}, {358, 374, 90, 10}, {392, 411, 92, 8}, {457, 484, 95, 5},
		{620, 735, 99, 1}, {736, 4000, 100, 0},
	} {
		for d := row.from; d <= row.to; d++ {
			if high, low := ExpectedAt(d), ExpectedAt(-d); d > 0 && (high != row.high || low != row.low) || d == 0 && high != row.high {
				t.Errorf("difference %d: %v and %v, want %v and %v", d, high, low, row.high, row.low)
			}
		}
		if ExpectedAt(row.to+1) == row.high && row.high < certain || row.from > 0 && ExpectedAt(row.from-1) == row.high {
			t.Errorf("the row of %v is longer than %d to %d", row.high, row.from, row.to)
		}
	}
}

// The table is the normal curve, rounded, with a deviation of 2000/7 for the difference
// of two players (from memory). Where FIDE rounded another way, the row or the one
// behind it is among those above.
func TestExpectedIsTheNormalCurve(t *testing.T) {
	otherwise := map[int]int{53: 54, 344: 342, 357: 358, 391: 392, 619: 620}
	for _, row := range expectations {
		p := float64(row.high)/100 + 0.005 // where the next hundredth begins
		last := int(2000.0 / 7 * math.Sqrt2 * math.Erfinv(2*p-1))
		if want, is := otherwise[row.to]; is {
			if last != want {
				t.Errorf("the curve puts the end of %v at %d, the list of exceptions at %d", row.high, last, want)
			}
		} else if last != row.to {
			t.Errorf("the row of %v ends at %d, the curve says %d", row.high, row.to, last)
		}
	}
}

func TestExpectedProperties(t *testing.T) {
	for d := 0; d <= 1200; d++ {
		if high, low := ExpectedAt(d), ExpectedAt(-d); high+low != certain {
			t.Errorf("difference %d: %v and %v do not make a point", d, high, low)
		}
		if ExpectedAt(d) < ExpectedAt(d-1) || ExpectedAt(-d) > ExpectedAt(1-d) {
			t.Errorf("difference %d: a better rating lowers the expected score", d)
		}
	}
	for i, row := range expectations {
		if i > 0 && (row.from != expectations[i-1].to+1 || row.high != expectations[i-1].high+1) {
			t.Errorf("row %v does not follow the one before", row)
		}
	}
}

// The rule of 400 points as a published copy has it, in force from 1 October 2025.
func TestFourHundredPoints(t *testing.T) {
	for _, test := range []struct {
		own, other int
		want       Score
	}{
		{2400, 2400, 50}, {2400, 2300, 64}, {2300, 2400, 36}, {2500, 2100, 92}, {2500, 2099, 92},
		{2649, 1500, 92}, {1500, 2649, 8}, // 400 at most
		{2650, 2165, 96}, {2650, 1500, 100}, // the true difference
		{2165, 2650, 8}, // but not for the lower
		{2650, 2250, 92}, {2700, 2800, 36},
	} {
		if got := Expected(test.own, test.other); got != test.want {
			t.Errorf("Expected(%d, %d) = %v, want %v", test.own, test.other, got, test.want)
		}
	}
	for own := 1400; own <= 2900; own += 7 {
		for other := 1400; other <= 2900; other += 11 {
			first, second := Shares(own, other)
			if first+second != certain || first != Expected(own, other) && second != Expected(other, own) {
				t.Fatalf("Shares(%d, %d) = %v, %v", own, other, first, second)
			}
			if sum := Expected(own, other) + Expected(other, own); sum != certain && max(own, other) < trueDifference {
				t.Fatalf("%d and %d expect %v points of one game", own, other, sum)
			}
		}
	}
}

func TestFigures(t *testing.T) {
	for p, want := range map[Points]string{0: "0", 1: "½", 2: "1", 5: "2½", 13: "6½", 12: "6"} {
		if got := p.String(); got != want {
			t.Errorf("%d half points are written %q, want %q", int(p), got, want)
		}
	}
	for s, want := range map[Score]string{0: "0.00", 8: "0.08", 127: "1.27", 300: "3.00"} {
		if got := s.String(); got != want {
			t.Errorf("%d hundredths are written %q, want %q", int(s), got, want)
		}
	}
}
