package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"clocktell/relay/reference/build"
)

// TestReference builds from a few invented games on the command line and looks at it.
func TestReference(t *testing.T) {
	collection, _ := writeCollection(t, 300)
	broken := write(t, "broken.pgn", "[Event \"Club\"]\n[White \"Aune\"]\n[Black \"Berg\"]\n\n1. e4 e5 2. Ke4 *\n")
	out := filepath.Join(t.TempDir(), "games.ref")
	code, stdout, stderr := call(t, "reference", "build", collection, "--out", out, broken, "--depth=20")
	for _, want := range []string{"300 games of 301 read", "left out 1: a move that cannot be played", "broken.pgn, game 1, line 5: Aune – Berg: move 2. ", "positions,", "games a second"} {
		if code != 0 || !strings.Contains(stdout, want) {
			t.Fatalf("exit %d\n%s%swant %q", code, stdout, stderr, want)
		}
	}
	code, stdout, stderr = call(t, "reference", "show", out)
	for _, want := range []string{"300 games, followed for 20 plies", "as it was written", "300 games: White won ", "move", "such as"} {
		if code != 0 || !strings.Contains(stdout, want) {
			t.Errorf("exit %d\n%s%swant %q", code, stdout, stderr, want)
		}
	}
	code, stdout, _ = call(t, append([]string{"reference", "show", out}, strings.Fields("8/8/8/4k3/8/8/4P3/4K3 b - - 0 1")...)...)
	if code != 0 || !strings.Contains(stdout, "no game has reached this position") {
		t.Errorf("exit %d\n%s", code, stdout)
	}
	text, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	text[len(text)/2] ^= 1
	code, _, stderr = call(t, "reference", "show", write(t, "damaged.ref", string(text)))
	if code != 1 || stderr == "" {
		t.Errorf("a damaged file: exit %d, %s", code, stderr)
	}
}

func TestReferenceUsage(t *testing.T) {
	game := write(t, "games.pgn", "[Event \"Club\"]\n[White \"Aune\"]\n\n1. e4 *\n")
	out := filepath.Join(t.TempDir(), "games.ref")
	for _, test := range []struct {
		args           string
		code           int
		stdout, stderr string
	}{
		{"", 2, "", "reference build --out FILE"},
		{"-h", 0, "reference build --out FILE", ""},
		{"nonsense", 2, "", `no "nonsense"`},
		{"build -h", 0, "Examples:", ""},
		{"build", 2, "", "needs --out FILE"},
		{"build --out " + out, 2, "", "needs --out FILE"},
		{"build " + game, 2, "", "needs --out FILE"},
		{"build --nonsense", 2, "", "clocktell reference build -h tells"},
		{"build --time-class slow --out " + out + " " + game, 2, "", "none of blitz, rapid and standard"},
		{"build --depth 0 --out " + out + " " + game, 1, "", "out of range"},
		{"build --min-rating 2350 --out " + out + " " + game, 1, "", "hundreds"},
		{"build --over-the-board --out " + out + " " + game, 1, "", "no game is left"},
		{"build --from-year 1990 --out " + out + " " + game, 1, "", "no game is left"}, // nothing is left of the one before
		{"build --restart --out " + out + " " + game, 0, "1 games of 1 read", ""},
		{"build --out " + game + " " + game, 1, "", "another name"},
		{"build --out " + out + " no/such.pgn", 1, "", "no/such.pgn"},
		{"show", 2, "", "needs the FILE"},
		{"show -h", 0, "Examples:", ""},
		{"show " + game, 1, "", "games.pgn"},
		{"show " + out + " nonsense", 1, "", "nonsense"},
	} {
		code, stdout, stderr := call(t, append([]string{"reference"}, strings.Fields(test.args)...)...)
		if code != test.code || !strings.Contains(stdout, test.stdout) || !strings.Contains(stderr, test.stderr) {
			t.Errorf("reference %s: exit %d\nstdout: %s\nstderr: %s\nwant %d, %q, %q", test.args, code, stdout, stderr, test.code, test.stdout, test.stderr)
		}
	}
}

// TestReferenceInterrupted: whoever interrupts a build is told how it goes on, and it does.
func TestReferenceInterrupted(t *testing.T) {
	collection, _ := writeCollection(t, 50)
	out := filepath.Join(t.TempDir(), "games.ref")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var stdout, stderr strings.Builder
	code := run(ctx, []string{"reference", "build", "--out", out, collection}, &stdout, &stderr)
	if code != exitFailed || !strings.Contains(stderr.String(), "the same command goes on") || stdout.Len() > 0 {
		t.Errorf("exit %d\n%s\n%s", code, &stdout, &stderr)
	}
	if _, err := os.Stat(out + ".work"); err != nil {
		t.Error(err)
	}
	if code, _, stderr := call(t, "reference", "build", "--out", out, collection); code != exitFine {
		t.Errorf("exit %d\n%s", code, stderr)
	}
}

// TestBuildProgress: where there is no terminal a line comes now and then, with the games
// a second and the time left of the stage, and what an interrupted build has read speeds
// up neither.
func TestBuildProgress(t *testing.T) {
	var out strings.Builder
	now := time.Unix(0, 0)
	p := newBuildProgress(&out, func() time.Time { return now })
	p.resumed(build.Report{Games: 1_000_000})
	for i := range 25 {
		p.tell(build.Status{Stage: build.Reading, Done: 500 + int64(i), Total: 600, Games: 1_000_000 + 2_000*i, Resumed: 1_000_000})
		now = now.Add(time.Second)
	}
	p.tell(build.Status{Stage: build.Writing, Total: 600})
	now = now.Add(lineEvery)
	p.tell(build.Status{Stage: build.Writing, Done: 150, Total: 600, Games: 1_050_000})
	want := []string{
		"going on with an interrupted build: 1,000,000 games have been read",
		"read 1,020,000 games, 2,000 a second, 85%, 1m30s left",
		"read 1,040,000 games, 2,000 a second, 87%, 1m20s left",
		"writing 1,050,000 games, 25%, 30s left",
	}
	if got := strings.Split(strings.TrimSpace(out.String()), "\n"); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if took := p.end(); took != 35*time.Second {
		t.Errorf("it took %v", took)
	}
}

func TestThousands(t *testing.T) {
	for n, want := range map[int]string{0: "0", 999: "999", 1000: "1,000", 1234567: "1,234,567", -1000: "-1,000", -100: "-100"} {
		if got := thousands(n); got != want {
			t.Errorf("%d: %s, want %s", n, got, want)
		}
	}
}
