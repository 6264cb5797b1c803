package main

import (
	"bytes"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"go.uber.org/goleak"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// TestCrowd lets forty pages of all kinds and tempers visit a real relay, and then two edges, of
// which one after the other is killed, each page verifying what it is sent.
func TestCrowd(t *testing.T) {
	program := filepath.Join(t.TempDir(), "clocktell")
	if out, err := exec.Command("go", "build", "-o", program, "../clocktell").CombinedOutput(); err != nil {
		t.Fatalf("build: %v\n%s", err, out)
	}
	usual := "--serve " + program + " --pages 40 --feeds 2 --boards 12 --moves 20 --hold 1s --held 30 --settle 2s --every 200ms --warm-up 0s --hostile 20 " +
		"--mix scene/board=40,scene/clocks=20,scene/wall=10,panel=10,desk=10,health=10 "
	figures := []string{`(\d+) moves were played`, `(\d+) pages were held to the truth`, `polls included: (\d+)ms /`, `hostile +8 +0 +0.0 +(\d+) `, `RSS, MB: (\d+)`}
	for _, c := range []struct {
		name, flags string
		figures     []string
	}{
		{"relay", "--for 4s", []string{`packet to page: (\d+)ms /`}},
		{"edges", "--for 5s --edges 2 --kill-edges 2s", []string{`came back at another place (\d+) times`, `(?m)^ +1 +\S+ +\S+ +(\d+) +\d+ `, `killed (\d+) times`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, errs bytes.Buffer
			code := run(t.Context(), strings.Fields(usual+c.flags), &out, &errs)
			t.Logf("%s%s", out.String(), errs.String())
			if code != exitFine {
				t.Errorf("it ends with %d", code)
			}
			for _, figure := range append(c.figures, figures...) {
				if m := regexp.MustCompile(figure).FindStringSubmatch(out.String()); m == nil || m[1] == "0" {
					t.Errorf("%s: %q", figure, m)
				}
			}
		})
	}
}

func TestUsage(t *testing.T) {
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"-h", exitFine, "Usage: crowd"},
		{"", exitUsage, "either --serve or --relay"},
		{"--serve a --relay b", exitUsage, "either --serve or --relay"},
		{"--relay b --boards 3 --feeds 4", exitUsage, "one board for each feed"},
		{"--relay b --boards 501", exitUsage, "500"},
		{"--relay b --slow 60 --hostile 41", exitUsage, "more than 100"},
		{"--relay b --slow -1", exitUsage, "below 0"},
		{"--relay b --mix panel=1,sofa=2", exitUsage, `"sofa=2"`},
		{"--relay b --mix panel=NaN", exitUsage, `"panel=NaN"`},
		{"--relay b --for 0s", exitUsage, "not below 0"},
		{"--relay b more", exitUsage, "flags only"},
		{"--relay b --edges 2", exitUsage, "needs --serve"},
		{"--serve a --edges 33", exitUsage, "32 at most"},
		{"--serve a --edges 1 --kill-edges 5s", exitUsage, "two edges"},
	} {
		var out bytes.Buffer
		if code := run(t.Context(), strings.Fields(c.args), &out, &out); code != c.code || !strings.Contains(out.String(), c.says) {
			t.Errorf("%q: %d, %s", c.args, code, out.String())
		}
	}
}
