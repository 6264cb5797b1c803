package main

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/pgn"
	"clocktell/relay/relaytest"
	"clocktell/testdata/demo"
)

// demoFile writes the demo's games to one file.
func demoFile(t *testing.T) string {
	t.Helper()
	var text string
	for _, name := range []string{"game1.pgn", "game2.pgn"} {
		game, err := fs.ReadFile(demo.FS, name)
		if err != nil {
			t.Fatal(err)
		}
		text += string(game) + "\n"
	}
	return write(t, "demo.pgn", text)
}

// parsed reads a list as a spreadsheet would: its rows without the line of names.
func parsed(t *testing.T, list string) [][]string {
	t.Helper()
	r := csv.NewReader(strings.NewReader(list))
	r.Comma, r.Comment = '\t', '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatalf("%v in\n%s", err, list)
	}
	if len(rows) == 0 || !slices.Equal(rows[0], promptFields) {
		t.Fatalf("the first line does not name the fields: %q", rows)
	}
	return rows[1:]
}

// listed runs the verb and returns its rows.
func listed(t *testing.T, args ...string) [][]string {
	t.Helper()
	code, stdout, stderr := call(t, append([]string{"prompts"}, args...)...)
	if code != exitFine || stderr != "" {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	return parsed(t, stdout)
}

// fromHall lets the demo's hall tell a stage of both games at once, second by second,
// and returns what the panel shows, as rows, board by board.
func fromHall(t *testing.T) [][]string {
	t.Helper()
	hall, err := newArena(demo.FS, func() time.Time { return relaytest.Start })
	if err != nil {
		t.Fatal(err)
	}
	hall.script = arenaScript{} // nothing goes wrong
	s, intake := relaytest.NewStage(), relay.NewIntake(relaytest.FeedName)
	s.Apply(relay.OpeningsLoaded{At: s.Now, Book: theBook()})
	var rows [][]string
	seen := make(map[string]int)
	look := func() {
		for _, item := range slices.Backward(s.Show.Said.Items) {
			move := moveTold(hall.games[item.Board-1].Moves, len(s.Board(item.Board).Plies))
			key := item.Alert.ID + item.Alert.At.String()
			if _, known := seen[key]; !known {
				seen[key] = len(rows)
				rows = append(rows, []string{
					fmt.Sprint(item.Board), move, since(s.Now, s.Board(item.Board)), string(item.Kind), string(item.Priority), item.Text, item.Evidence, "", s.Board(item.Board).FEN,
				})
			}
			if item.Withdrawn.Equal(s.Now) {
				rows[seen[key]][7] = cmp.Or(rows[seen[key]][7], move)
			}
		}
	}
	for at := time.Duration(0); at <= hall.ends(); at += time.Second {
		s.Wait(time.Second)
		look()
		s.Apply(intake.Read(s.Now, hall.text(1, at)))
		look()
	}
	slices.SortStableFunc(rows, func(a, b []string) int { return cmp.Compare(a[0], b[0]) })
	return rows
}

// moveTold returns the last of so many plies of a game from the usual start, as a text
// has it.
func moveTold(moves []pgn.Move, plies int) string {
	if plies == 0 {
		return "start"
	}
	return fmt.Sprintf("%d%s%s", (plies+1)/2, []string{"...", "."}[plies%2], moves[plies-1].SAN)
}

// since says how long ago the last ply of a board came, if that is not now.
func since(now time.Time, b *relay.Board) string {
	d := now.Sub(b.Plies[len(b.Plies)-1].Seen)
	if d == 0 {
		return ""
	}
	return fmt.Sprintf("%d:%02d", d/time.Minute, d%time.Minute/time.Second)
}

// TestPromptsOfDemo holds the list against the panel of a show of both games at once
// that a feed asked every second leads through the match.
func TestPromptsOfDemo(t *testing.T) {
	want := fromHall(t)
	got := listed(t, demoFile(t))
	if len(want) < 10 {
		t.Fatalf("the panel showed only %d prompts: this compares too little", len(want))
	}
	for i := range max(len(want), len(got)) {
		var w, g []string
		if i < len(want) {
			w = want[i]
		}
		if i < len(got) {
			g = got[i]
		}
		if !slices.Equal(w, g) {
			t.Errorf("prompt %d:\nlisted %q\npanel  %q", i+1, g, w)
		}
	}
}

// TestPromptsAreLive: White's think on move 15 of the demo's first game, 2:41 by
// testdata/demo/README.md, is told while it lasts, and that it is over with the move.
func TestPromptsAreLive(t *testing.T) {
	for _, row := range listed(t, demoFile(t), "--games", "1") {
		if row[1] != "14...exd5" || row[3] != "clock" {
			continue
		}
		later, err := time.ParseDuration(strings.Replace(row[2], ":", "m", 1) + "s")
		if err != nil || later < 20*time.Second || later > 161*time.Second || row[7] != "15.f3" {
			t.Errorf("told %q after Black's move, withdrawn with %q: %s", row[2], row[7], row[5])
		}
		return
	}
	t.Error("nothing is told of the think on move 15")
}

// TestPromptsAskReference: with a reference both games are called new where
// testdata/demo/reference.go says that they leave it, and nowhere else.
func TestPromptsAskReference(t *testing.T) {
	file, forget, err := demoReference(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer forget()
	show := write(t, "show.toml", "[[feed]]\nname = \"hall\"\nfile = \"hall.pgn\"\n[reference]\nfile = '"+file+"'\n")
	var found []string
	for _, row := range listed(t, demoFile(t), "--config", show) {
		if row[3] == "reference" && row[4] == "now" {
			found = append(found, row[0]+" "+row[1])
			if row[2] != "" {
				t.Errorf("%s comes %s late", row[5], row[2])
			}
		}
	}
	if want := []string{"1 15.f3", "2 13.b4"}; !slices.Equal(found, want) {
		t.Errorf("new: %q, want %q", found, want)
	}
	broken := write(t, "show.toml", "[[feed]]\nname = \"hall\"\nfile = \"hall.pgn\"\n[reference]\nfile = '"+filepath.Join(t.TempDir(), "no.ref")+"'\n")
	if code, stdout, stderr := call(t, "prompts", demoFile(t), "--config", broken); code != exitFailed || stdout != "" || !strings.Contains(stderr, "no.ref") {
		t.Errorf("a reference that is not there: exit %d, %s", code, stderr)
	}
}

// shuffled is a game of so many plies in which knights go to and fro, without clocks.
func shuffled(plies int, control string) string {
	var moves []string
	for i := range plies {
		moves = append(moves, []string{"Nf3", "Nf6", "Ng1", "Ng8"}[i%4])
	}
	return relaytest.Game{Control: control, Moves: strings.Join(moves, " "), Result: "1-0"}.PGN()
}

// TestPromptsWithoutClocks: the pace of a game without clocks is that of --every, which
// ten minutes bear for sixty moves at five seconds and not at twenty; and each prompt says
// that it is an estimate. The time control may come from the configuration.
func TestPromptsWithoutClocks(t *testing.T) {
	feed := write(t, "feed.toml", "[[feed]]\nname = \"hall\"\nfile = \"hall.pgn\"\ntime_control = \"600\"\n")
	tagged, bare := write(t, "tagged.pgn", shuffled(118, "600")), write(t, "bare.pgn", shuffled(118, ""))
	show := write(t, "show.toml", "[show]\ntime_control = \"600\"\n[[feed]]\nname = \"hall\"\nfile = \"hall.pgn\"\n")
	troubles := func(args ...string) (n int) {
		for _, row := range listed(t, args...) {
			if strings.Contains(row[5], "the last") {
				n++
			}
			if row[3] == "clock" && !strings.Contains(row[6], "estimated") {
				t.Errorf("%v: no word of an estimate: %q", args, row)
			}
		}
		return n
	}
	for _, test := range []struct {
		args []string
		want bool
	}{
		{[]string{tagged}, true}, {[]string{tagged, "--every", "5s"}, false},
		{[]string{bare}, false}, {[]string{bare, "--config", show}, true}, {[]string{bare, "--config", feed}, true},
	} {
		if n := troubles(test.args...); (n > 0) != test.want {
			t.Errorf("%v: %d times in time trouble, want any: %v", test.args, n, test.want)
		}
	}
}

// TestPromptsOfSetUp: a game from a set-up position with Black to move, and one of
// another first rank, are played from there; moves are numbered as their FEN says. By
// the clocks Black's first move takes five minutes.
func TestPromptsOfSetUp(t *testing.T) {
	for _, test := range []struct{ fen, moves, want string }{
		{"4k3/4p3/8/8/8/8/4P3/4K3 b - - 0 31", "31... Kd7 {[%clk 0:09:57]} 32. Kd2 {[%clk 0:09:57]} Kd6 {[%clk 0:04:57]}", "32.Kd2"},
		{"rkrbbnnq/pppppppp/8/8/8/8/PPPPPPPP/RKRBBNNQ w - - 0 1", "1. e4 {[%clk 0:09:57]} e5 {[%clk 0:09:57]} 2. Ng3 {[%clk 0:09:54]} Ng6 {[%clk 0:04:57]}", "2.Ng3"},
	} {
		file := write(t, "setup.pgn", fmt.Sprintf("[White \"Aune\"]\n[Black \"Berg\"]\n[SetUp \"1\"]\n[FEN \"%s\"]\n[TimeControl \"600\"]\n\n%s *\n", test.fen, test.moves))
		rows := listed(t, file)
		at := slices.IndexFunc(rows, func(row []string) bool { return row[1] == test.want && row[3] == "clock" && row[2] != "" })
		if at < 0 || rows[at][8] == test.fen || !strings.Contains(rows[at][8], " b ") {
			t.Errorf("%s: no long think after %s in %q", test.fen, test.want, rows)
		}
	}
}
