package clock

import "testing"

// FIDE Laws of Chess 2023, A.1 and B.1; 30+30 standard and 10+5 rapid are worked
// examples for arbiters, the others are arithmetic.
func TestClass(t *testing.T) {
	tests := []struct {
		text string
		want string
	}{
		{"180+2", "blitz"}, {"300+5", "blitz"}, {"600", "blitz"}, {"600+5", "rapid"},
		{"900+10", "rapid"}, {"2700+14", "rapid"}, {"1800+30", "standard"}, {"3600", "standard"},
		{"40/7200:3600", "standard"}, {"599+1", "rapid"}, {"601", "rapid"}, {"3599", "rapid"},
		{"?", ""}, {"-", ""}, {"*180", ""}, {"40/9000:?", ""},
	}
	for _, tt := range tests {
		c, err := ParseControl(tt.text)
		if got := c.Class().String(); got != tt.want || err != nil {
			t.Errorf("class of %q: got %q, %v; want %q", tt.text, got, err, tt.want)
		}
	}
}
