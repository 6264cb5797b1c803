package feed

import (
	"cmp"
	"strings"
)

// natural compares two names the way people count: runs of digits by their number,
// so that game2 stands before game10, and everything else by its small letters.
// Names that are alike so far, such as game2 and Game02, are compared byte by byte.
func natural(a, b string) int {
	x, y := strings.ToLower(a), strings.ToLower(b)
	for x != "" && y != "" {
		n, m := digits(x), digits(y)
		if n == 0 || m == 0 {
			n, m = 1, 1
		}
		if c := byNumber(x[:n], y[:m]); c != 0 {
			return c
		}
		x, y = x[n:], y[m:]
	}
	return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(a, b))
}

// digits is the length of the run of digits s begins with.
func digits(s string) int {
	return len(s) - len(strings.TrimLeft(s, "0123456789"))
}

// byNumber compares two runs of digits of any length, or two single bytes.
func byNumber(x, y string) int {
	if digits(x) > 0 && digits(y) > 0 {
		x, y = strings.TrimLeft(x, "0"), strings.TrimLeft(y, "0")
	}
	return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(x, y))
}
