package tell

import (
	"fmt"
	"testing"
)

// goal is a figure that the project asks for, and the bound that is asserted: the
// goal itself where it is met, else a bound a little beyond what was reached.
type goal struct {
	name         string
	got, err     float64 // err is the standard error, 0 if there is none
	want, assert float64
	atLeast      bool // else at most
}

// within reports whether the figure keeps a bound, with so much allowed for error.
func (g goal) within(bound, slack float64) bool {
	if g.atLeast {
		return g.got >= bound-slack
	}
	return g.got <= bound+slack
}

// check logs whether a goal is met and fails where the bound does not hold.
func (g goal) check(t *testing.T, of string) {
	t.Helper()
	word := "MISSED"
	switch {
	case g.within(g.want, 0):
		word = "met"
	case g.within(g.want, 2*g.err):
		word = "MISSED by less than two standard errors"
	}
	errs := ""
	if g.err > 0 {
		errs = fmt.Sprintf(" ± %.4f", g.err)
	}
	t.Logf("%-14s %-34s %8.4f%s, goal %8.4f: %s", of, g.name, g.got, errs, g.want, word)
	if !g.within(g.assert, 0) {
		t.Errorf("%s: %s %.4f is beyond the asserted %.4f", of, g.name, g.got, g.assert)
	}
}
