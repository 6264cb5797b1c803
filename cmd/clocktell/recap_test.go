package main

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
	"log/slog"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/recap"
	"clocktell/relay/relaytest"
	"clocktell/testdata/demo"
)

// recapJournal keeps the demo's match, as it stands after so long, in a folder.
func recapJournal(t *testing.T, dir string, after time.Duration) {
	t.Helper()
	tb := relay.NewTimebaseAt(rehearsalStart, 1)
	c := demoConfig("http://127.0.0.1/", "", demoShow{language: "en", journal: dir}, tb)
	at := rehearsalStart
	hall, err := newArena(demo.FS, func() time.Time { return at })
	if err != nil {
		t.Fatal(err)
	}
	kept, _, err := openJournal(t.Context(), c, planOf(c, tb), tb, slog.New(slog.DiscardHandler), func(time.Duration) {})
	if err != nil {
		t.Fatal(err)
	}
	in, out := make(chan relay.Event), make(chan relay.Event)
	ctx, stop := context.WithCancel(t.Context())
	ran := make(chan error, 1)
	go func() { ran <- kept.Run(ctx, in, out) }()
	intake := relay.NewIntake("arena")
	for ; after > 0 && at.Before(rehearsalStart.Add(after)); at = at.Add(20 * time.Second) {
		_, since := hall.clock()
		in <- intake.Read(at, hall.text(1, since))
		<-out
	}
	stop()
	if err := <-ran; err != nil {
		t.Fatal(err)
	}
	if err := kept.Close(); err != nil {
		t.Fatal(err)
	}
}

// leaveOut skips a test where CLOCKTELL_TESTS=relay, as with the race detector, which makes
// drawing take minutes: there are no threads in it.
func leaveOut(t *testing.T) {
	t.Helper()
	if os.Getenv("CLOCKTELL_TESTS") == "relay" {
		t.Skip("CLOCKTELL_TESTS=relay leaves the pages out")
	}
}

// runs runs the tool, and returns its exit code and all that it says.
func runs(t *testing.T, args ...string) (int, string) {
	t.Helper()
	var out bytes.Buffer
	code := run(t.Context(), args, &out, &out)
	return code, out.String()
}

// TestRecapVerb writes the recap of a journal, replaces it, and leaves nothing of before.
func TestRecapVerb(t *testing.T) {
	leaveOut(t)
	kept, out := t.TempDir(), filepath.Join(t.TempDir(), "deep", "recap")
	recapJournal(t, kept, 12*time.Minute)
	code, said := runs(t, "recap", "--show", kept, "--out", out)
	if code != exitFine || !strings.Contains(said, "2 games") || !strings.Contains(said, "index.html") {
		t.Fatalf("exit code %d: %s", code, said)
	}
	before := filesIn(t, out)
	for _, want := range []string{"index.html", "all.pgn", "board1.html", "board1.pgn", "board1/tell-line.svg", "board1/tell-line.png", "board1/A.svg", "board1/A.png", "board2.html", "cues/chapters.vtt", "cues/cues.csv", "cues/cues-25fps.edl"} {
		if !slices.Contains(before, want) {
			t.Errorf("there is no %s among %v", want, before)
		}
	}
	for _, stale := range []string{"board9-game2.html", "index.html.part"} { // the second of one that was killed
		if err := os.WriteFile(filepath.Join(out, stale), []byte("old"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	linked := filepath.Join(t.TempDir(), "linked")
	if err := os.Symlink(out, linked); err != nil {
		linked = out
	}
	if code, said := runs(t, "recap", "--show", kept, "--out", linked); code != exitFine {
		t.Fatalf("again: exit code %d: %s", code, said)
	}
	if after := filesIn(t, out); !slices.Equal(after, before) {
		t.Errorf("after the second time %v, want %v", after, before)
	}
}

// TestRecapRefuses: a folder that holds anything else is left as it is, and every error says
// what to do.
func TestRecapRefuses(t *testing.T) {
	kept, empty := t.TempDir(), t.TempDir()
	recapJournal(t, kept, 40*time.Second)
	recapJournal(t, empty, 0)
	for _, c := range []struct {
		name, in, want string
		code           int
		args           []string
	}{
		{"another file", "notes.txt", "holds notes.txt", exitFailed, []string{"--show", kept}},
		{"a page of others", "about.html", "holds about.html", exitFailed, []string{"--show", kept}},
		{"a file deep inside", "board1/family.png", "holds board1/family.png", exitFailed, []string{"--show", kept}},
		{"no games", "", "no games", exitFailed, []string{"--show", empty}},
		{"no journal", "", "cannot be opened", exitFailed, []string{"--show", filepath.Join(kept, "none")}},
		{"an empty folder", "", "no show", exitFailed, []string{"--show", t.TempDir()}},
	} {
		dir := t.TempDir()
		if c.in != "" {
			file := filepath.Join(dir, filepath.FromSlash(c.in))
			if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, []byte("mine"), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		before := filesIn(t, dir)
		code, said := runs(t, append([]string{"recap", "--out", dir}, c.args...)...)
		if code != c.code || !strings.Contains(said, c.want) {
			t.Errorf("%s: exit code %d, %q; want %d and %q", c.name, code, said, c.code, c.want)
		}
		if after := filesIn(t, dir); !slices.Equal(after, before) {
			t.Errorf("%s: the folder holds %v, before %v", c.name, after, before)
		}
	}
	if code, said := runs(t, "recap", "--out", "x", "--rate", "26"); code != exitUsage || !strings.Contains(said, `"26" is no frame rate`) {
		t.Errorf("at another rate: exit code %d: %s", code, said)
	}
	if code, said := runs(t, "recap"); code != exitUsage || !strings.Contains(said, "--out DIR") {
		t.Errorf("without a folder: exit code %d: %s", code, said)
	}
}

// filesIn lists all files below a folder.
func filesIn(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			name, _ := filepath.Rel(dir, path)
			out = append(out, filepath.ToSlash(name))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(out)
	return out
}

// writerFunc is called with everything that is written.
type writerFunc func()

func (f writerFunc) Write(p []byte) (int, error) {
	f()
	return len(p), nil
}

// TestRecapOfRunningShow: the archive has the same files as a recap of the show that was seen
// to go by, and before the first game it says that there is nothing.
func TestRecapOfRunningShow(t *testing.T) {
	leaveOut(t)
	s := tellShow(t, "en")
	seen := looker{relay: relay.New(s.show, relay.NewTimebase(1)), watch: recap.NewWatch()}
	live := recaps{recall: func(context.Context) (*recap.Watch, error) { return recap.NewWatch(), nil }}
	var none bytes.Buffer
	if err := live.zip(t.Context(), &none); !errors.Is(err, recap.ErrNoGames) || none.Len() > 0 {
		t.Errorf("before the first game: error %v, %d bytes", err, none.Len())
	}
	live.recall = seen.recall
	var out bytes.Buffer
	if err := live.zip(t.Context(), &out); err != nil {
		t.Fatal(err)
	}
	archive, err := zip.NewReader(bytes.NewReader(out.Bytes()), int64(out.Len()))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range archive.File {
		names = append(names, strings.TrimPrefix(f.Name, "recap/"))
		if !recapNames.MatchString(strings.TrimPrefix(f.Name, "recap/")) {
			t.Errorf("the archive holds %s", f.Name)
		}
	}
	for _, want := range []string{"index.html", "all.pgn", "board2.html", "board1/tell-line.png"} {
		if !slices.Contains(names, want) {
			t.Errorf("there is no %s among %v", want, names)
		}
	}
	archived := writerFunc(func() {
		if !seen.mu.TryLock() {
			t.Error("while the archive is made nobody can see the show go on")
			return
		}
		seen.mu.Unlock()
	})
	if err := live.write(t.Context(), zip.NewWriter(archived)); err != nil {
		t.Error(err)
	}
	ended, stop := context.WithCancel(t.Context())
	stop()
	if err := live.zip(ended, &out); err == nil {
		t.Error("an archive for somebody who is gone")
	}
}

// TestStationGivesRecap asks a station that runs for the recap of its show.
func TestStationGivesRecap(t *testing.T) {
	base := pagesOf(t, shownGame{Game: relaytest.Game{Moves: "e4 e5 Nf3"}})
	response, err := http.Get(base + "/recap")
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if err != nil || response.StatusCode != http.StatusOK {
		t.Fatalf("%s, %v: %s", response.Status, err, text)
	}
	archive, err := zip.NewReader(bytes.NewReader(text), int64(len(text)))
	if err != nil {
		t.Fatal(err)
	}
	page, err := archive.Open("recap/board1.html")
	if err != nil {
		t.Fatal(err)
	}
	if text, err := io.ReadAll(page); err != nil || !bytes.Contains(text, []byte("</html>")) {
		t.Errorf("the page of board 1: %d bytes, %v", len(text), err)
	}
}
