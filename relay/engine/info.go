package engine

import (
	"strconv"
	"strings"

	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// info is what an info line of UCI says of a line of play, from the view of the side to
// move.
type info struct {
	depth   int
	multi   int // number of the line, from 1
	nodes   uint64
	scored  bool
	score   opinion.Score
	chances *opinion.Chances
	moves   []string
}

// readInfo reads the words after "info". It reports false when a figure is none, or out
// of all bounds. What it does not know it passes over, as the protocol has it.
func readInfo(words []string) (info, bool) {
	in := info{multi: 1}
	for len(words) > 0 {
		word := words[0]
		words = words[1:]
		ok := true
		switch word {
		case "depth":
			in.depth, words, ok = number(words, 0, depthMost)
		case "multipv":
			in.multi, words, ok = number(words, 1, LinesMost)
		case "nodes":
			in.nodes, words, ok = count(words)
		case "score":
			words, ok = in.readScore(words)
		case "lowerbound":
			in.score.Bound = opinion.AtLeast
		case "upperbound":
			in.score.Bound = opinion.AtMost
		case "wdl":
			words, ok = in.readChances(words)
		case "pv":
			in.moves, words = movesOf(words)
		case "string":
			words = nil
		}
		if !ok {
			return info{}, false
		}
	}
	return in, true
}

// number reads the first word as a number within bounds.
func number(words []string, least, most int) (int, []string, bool) {
	if len(words) == 0 {
		return 0, nil, false
	}
	n, err := strconv.Atoi(words[0])
	return n, words[1:], err == nil && n >= least && n <= most
}

func count(words []string) (uint64, []string, bool) {
	if len(words) == 0 {
		return 0, nil, false
	}
	n, err := strconv.ParseUint(words[0], 10, 64)
	return n, words[1:], err == nil
}

func (in *info) readScore(words []string) ([]string, bool) {
	if len(words) < 2 {
		return nil, false
	}
	kind, ok := words[0], false
	switch kind {
	case "cp":
		in.score.Centipawns, words, ok = number(words[1:], -centipawnMost, centipawnMost)
	case "mate":
		in.score.Mate, words, ok = number(words[1:], -mateMost, mateMost)
		ok = ok && in.score.Mate != 0 // a side that is mated has no line
	}
	in.scored = ok
	return words, ok
}

// wholeChance is what the three of Chances come to.
const wholeChance = 1000

func (in *info) readChances(words []string) ([]string, bool) {
	var parts [3]int
	for i := range parts {
		var ok bool
		if parts[i], words, ok = number(words, 0, wholeChance); !ok {
			return words, false
		}
	}
	if parts[0]+parts[1]+parts[2] != wholeChance {
		return words, false
	}
	in.chances = &opinion.Chances{Win: parts[0], Draw: parts[1], Loss: parts[2]}
	return words, true
}

// movesOf returns the words up to the first that is not written like a move, and the rest.
func movesOf(words []string) (moves, rest []string) {
	n := 0
	for n < len(words) && looksLikeMove(words[n]) {
		n++
	}
	return words[:n], words[n:]
}

func looksLikeMove(s string) bool {
	if len(s) != 4 && len(s) != 5 {
		return false
	}
	return isSquare(s[:2]) && isSquare(s[2:4]) || s == "0000"
}

func isSquare(s string) bool { return s[0] >= 'a' && s[0] <= 'h' && s[1] >= '1' && s[1] <= '8' }

// promotionsOf are the letters of UCI for what a pawn becomes.
const promotionsOf = "nbrq"

var promoted = [...]bitboard.PieceType{bitboard.Knight, bitboard.Bishop, bitboard.Rook, bitboard.Queen}

// moveOf reads a move as UCI writes it and reports whether it can be played.
func moveOf(p *bitboard.Position, text string) (bitboard.Move, bool) {
	if !looksLikeMove(text) || text == "0000" {
		return bitboard.NoMove, false
	}
	becomes := bitboard.NoPieceType
	if len(text) == 5 {
		i := strings.IndexByte(promotionsOf, text[4])
		if i < 0 {
			return bitboard.NoMove, false
		}
		becomes = promoted[i]
	}
	m := bitboard.NewMove(square(text[:2]), square(text[2:4]), becomes)
	return m, p.IsLegal(m)
}

func square(s string) bitboard.Square {
	return bitboard.Square(int(s[0]-'a') + 8*int(s[1]-'1'))
}
