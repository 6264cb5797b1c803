package build

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"clocktell/relay/reference"
)

// libraryFiles are games of the general-purpose chess library
// github.com/corentings/chess/v2 v2.3.2 (folder fixtures/pgns): 1,000 with comments and
// variations, 10,000 bare.
func libraryFiles(t testing.TB) []string {
	t.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/corentings/chess/v2").Output()
	if err != nil {
		t.Fatalf("where is the library: %v", err)
	}
	pgns := filepath.Join(strings.TrimSpace(string(dir)), "fixtures", "pgns")
	return []string{filepath.Join(pgns, "big.pgn"), filepath.Join(pgns, "big_big.pgn")}
}

// someGames writes a file with every nth game of the library's and returns its path.
func someGames(t testing.TB, nth int) string {
	t.Helper()
	var out strings.Builder
	n := 0
	for _, path := range libraryFiles(t) {
		text := mustRead(t, path)
		for _, game := range strings.Split(text, "[Event ")[1:] {
			if n++; n%nth == 0 {
				out.WriteString("[Event " + game)
			}
		}
	}
	return mustWrite(t, "games.pgn", out.String())
}

func mustRead(t testing.TB, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// mustWrite writes a file in a folder of its own.
func mustWrite(t testing.TB, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// options are for a build into a folder of its own.
func options(t testing.TB, inputs ...string) Options {
	t.Helper()
	return Options{Out: filepath.Join(t.TempDir(), "games.ref"), Inputs: inputs, Depth: DepthDefault}
}

// mustBuild builds, and holds the work directory to be gone.
func mustBuild(t testing.TB, o Options) Report {
	t.Helper()
	report, err := Run(t.Context(), o)
	if err != nil {
		t.Fatal(err)
	}
	mustNotExist(t, o.Out+".work")
	return report
}

func mustNotExist(t testing.TB, path string) {
	t.Helper()
	if _, err := os.Stat(path); !os.IsNotExist(err) {
		t.Errorf("%s is there: %v", filepath.Base(path), err)
	}
}

func mustOpen(t testing.TB, path string) *reference.Index {
	t.Helper()
	index, err := reference.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { index.Close() })
	if err := index.Verify(); err != nil {
		t.Fatal(err)
	}
	return index
}
