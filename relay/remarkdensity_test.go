package relay_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/pgn"
	"clocktell/relay/prompt"
	"clocktell/relay/relaytest"
)

// densityGames is how many games are told with clocks to count what the panel gets.
const densityGames = 10

// TestPromptDensity: with clocks and positions together a full move gets one prompt or none as a rule, and
// where there is one on the position, three at most. (An urgent word of the tell comes
// whatever was said, see TestFullMoveBudget.)
func TestPromptDensity(t *testing.T) {
	var perMove, withFacts []int
	byKind := make(map[prompt.Kind]int)
	for i, game := range spreadGames(t, densityGames) {
		counts, facts := make([]int, (len(game.Moves)+1)/2), make([]int, (len(game.Moves)+1)/2)
		for _, item := range panelOf(&game, uint64(i)) {
			byKind[item.Kind]++
			counts[(item.Alert.Ply-1)/2]++
			if item.Kind == prompt.KindFacts {
				facts[(item.Alert.Ply-1)/2]++
			}
		}
		for move, n := range counts {
			perMove = append(perMove, n)
			if facts[move] > 0 {
				withFacts = append(withFacts, n)
			}
		}
	}
	slices.Sort(perMove)
	n, most := len(perMove), slices.Max(withFacts)
	t.Logf("%d full moves: median %d, nine tenths up to %d, most %d; with one on the position most %d; by kind %v",
		n, perMove[n/2], perMove[n*9/10], perMove[n-1], most, byKind)
	if most > 3 || perMove[n/2] > 1 {
		t.Errorf("median %d, most with positions %d; want at most 1 and 3", perMove[n/2], most)
	}
	if byKind[prompt.KindFacts] < 3*densityGames || byKind[prompt.KindClock]+byKind[prompt.KindTell] < densityGames {
		t.Errorf("too few to say anything: %v", byKind)
	}
}

// panelOf tells a game with made-up thinks, ply by ply, and returns every prompt that was on the panel.
func panelOf(game *pgn.Game, seed uint64) []relay.BoardPrompt {
	draw := rand.New(rand.NewPCG(seed, 0))
	stage := relaytest.NewStage()
	told := relaytest.Game{Control: "5400+30"}
	left := [2]time.Duration{90 * time.Minute, 90 * time.Minute}
	listed := make(map[string]bool)
	var all []relay.BoardPrompt
	var moves []string
	for i, move := range game.Moves {
		spent := time.Duration(1+draw.IntN(20)) * time.Second
		if i > 16 {
			spent = time.Duration(5+draw.ExpFloat64()*100) * time.Second
		}
		spent = min(spent, left[i%2]/4)
		left[i%2] += 30*time.Second - spent
		moves = append(moves, move.SAN)
		told.Moves = strings.Join(moves, " ")
		told.Clocks = append(told.Clocks, clockText(left[i%2].Truncate(time.Second)))
		stage.Same(spent)
		stage.Take(told.PGN())
		for _, item := range stage.Show.Said.Items {
			if key := item.Alert.ID + item.Alert.At.String(); !listed[key] {
				listed[key] = true
				all = append(all, item)
			}
		}
	}
	return all
}
