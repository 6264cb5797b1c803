package relay_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"clocktell/relay"
	"clocktell/relay/pgn"
)

// TestLibraryGamesPlay plays games of the general-purpose chess library
// github.com/corentings/chess/v2 v2.3.2 (folder fixtures/pgns, 11,000 games)
// through our own reading of moves: every seventh of them, all plies legal.
func TestLibraryGamesPlay(t *testing.T) {
	const every = 7
	limits := pgn.DefaultLimits
	limits.Games = 20_000 // these files are no packets
	played, plies := 0, 0
	for _, name := range []string{"big.pgn", "big_big.pgn"} {
		for i, game := range limits.Read(libraryFile(t, name)) {
			if i%every != 0 {
				continue
			}
			report := relay.Examine(&game, relay.Defaults{})
			if !report.Good() {
				t.Errorf("%s, game %d: %s: %v", name, i+1, report.Summary, report.Faults)
			}
			played++
			plies += len(game.Moves)
		}
	}
	t.Logf("%d games with %d plies played", played, plies)
	if played < 1000 {
		t.Errorf("only %d games played, want 1,000", played)
	}
}

func libraryFile(t *testing.T, name string) []byte {
	t.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/corentings/chess/v2").Output()
	if err != nil {
		t.Fatalf("where is the library: %v", err)
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "fixtures", "pgns", name))
	if err != nil {
		t.Fatal(err)
	}
	return text
}
