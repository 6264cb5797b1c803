package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay/config"
	"clocktell/relay/relaytest"
)

// TestPromptsUsage: what is asked wrong is told before anything is read or written.
func TestPromptsUsage(t *testing.T) {
	games, page := demoFile(t), write(t, "page.html", "<!doctype html><title>Not found</title>")
	alone := write(t, "bare.pgn", "1. e4 e5 *\n")
	show := write(t, "show.toml", "[[feed]]\nname = \"hall\"\nfile = \"hall.pgn\"\n")
	for _, test := range []struct {
		args         []string
		code         int
		stdout, want string
	}{
		{[]string{"-h"}, exitFine, "Examples:", ""},
		{nil, exitUsage, "", "needs one FILE"},
		{[]string{games, games}, exitUsage, "", "needs one FILE"},
		{[]string{games, "--nonsense"}, exitUsage, "", "clocktell prompts -h tells"},
		{[]string{games, "--games", "-1"}, exitUsage, "", "less than none"},
		{[]string{games, "--every", "999ms"}, exitUsage, "", "out of range, 1s to 4h0m0s"},
		{[]string{games, "--every", "4h1s"}, exitUsage, "", "out of range"},
		{[]string{games, "--config", "no/such.toml"}, exitFailed, "", "no/such.toml"},
		{[]string{"no/such.pgn"}, exitFailed, "", "no/such.pgn"},
		{[]string{t.TempDir()}, exitFailed, "", "is not a file"},
		{[]string{page}, exitFailed, "", "does not hold PGN"},
		{[]string{alone}, exitFailed, "", "does not hold PGN"},
		{[]string{games, "--out", games}, exitFailed, "", "is a file that is read"},
		{[]string{games, "--config", show, "--out", show}, exitFailed, "", "is a file that is read"},
		{[]string{games, "--out", filepath.Join(t.TempDir(), "no", "list.tsv")}, exitFailed, "", "list.tsv"},
	} {
		code, stdout, stderr := call(t, append([]string{"prompts"}, test.args...)...)
		if code != test.code || !strings.Contains(stdout, test.stdout) || !strings.Contains(stderr, test.want) || test.stdout == "" && stdout != "" {
			t.Errorf("%v: exit %d, %q, %q; want %d, %q, %q", test.args, code, stdout, stderr, test.code, test.stdout, test.want)
		}
	}
	if len(listed(t, games)) == 0 {
		t.Error("the games were written over")
	}
}

// gamesTold returns the numbers of the games that a list has blocks of.
func gamesTold(list string) (numbers []string) {
	for line := range strings.Lines(list) {
		if rest, ok := strings.CutPrefix(line, "# Game "); ok {
			number, _, _ := strings.Cut(rest, ":")
			numbers = append(numbers, number)
		}
	}
	return numbers
}

// TestPromptsBrokenGames: of the file with three broken games each is named with the line
// of what is wrong, and the two good ones are listed.
func TestPromptsBrokenGames(t *testing.T) {
	file := "../../testdata/feeds/three-broken-two-good.pgn"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	lineOf := func(of string) int { return strings.Count(string(text[:bytes.Index(text, []byte(of))]), "\n") + 1 }
	code, stdout, stderr := call(t, "prompts", file)
	if got := gamesTold(stdout); code != exitFailed || !slices.Equal(got, []string{"1", "4"}) {
		t.Errorf("exit %d, games %q listed", code, got)
	}
	parsed(t, stdout)
	lines := strings.Split(strings.TrimSpace(stderr), "\n")
	if len(lines) != 3 {
		t.Fatalf("told:\n%s", stderr)
	}
	for i, want := range []string{
		fmt.Sprintf("game 2, line %d, left out: Castellan, Ida – Dorn, Per: move 3...Qxh2", lineOf("Qxh2")),
		fmt.Sprintf("game 3, line %d, left out: Ekdahl, Sten – Farkas, Lia: a comment is not closed", lineOf("{[%clk 0:10:04] 3. Nc3")),
		fmt.Sprintf("game 5, line %d, left out: Iversen, Kai – Jansson, Eva: ", lineOf("{[%clk 0:10:05]} Nf\n")),
	} {
		if !strings.Contains(lines[i], want) {
			t.Errorf("told %q, want %q", lines[i], want)
		}
	}
	if !strings.Contains(stdout, "left out 3 games") {
		t.Errorf("the summary does not count them:\n%s", stdout)
	}
	code, _, stderr = call(t, "prompts", write(t, "stray.pgn", "[White \"Aune\"]\n\n1. e4 *\n\n1. d4 *\n"))
	if code != exitFailed || !strings.Contains(stderr, "game 2, line 5, left out: moves or a result without a tag") {
		t.Errorf("moves behind a result: exit %d, %s", code, stderr)
	}
}

// TestPromptsChosenGames: --games takes the first ones, with --spread every so many.
func TestPromptsChosenGames(t *testing.T) {
	file := write(t, "ten.pgn", strings.Repeat(shuffled(4, "600")+"\n", 10))
	all := []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10"}
	for _, test := range []struct {
		flags string
		want  []string
	}{
		{"", all}, {"--games 0", all}, {"--games 11", all}, {"--games 10 --spread", all}, {"--spread", all},
		{"--games 3", []string{"1", "2", "3"}}, {"--games 3 --spread", []string{"1", "4", "7"}}, {"--games 1 --spread", []string{"1"}},
	} {
		code, stdout, stderr := call(t, append([]string{"prompts", file}, strings.Fields(test.flags)...)...)
		if got := gamesTold(stdout); code != exitFine || !slices.Equal(got, test.want) {
			t.Errorf("%q: exit %d, games %q, want %q\n%s", test.flags, code, got, test.want, stderr)
		}
	}
}

// TestPromptsFromStandardInput: - reads standard input, and --out leaves the summary on
// the screen.
func TestPromptsFromStandardInput(t *testing.T) {
	in, err := os.Open(demoFile(t))
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	was := os.Stdin
	os.Stdin = in
	defer func() { os.Stdin = was }()
	out := filepath.Join(t.TempDir(), "list.tsv")
	code, stdout, stderr := call(t, "prompts", "-", "--out", out)
	list, err := os.ReadFile(out)
	if code != exitFine || err != nil || !strings.Contains(stdout, "# 2 games") || strings.Contains(stdout, "\t") {
		t.Errorf("exit %d, %v: %s%s", code, err, stdout, stderr)
	}
	if rows := parsed(t, string(list)); !slices.EqualFunc(rows, listed(t, demoFile(t)), slices.Equal) || strings.Contains(string(list), "# 2 games") {
		t.Errorf("another list than on standard output:\n%s", list)
	}
}

// TestPromptsEscaped: a name with a quote in it comes back as it was, and a tab in one
// makes no field.
func TestPromptsEscaped(t *testing.T) {
	game := relaytest.Game{
		White: "Aune \"the\tRook\"", Control: "600", Moves: "e4 e5 Nf3 Nc6", Clocks: []string{"0:09:59", "0:09:59", "0:04:00", "0:09:50"},
	}
	text := strings.ReplaceAll(game.PGN(), "the Rook", "the\tRook")
	rows := listed(t, write(t, "odd.pgn", text))
	if len(rows) == 0 || !slices.ContainsFunc(rows, func(row []string) bool { return strings.HasPrefix(row[5], "Rook\" is in a long think") }) {
		t.Errorf("rows %q", rows)
	}
}

// TestPromptsLimits: a file longer than its limit is refused, a think longer than its
// limit is cut to it.
func TestPromptsLimits(t *testing.T) {
	text := shuffled(4, "600")
	for _, test := range []struct {
		most int64
		fine bool
	}{{int64(len(text)), true}, {int64(len(text)) - 1, false}} {
		if _, err := readGamesFile("games.pgn", strings.NewReader(text), test.most); (err == nil) != test.fine {
			t.Errorf("%d bytes of %d: %v", len(text), test.most, err)
		}
	}
	r, err := newRehearsal(config.Default(), time.Minute)
	if err != nil {
		t.Fatal(err)
	}
	long := relaytest.Game{Control: "360000", Moves: "e4 e5 Nf3 Nc6", Clocks: []string{"99:00:00", "99:59:30", "10:00:00", ""}}
	games, err := readGamesFile("long.pgn", strings.NewReader(long.PGN()), gamesFileMost)
	if err != nil {
		t.Fatal(err)
	}
	played, err := r.play(t.Context(), games.games[0].read())
	if err != nil {
		t.Fatal(err)
	}
	if took, want := played.show.At.Sub(rehearsalStart), time.Hour+30*time.Second+thinkMost+time.Minute; took != want {
		t.Errorf("the game took %v, want %v", took, want)
	}
}

// full is a disk without room.
type full struct{}

var errFull = errors.New("no room")

func (full) Write([]byte) (int, error) { return 0, errFull }

// TestPromptsUnwritten: a list that cannot be written is an error, and an interrupted one
// is told.
func TestPromptsUnwritten(t *testing.T) {
	r, err := newRehearsal(config.Default(), time.Minute)
	if err != nil {
		t.Fatal(err)
	}
	games, err := readGamesFile("games.pgn", strings.NewReader(shuffled(4, "600")), gamesFileMost)
	if err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	if err := rehearse(t.Context(), r, games.games, full{}, &stdout, &stderr); !errors.Is(err, errFull) {
		t.Errorf("no room: %v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := rehearse(ctx, r, games.games, &stdout, &stdout, &stderr); !errors.Is(err, errTold) || !strings.Contains(stderr.String(), "0 games of 1 were played") {
		t.Errorf("interrupted: %v, %s", err, &stderr)
	}
}
