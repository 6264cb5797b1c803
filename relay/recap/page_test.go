package recap

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"clocktell/relay/desk"
	"clocktell/relay/relaytest"
)

// files of a recap by their names.
type filesOf map[string][]byte

func writeAll(t *testing.T, w *Watch) filesOf {
	t.Helper()
	out := make(filesOf)
	err := w.Write(func(name string, content []byte) error {
		if out[name] != nil {
			t.Errorf("%s is written twice", name)
		}
		out[name] = content
		return nil
	}, "cues/chapters.vtt", "cues/cues-air-recording2.csv", "cues/cues-29.97fps.edl")
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// leaveOut skips a test where CLOCKTELL_TESTS=relay, as in .ci/run with the race detector: there
// are no threads in drawing, and it takes minutes then.
func leaveOut(t *testing.T) {
	t.Helper()
	if os.Getenv("CLOCKTELL_TESTS") == "relay" {
		t.Skip("CLOCKTELL_TESTS=relay leaves the pages out")
	}
}

// troubled is the recap of trouble in English, made once for all tests that only look at it.
var troubled filesOf

func ofTrouble(t *testing.T) filesOf {
	t.Helper()
	leaveOut(t)
	if troubled == nil {
		troubled = writeAll(t, trouble(t, "en"))
	}
	return troubled
}

// trouble is a show of games that are hard to draw.
func trouble(t *testing.T, language string) *Watch {
	t.Helper()
	plan := relaytest.Plan()
	plan.Language, plan.Title = language, `<b>Title</b> & "more" 日本`
	plan.MaxBoards = 20
	s := relaytest.NewStageOf(plan)
	w := NewWatch()
	script := `<script>alert("1")</script>`
	games := []relaytest.Game{
		{White: script, Black: `"><img src=x onerror=alert(1)>`, Control: "600+5", Moves: "e4 e5 Qh5 Nc6 Bc4 Nf6 Qxf7#", Clocks: strings.Fields("0:10:03 0:10:01 0:09:55 0:08:50 0:09:50 0:05:20.5 0:09:40"), Result: "1-0"},
		{White: "كاسباروف, اسم", Black: "羽生, 善治", Moves: "d4 d5", Result: "1/2-1/2"},
		{White: strings.Repeat("Langname-", 20), Black: "X", Moves: long(300, 5), Result: "0-1"},
		{White: "No", Black: "Clocks", Moves: "Nf3 Nf6 Ng1 Ng8 Nf3 Nf6 Ng1 Ng8"},
		{White: "Under", Black: "Way", Control: "5400+30", Moves: "e4 c5 Nf3", Clocks: strings.Fields("1:30:00 1:29:00 1:10:00")},
		{White: "Empty", Black: "Game"},
		{White: "Other", Black: "Rules", Moves: "e4"},
	}
	for i := range games {
		games[i].Round, games[i].Table = "1", fmt.Sprint(i+1)
	}
	refused := func(text string) string {
		return strings.Replace(text, `[White "Other"]`, `[White "Other"]`+"\n"+`[FEN "nrkbbqrn/pppppppp/8/8/8/8/PPPPPPPP/NRKBBQRN w HAha - 0 1"]`+"\n"+`[SetUp "1"]`, 1)
	}
	s.Take(refused(relaytest.Packet(games...)))
	w.See(s.Show)
	games[1].White, games[1].Black, games[1].Moves, games[1].Round, games[1].Result = "Second", "Game", "c4", "2", ""
	s.Take(refused(relaytest.Packet(games...)))
	w.See(s.Show)
	for i, text := range hostile {
		g := w.Games()[i%3]
		g.Said = append(g.Said, Said{Key: fmt.Sprint(i), Text: text, By: text, At: s.Now, Plies: i % 5, OnAir: i%2 == 0})
		if fen := g.Board.FENAfter(2); len(g.Board.Plies) > 1 {
			g.Lines = append(g.Lines, Line{Shown: desk.Shown{Ply: 2, FEN: fen, Moves: randomLine(fen, 3, rand.New(rand.NewPCG(uint64(i), 1))), Name: text}})
			g.Asked = append(g.Asked, &desk.Challenge{ID: i, Place: desk.Place{Ply: 2}, FEN: fen, Question: text, Hints: []string{text}, Given: 1, For: time.Minute})
		}
	}
	return w
}

// long is a game of so many full moves, played by chance.
func long(moves int, seed uint64) string {
	r := rand.New(rand.NewPCG(seed, 1))
	var out []string
	fen := "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"
	for len(out) < 2*moves {
		line := randomLine(fen, len(out)+1, r)
		if len(line) == 0 {
			break
		}
		out, fen = append(out, line[0].SAN), line[0].FEN
	}
	return strings.Join(out, " ")
}

// TestPagesAreWhole writes the recap of games that are hard to draw, and has each page read by
// parse5 (npm), which knows the HTML standard: no parse error, nothing fetched, nothing run.
func TestPagesAreWhole(t *testing.T) {
	node, err := exec.LookPath("node")
	if err == nil {
		_, err = os.Stat("../../static/lint/node_modules/parse5")
	}
	if err != nil {
		const need = "parse5 is missing; run npm ci --prefix static/lint"
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatalf("%s: %v", need, err)
		}
		t.Skip(need)
	}
	dir := t.TempDir()
	var names []string
	for name, content := range ofTrouble(t) {
		if strings.HasSuffix(name, ".html") {
			file := filepath.Join(dir, name)
			if err := os.WriteFile(file, content, 0o600); err != nil {
				t.Fatal(err)
			}
			names = append(names, file)
		}
	}
	planted := filepath.Join(dir, "planted.html")
	os.WriteFile(planted, []byte(`<!doctype html><p id=a><p id=a><img src=x><a href="https://example.org/">x</a><b></p>`), 0o600)
	out, err := exec.Command(node, append([]string{"testdata/wellformed.mjs", planted}, names...)...).CombinedOutput()
	var found []string
	if err == nil {
		err = json.Unmarshal(out, &found)
	}
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	seen := 0
	for _, f := range found {
		if strings.HasPrefix(f, planted) {
			seen++
		} else {
			t.Error(f)
		}
	}
	if seen < 4 || len(names) < 9 {
		t.Errorf("%d of four planted faults found, %d pages read", seen, len(names))
	}
}

// TestHostileNames: what people and feeds write is text on every page, and in every picture.
func TestHostileNames(t *testing.T) {
	for name, content := range ofTrouble(t) {
		for _, bad := range []string{"<script", "<img", "onerror=alert(1)>", "<b>Title"} {
			if strings.HasSuffix(name, ".pgn") || strings.HasSuffix(name, ".png") {
				continue
			}
			if strings.Contains(string(content), bad) {
				t.Errorf("%s has %q", name, bad)
			}
		}
	}
}

// TestFilesOfTrouble looks at what is told of each of the games that are hard to draw.
func TestFilesOfTrouble(t *testing.T) {
	files := ofTrouble(t)
	for _, c := range []struct{ name, want string }{
		{"board1.html", "10 min &#43; 5 s for each side"}, {"board1.html", "longest think of the game: 3:34"},
		{"board2-game1.html", "羽生"}, {"board2-game2.html", "Second"}, {"board2-game1.html", "كاسباروف"},
		{"board3.html", "The feed told no clocks of this game."}, {"board4.html", "no reading"}, {"board4.html", "Still under way"},
		{"board5.html", "1:10:00"}, {"board6.html", "No move was played."}, {"board7.html", "The game is told no further"},
		{"index.html", "board2-game2.html"}, {"board7.pgn", "nrkbbqrn"}, {"board1.pgn", "[%clk 0:05:20.5]"}, {"all.pgn", `[White "Second"]`},
	} {
		if !strings.Contains(string(files[c.name]), c.want) {
			t.Errorf("%s does not tell %q", c.name, c.want)
		}
	}
	if n := strings.Count(string(files["all.pgn"]), "\n[Site "); n != 8 {
		t.Errorf("%d games in all.pgn, want 8", n)
	}
	for name, content := range files {
		if size := len(content); size > 900_000 {
			t.Errorf("%s has %d kB", name, size/1000)
		}
	}
}

// TestNoGames: a show that had none says so, and writes nothing.
func TestNoGames(t *testing.T) {
	w := NewWatch()
	w.See(relaytest.NewStage().Show)
	err := w.Write(func(name string, _ []byte) error {
		t.Errorf("%s is written", name)
		return nil
	})
	if !errors.Is(err, ErrNoGames) {
		t.Errorf("error %v, want ErrNoGames", err)
	}
	if err := NewWatch().Write(nil); !errors.Is(err, ErrNoGames) {
		t.Errorf("error %v before anything was seen, want ErrNoGames", err)
	}
}

// TestSinkFails: an error of the sink ends the writing, and is what comes back.
func TestSinkFails(t *testing.T) {
	leaveOut(t)
	full, calls := errors.New("disk full"), 0
	err := trouble(t, "en").Write(func(string, []byte) error {
		if calls++; calls == 5 {
			return full
		}
		return nil
	})
	if !errors.Is(err, full) || calls != 5 {
		t.Errorf("error %v after %d files", err, calls)
	}
}

// TestWordsAreWhole: every language has every word, with as many places to fill as English.
func TestWordsAreWhole(t *testing.T) {
	want := wordsOf(t, &english)
	for code, in := range Languages {
		got := wordsOf(t, in)
		for name, text := range got {
			if strings.TrimSpace(text) == "" || strings.Count(text, "{}") != strings.Count(want[name], "{}") {
				t.Errorf("%s, %s: %q, in English %q", code, name, text, want[name])
			}
			if code != "en" && text == want[name] && !sameInAll[name] {
				t.Errorf("%s, %s: %q is English", code, name, text)
			}
		}
		if in.Code != code {
			t.Errorf("%s calls itself %s", code, in.Code)
		}
	}
}

// sameInAll are words that may be the same in another language.
var sameInAll = map[string]bool{"Range": true, "Months": true}

func wordsOf(t *testing.T, in *Words) map[string]string {
	t.Helper()
	text, err := json.Marshal(in)
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]any
	if err := json.Unmarshal(text, &all); err != nil {
		t.Fatal(err)
	}
	out := make(map[string]string)
	for name, value := range all {
		out[name] = fmt.Sprint(value)
	}
	return out
}
