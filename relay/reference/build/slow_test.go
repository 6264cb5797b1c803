package build

import (
	"regexp"
	"strings"
	"testing"

	"github.com/notnil/chess"
)

// slowCount counts what an index should hold, as obviously as can be: games taken apart
// with regular expressions and played with github.com/notnil/chess v1.10.0, and every
// position kept with every game that reached it.
type slowCount struct {
	t      *testing.T
	games  []map[string]string // tags
	visits map[string][]visit  // by position
	fens   map[string]string   // of a position
	steps  map[string]step
}

// step is a move in UCI notation, and what it leads to.
type step struct {
	move string
	to   *chess.Position
}

// visit says that a game reached a position first and went on with a move in UCI
// notation, or with none.
type visit struct {
	game int
	move string
}

var (
	tagPair   = regexp.MustCompile(`(?m)^\[(\w+) "(.*)"\]\s*$`)
	comments  = regexp.MustCompile(`\{[^}]*\}`)
	variation = regexp.MustCompile(`\([^()]*\)`)
	noMove    = regexp.MustCompile(`^(\d+\.*|\$\d+|1-0|0-1|1/2-1/2|\*)$`)
	marks     = regexp.MustCompile(`[!?]+$`)
)

// mainLine returns the moves of a game.
func mainLine(text string) []string {
	text = comments.ReplaceAllString(tagPair.ReplaceAllString(text, ""), " ")
	for variation.MatchString(text) {
		text = variation.ReplaceAllString(text, " ")
	}
	var moves []string
	for _, word := range strings.Fields(text) {
		if !noMove.MatchString(word) {
			moves = append(moves, marks.ReplaceAllString(word, ""))
		}
	}
	return moves
}

// countSlowly counts games of PGN text for so many plies, doubles once.
func countSlowly(t *testing.T, text string, depth int) *slowCount {
	c := &slowCount{t: t, visits: make(map[string][]visit), fens: make(map[string]string), steps: make(map[string]step)}
	seen := make(map[string]bool)
	for _, game := range strings.Split(text, "[Event ")[1:] {
		game = "[Event " + game
		tags := make(map[string]string)
		for _, pair := range tagPair.FindAllStringSubmatch(game, -1) {
			tags[pair[1]] = pair[2]
		}
		moves := mainLine(game)
		double := strings.Join(append([]string{tags["White"], tags["Black"], tags["Date"][:4]}, moves...), " ")
		if len(moves) == 0 || seen[double] {
			continue
		}
		seen[double] = true
		c.games = append(c.games, tags)
		c.play(len(c.games)-1, tags["FEN"], moves[:min(len(moves), depth)])
	}
	return c
}

func (c *slowCount) play(game int, fen string, moves []string) {
	at := chess.StartingPosition()
	if fen != "" {
		set, err := chess.FEN(fen)
		if err != nil {
			c.t.Fatalf("game %d: %v", game, err)
		}
		at = chess.NewGame(set).Position()
	}
	been := make(map[string]bool)
	for i := 0; ; i++ {
		key := positionKey(at)
		var next step
		if i < len(moves) {
			next = c.step(key, at, moves[i])
		}
		if !been[key] {
			been[key] = true
			c.visits[key] = append(c.visits[key], visit{game, next.move})
			c.fens[key] = at.String()
		}
		if i >= len(moves) {
			return
		}
		at = next.to
	}
}

// step makes a move, or remembers what it made of the same position.
func (c *slowCount) step(key string, at *chess.Position, san string) step {
	known, ok := c.steps[key+san]
	if !ok {
		move, err := chess.AlgebraicNotation{}.Decode(at, san)
		if err != nil {
			c.t.Fatalf("%s in %s: %v", san, at, err)
		}
		known = step{move.String(), at.Update(move)}
		c.steps[key+san] = known
	}
	return known
}

// positionKey is what makes positions the same by the Laws (FIDE Laws of Chess 2023,
// 9.2.3): en passant only where it can be played.
func positionKey(p *chess.Position) string {
	key := p.Board().String() + p.Turn().String() + p.CastleRights().String()
	if p.EnPassantSquare() == chess.NoSquare {
		return key
	}
	for _, move := range p.ValidMoves() {
		if move.HasTag(chess.EnPassant) {
			return key + p.EnPassantSquare().String()
		}
	}
	return key
}
