package main

import (
	"cmp"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	corentings "github.com/corentings/chess/v2"
)

// How many plies both games have before a fault, and in the packets of it.
const (
	beforePlies = 4
	duringPlies = 6
)

// usualMoves is what most games that suffer play: eight plies with castling.
const usualMoves = "e4 e5 Nf3 Nc6 Bc4 Bc5 O-O Nf6"

// goodLine is the game beside it.
var goodLine = strings.Fields("d4 d5 c4 e6 Nc3 Nf6 Bg5 Be7")

// Names of the players, the good game's behind.
const (
	badWhite, badBlack   = "Alba, Anna", "Brånt, Bö"
	goodWhite, goodBlack = "Corin, Cem", "Dorn, Dana"
)

// leftAfter is what the clock of the side that moved shows after a ply, from 1: White
// spends 12 seconds on each move, Black more than three minutes on the first and then
// 14 seconds. So the clocks of the two sides cannot be mistaken for one another.
func leftAfter(ply int) time.Duration {
	move := time.Duration(ply+1) / 2
	if ply%2 == 1 {
		return 600*time.Second - move*7*time.Second
	}
	return 420*time.Second - move*9*time.Second
}

// clk is the command that says so.
func clk(ply int) string {
	left := leftAfter(ply) / time.Second
	return fmt.Sprintf("{[%%clk 0:%02d:%02d]}", left/60, left%60)
}

// gameText writes a game as an arena would, a full move in each line.
func gameText(white, black string, moves []string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "[Event \"Fault Hall\"]\n[Site \"?\"]\n[Date \"2026.10.17\"]\n[Round \"1\"]\n[White %q]\n[Black %q]\n[Result \"*\"]\n[TimeControl \"600+5\"]\n\n", white, black)
	for i, move := range moves {
		if i%2 == 0 {
			fmt.Fprintf(&b, "%d. %s %s", i/2+1, move, clk(i+1))
		} else {
			fmt.Fprintf(&b, " %s %s\n", move, clk(i+1))
		}
	}
	return b.String() + "\n*\n\n"
}

func (s *faultScene) moves() []string {
	if s.row.moves != "" {
		return strings.Fields(s.row.moves)
	}
	return strings.Fields(usualMoves)
}

// faultGames are the two games of a scene, at any ply.
type faultGames struct{ s *faultScene }

func (g faultGames) bad(plies int) string { return gameText(badWhite, badBlack, g.s.moves()[:plies]) }

func (g faultGames) good(plies int) string { return gameText(goodWhite, goodBlack, goodLine[:plies]) }

// packet is both games as they should be.
func (s *faultScene) packet(bad, good int) string {
	g := faultGames{s}
	return s.joined(g.bad(bad), g.good(good))
}

func (s *faultScene) joined(bad, good string) string {
	if s.row.last {
		return good + bad
	}
	return bad + good
}

func (s *faultScene) before() int { return cmp.Or(s.row.before, beforePlies) }

func (s *faultScene) during() int { return cmp.Or(s.row.during, duringPlies) }

// faultPackets are the texts served during the fault.
func (s *faultScene) faultPackets() []string {
	g := faultGames{s}
	if s.row.packets != nil {
		return s.row.packets(g)
	}
	whole := g.bad(s.during())
	spoiled := s.row.game(whole)
	if spoiled == whole {
		s.t.Fatal("the row changes nothing: it shows nothing")
	}
	return []string{s.joined(spoiled, g.good(duringPlies))}
}

// instead returns a function that replaces each odd text by the next one.
func instead(pairs ...string) func(string) string {
	return func(text string) string {
		for i := 0; i < len(pairs); i += 2 {
			if !strings.Contains(text, pairs[i]) {
				return text // so that the row is told to change nothing
			}
			text = strings.ReplaceAll(text, pairs[i], pairs[i+1])
		}
		return text
	}
}

// otherLibrary guards the library below, which keeps a board that all its users share.
var otherLibrary sync.Mutex

// fenAfter is the position after moves in SAN by another library than the show's:
// placement, side to move and castling rights.
func fenAfter(t *testing.T, moves []string) string {
	t.Helper()
	otherLibrary.Lock()
	defer otherLibrary.Unlock()
	game, err := corentings.NewScanner(strings.NewReader(numberedText(moves))).ParseNext()
	if err != nil {
		t.Fatalf("the other library: %v", err)
	}
	return threeFields(game.Position().String())
}

func numberedText(moves []string) string {
	var b strings.Builder
	for i, move := range moves {
		if i%2 == 0 {
			fmt.Fprintf(&b, "%d. ", i/2+1)
		}
		b.WriteString(move + " ")
	}
	return b.String() + "*\n"
}

// threeFields cuts a FEN behind the castling rights.
func threeFields(fen string) string { return strings.Join(strings.Fields(fen)[:3], " ") }
