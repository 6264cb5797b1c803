package feed

import (
	"math"
	"net/http"
	"testing"
	"time"
)

// The dates are RFC 9110 §5.6.7's own examples, three forms of one instant; "120" and the
// date of 1999 are §10.2.3's. The expected waits follow from the instants.
func TestRetryAfter(t *testing.T) {
	date := func(value string) time.Time {
		at, err := time.Parse(time.RFC3339, value)
		if err != nil {
			t.Fatal(err)
		}
		return at
	}
	before := date("1994-11-06T08:49:00Z")
	for _, row := range []struct {
		value string
		now   time.Time
		date  string // the answer's Date
		want  time.Duration
	}{
		{"Sun, 06 Nov 1994 08:49:37 GMT", before, "", 37 * time.Second},
		{"Sunday, 06-Nov-94 08:49:37 GMT", before, "", 37 * time.Second},
		{"Sun Nov  6 08:49:37 1994", before, "", 37 * time.Second},
		{"120", before, "", 120 * time.Second},
		{"Fri, 31 Dec 1999 23:59:59 GMT", date("1999-12-31T23:58:59Z"), "", time.Minute},
		{"Fri, 31 Dec 1999 23:59:59 GMT", date("2000-01-01T00:00:00Z"), "", 0},
		{"Sun, 06 Nov 1994 08:49:37 GMT", date("2000-01-01T00:00:00Z"), "Sun, 06 Nov 1994 08:49:27 GMT", 10 * time.Second},
		{" 0 ", before, "", 0},
		{"99999999999999999999", before, "", math.MaxInt32 * time.Second},
		{"", before, "", -1},
		{"-5", before, "", -1},
		{"1.5", before, "", -1},
		{"soon", before, "", -1},
	} {
		h := http.Header{}
		h.Set("Retry-After", row.value)
		h.Set("Date", row.date)
		if got := retryAfter(h, row.now); got != row.want {
			t.Errorf("Retry-After %q at %v, Date %q: got %v, want %v", row.value, row.now, row.date, got, row.want)
		}
	}
}

// The doubling must not overflow, however long the fault and the limit.
func TestBackOffOverflow(t *testing.T) {
	o := HTTPOptions{Every: time.Second, MaxWait: math.MaxInt64, Rand: func() float64 { return 0 }}
	last := time.Duration(0)
	for n := 1; n < 200; n++ {
		got := o.afterFault(n, &failure{retryAfter: -1})
		if got < last {
			t.Fatalf("after %d faults %v, shorter than %v before", n, got, last)
		}
		last = got
	}
}

func TestSeconds(t *testing.T) {
	for d, want := range map[time.Duration]string{10 * time.Second: "10 s", 250 * time.Millisecond: "0.25 s", 90 * time.Second: "90 s"} {
		if got := seconds(d); got != want {
			t.Errorf("%v: got %q, want %q", d, got, want)
		}
	}
}
