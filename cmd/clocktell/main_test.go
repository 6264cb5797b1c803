package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"go.uber.org/goleak"

	"clocktell/relay/engine/enginetest"
)

func TestMain(m *testing.M) {
	enginetest.PlayIfAsked()
	serveBusIfAsked()
	goleak.VerifyTestMain(m, goleak.Cleanup(func(code int) {
		os.RemoveAll(built.dir)
		os.Exit(code)
	}))
}

// call runs the command and returns its exit code and both outputs.
func call(t *testing.T, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	code = run(t.Context(), args, &out, &errs)
	return code, out.String(), errs.String()
}

func TestExitCodes(t *testing.T) {
	for _, test := range []struct {
		args           string
		code           int
		stdout, stderr string // what each must hold
	}{
		{"", 2, "", "clocktell demo"},
		{"-h", 0, "Example:", ""},
		{"help", 0, "serve", ""},
		{"sevre", 2, "", `no verb "sevre"`},
		{"version", 0, "protocol 8", ""},
		{"--version", 0, "protocol 8", ""},
		{"version -h", 0, "Example:", ""},
		{"demo -h", 0, "clocktell demo --speed", ""},
		{"demo --sped 3", 2, "", "clocktell demo -h tells"},
		{"demo --speed 0", 2, "", "out of range"},
		{"demo --speed NaN", 2, "", "out of range"},
		{"demo --log loud", 2, "", "none of debug, info, warn, error"},
		{"demo --language xx", 2, "", `--language "xx" is no language of the prompts; there are "en", "de"`},
		{"demo extra", 2, "", `unexpected argument "extra"`},
		{"serve -h", 0, "clocktell serve --config configs/clocktell.toml", ""},
		{"serve", 2, "", "needs --config"},
		{"serve --config no/such.toml", 1, "", "no/such.toml"},
		{"check -h", 0, "clocktell check --config configs/clocktell.toml", ""},
		{"check", 2, "", "needs --config"},
		{"check --config no/such.toml", 1, "", "no/such.toml"},
	} {
		code, stdout, stderr := call(t, strings.Fields(test.args)...)
		if code != test.code || !strings.Contains(stdout, test.stdout) || !strings.Contains(stderr, test.stderr) {
			t.Errorf("clocktell %s: exit %d\nstdout: %s\nstderr: %s\nwant %d, %q, %q", test.args, code, stdout, stderr, test.code, test.stdout, test.stderr)
		}
	}
}

// TestPortTaken: the error names the address and the way out.
func TestPortTaken(t *testing.T) {
	l, err := listen(t.Context(), "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	code, _, stderr := call(t, "demo", "--listen", l.Addr().String())
	if code != 1 || !strings.Contains(stderr, l.Addr().String()) || !strings.Contains(stderr, "--listen") {
		t.Errorf("exit %d, %s", code, stderr)
	}
}

func write(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// checked runs clocktell check against a file feed.
func checked(t *testing.T, pgnText string) (int, string) {
	t.Helper()
	games := write(t, "games.pgn", pgnText)
	config := write(t, "show.toml", "[[feed]]\nname = \"hall\"\nfile = '"+games+"'\n")
	code, stdout, stderr := call(t, "check", "--config", config)
	return code, stdout + stderr
}

// TestCheckThreeBrokenTwoGood: every game of a mixed file is told truthfully.
func TestCheckThreeBrokenTwoGood(t *testing.T) {
	text, err := os.ReadFile("../../testdata/feeds/three-broken-two-good.pgn")
	if err != nil {
		t.Fatal(err)
	}
	code, out := checked(t, string(text))
	if code != 1 {
		t.Errorf("exit %d, want 1", code)
	}
	for _, want := range []string{
		"5 games",
		" 1 good   Aldana, Mira – Brask, Ole, round 3 board 1: 8 plies, *, 8 clock readings, 10 min + 5 s (rapid)",
		" 2 BROKEN Castellan, Ida – Dorn, Per, round 3 board 2: 5 plies, *, 5 clock readings",
		"move 3...Qxh2: Qxh2 is not a legal move; the game is shown up to 3.Bb5",
		" 3 BROKEN Ekdahl, Sten – Farkas, Lia, round 3 board 3: 4 plies, *, 4 clock readings",
		"a comment is not closed",
		" 4 good   Gruber, Ana – Holt, Tom, round 3 board 4: 6 plies, 1/2-1/2, 0 clock readings",
		"6 of 6 plies have no clock",
		" 5 BROKEN Iversen, Kai – Jansson, Eva, round 3 board 5: 3 plies, *, 3 clock readings",
		"2 good, 3 broken",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}

func TestCheckFine(t *testing.T) {
	code, out := checked(t, "[White \"A\"]\n[Black \"B\"]\n[TimeControl \"900+10\"]\n\n1. e4 {[%clk 0:15:08]} e5 {[%clk 0:15:07]} *\n")
	if code != 0 || !strings.Contains(out, "1 good, 0 broken") {
		t.Errorf("exit %d\n%s", code, out)
	}
}

func TestCheckNothingThere(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"web page", "<!doctype html><title>Not found</title>", "does not hold PGN"},
		{"empty", "", "does not hold PGN"},
	} {
		code, out := checked(t, test.text)
		if code != 1 || !strings.Contains(out, test.want) {
			t.Errorf("%s: exit %d, %s, want %q", test.name, code, out, test.want)
		}
	}
	config := write(t, "show.toml", "[[feed]]\nname = \"hall\"\nfile = \"no/such.pgn\"\n")
	code, stdout, _ := call(t, "check", "--config", config)
	if code != 1 || !strings.Contains(stdout, "no/such.pgn") {
		t.Errorf("exit %d, %s", code, stdout)
	}
}

func TestCheckInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out bytes.Buffer
	config := write(t, "show.toml", "[[feed]]\nname = \"hall\"\nurl = \"http://127.0.0.1:1/\"\n")
	if code := run(ctx, []string{"check", "--config", config}, &out, &out); code != 1 {
		t.Errorf("exit %d, want 1\n%s", code, out.String())
	}
}
