package pgn

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// readAll has room for the 10,000 games of the bigger library file.
var readAll = func() Limits {
	l := DefaultLimits
	l.Games = 20_000
	return l
}()

// libraryFile returns a file of games that come with a Go module which only the
// tests use; they are read where the module lies.
func libraryFile(tb testing.TB, name string) []byte {
	tb.Helper()
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/corentings/chess/v2").Output()
	if err != nil {
		tb.Fatalf("go list: %v", err)
	}
	data, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(out)), "fixtures", "pgns", name))
	if err != nil {
		tb.Fatal(err)
	}
	return data
}

// TestLibraryGames reads whole files written by others. The number of games is
// that of lines beginning with an Event tag, counted by a regular expression.
func TestLibraryGames(t *testing.T) {
	event := regexp.MustCompile(`(?m)^\[Event `)
	for _, name := range []string{"big.pgn", "big_big.pgn"} {
		data := libraryFile(t, name)
		games := readAll.Read(data)
		if got, want := len(games), len(event.FindAll(data, -1)); got != want {
			t.Errorf("%s: %d games, want %d", name, got, want)
		}
		plies, faults := 0, 0
		for _, g := range games {
			plies += len(g.Moves)
			faults += len(g.Faults)
			for _, f := range g.Faults {
				t.Errorf("%s line %d: %s %q in game of line %d", name, f.Line, f.Reason, f.Detail, g.Line)
			}
		}
		t.Logf("%s: %d bytes, %d games, %d main line moves, %d faults", name, len(data), len(games), plies, faults)
	}
}
