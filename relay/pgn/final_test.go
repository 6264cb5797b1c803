package pgn_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	corentings "github.com/corentings/chess/v2"
	notnil "github.com/notnil/chess"

	"clocktell/relay/pgn"
)

// sampleStep picks every 11th of the 11,000 library games.
const sampleStep = 11

// TestFinalPositions replays main lines as this package reads them by the rules
// of one library, and compares placement, side to move and castling rights of
// the final position with the one that another library's own PGN scanner gets
// from the same text. Beside the sample it takes every game that starts from a
// FEN tag, and counts those.
func TestFinalPositions(t *testing.T) {
	sampled, setUp := 0, 0
	for _, name := range []string{"big.pgn", "big_big.pgn"} {
		text := libraryText(t, name)
		for i := 0; text != ""; i++ {
			g, end := pgn.Next(text, 1)
			own := text[:end]
			text = text[end:]
			fromFEN := g.Tag("FEN") != ""
			if i%sampleStep != 0 && !fromFEN {
				continue
			}
			sampled++
			if fromFEN {
				setUp++
			}
			got, err := replay(&g)
			if err != nil {
				t.Errorf("%s, game %d: %v", name, i+1, err)
				continue
			}
			want, err := scannedPosition(own)
			if err != nil {
				t.Errorf("%s, game %d: the other scanner: %v", name, i+1, err)
				continue
			}
			if got != want {
				t.Errorf("%s, game %d: final position %q, want %q", name, i+1, got, want)
			}
		}
	}
	if sampled < 1000 {
		t.Errorf("%d games compared, want 1,000 or more", sampled)
	}
	t.Logf("%d games compared, %d of them from a position of their own", sampled, setUp)
}

func libraryText(t *testing.T, name string) string {
	t.Helper()
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/corentings/chess/v2").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	data, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(out)), "fixtures", "pgns", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// replay plays the main line from the start or the FEN tag's position.
func replay(g *pgn.Game) (string, error) {
	pos := notnil.StartingPosition()
	if fen := g.Tag("FEN"); fen != "" {
		pos = new(notnil.Position)
		if err := pos.UnmarshalText([]byte(fen)); err != nil {
			return "", err
		}
	}
	for _, m := range g.Moves {
		move, err := notnil.AlgebraicNotation{}.Decode(pos, m.SAN)
		if err != nil {
			return "", fmt.Errorf("line %d: %s: %w", m.Line, m.SAN, err)
		}
		pos = pos.Update(move)
	}
	return threeFields(pos.String()), nil
}

func scannedPosition(text string) (string, error) {
	game, err := corentings.NewScanner(strings.NewReader(text)).ParseNext()
	if err != nil {
		return "", err
	}
	return threeFields(game.Position().String()), nil
}

// threeFields cuts a FEN behind the castling rights.
func threeFields(fen string) string {
	return strings.Join(strings.Fields(fen)[:3], " ")
}
