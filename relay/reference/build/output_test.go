package build

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestOutputSpared: a build never writes over what no build has written, whatever path
// leads there, and says so before it reads a game.
func TestOutputSpared(t *testing.T) {
	dir := t.TempDir()
	notes, folder, games := filepath.Join(dir, "notes"), filepath.Join(dir, "folder"), mustWrite(t, "collection", bzip2Text)
	link := filepath.Join(dir, "link")
	must(t, os.WriteFile(notes, []byte("kept"), 0o600), os.Mkdir(folder, 0o700), os.Symlink(games, link))
	for out, want := range map[string]string{
		notes: "no reference", folder: "folder", folder + "/": "folder", dir + "/new/": "folder", games: "twice", link: "twice",
	} {
		o := options(t, games)
		o.Out = out
		if _, err := Run(t.Context(), o); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("--out %s: %v, want %q", filepath.Base(out), err, want)
		}
		if _, err := os.Stat(out + ".work"); err == nil {
			t.Errorf("--out %s leaves a work directory", filepath.Base(out))
		}
	}
	for path, want := range map[string]string{notes: "kept", games: bzip2Text} {
		if text, err := os.ReadFile(path); err != nil || string(text) != want {
			t.Errorf("%s holds %q, %v", filepath.Base(path), text, err)
		}
	}
}

// TestOutputReplaced: a reference, even a damaged one, and an empty file are replaced.
func TestOutputReplaced(t *testing.T) {
	o := options(t, mustWrite(t, "games.pgn", bzip2Text))
	for _, damage := range []func() error{
		func() error { return os.WriteFile(o.Out, nil, 0o600) },
		func() error { return nil },
		func() error { return os.Truncate(o.Out, 300) },
	} {
		must(t, damage())
		if _, err := Run(t.Context(), o); err != nil {
			t.Error(err)
		}
	}
}

// TestNothingReadNothingKept: a build that failed before it had read anything stands in
// nobody's way: the next one may have other files and options.
func TestNothingReadNothingKept(t *testing.T) {
	o := options(t, mustWrite(t, "games.pgn.gz", "\x1f\x8b broken"))
	if _, err := Run(t.Context(), o); err == nil {
		t.Fatal("a broken packed file was read")
	}
	o.Inputs = []string{mustWrite(t, "games.pgn", bzip2Text)}
	if _, err := Run(t.Context(), o); err != nil {
		t.Error(err)
	}
}
