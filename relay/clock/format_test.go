package clock

import (
	"fmt"
	"testing"
	"time"
)

// TestFormatAgainstFmt: figures written by hand are those that fmt writes.
func TestFormatAgainstFmt(t *testing.T) {
	for s := -3; s < 400_000; s += 1 + s/5000 {
		n := max(0, s)
		want := fmt.Sprintf("%d:%02d", n/60, n%60)
		if n >= 3600 {
			want = fmt.Sprintf("%d:%02d:%02d", n/3600, n/60%60, n%60)
		}
		if got := Format(time.Duration(s)*time.Second + 999*time.Millisecond); s >= 0 && got != want {
			t.Errorf("%d s is %s, want %s", s, got, want)
		}
	}
	if got := Format(-time.Hour); got != "0:00" {
		t.Errorf("less than nothing is %s", got)
	}
}
