package remark

import (
	"slices"
	"strings"
	"testing"
	"unicode"

	"clocktell/relay/bitboard"
)

// mirroredFEN turns the board upside down and swaps the colours, with a FEN alone.
func mirroredFEN(fen string) string {
	fields := strings.Fields(fen)
	ranks := strings.Split(fields[0], "/")
	slices.Reverse(ranks)
	swap := func(r rune) rune {
		if unicode.IsUpper(r) {
			return unicode.ToLower(r)
		}
		return unicode.ToUpper(r)
	}
	fields[0], fields[2] = strings.Map(swap, strings.Join(ranks, "/")), strings.Map(swap, fields[2])
	fields[1] = map[string]string{"w": "b", "b": "w"}[fields[1]]
	fields[3] = strings.NewReplacer("3", "6", "6", "3").Replace(fields[3])
	return strings.Join(fields, " ")
}

// mirroredRemark is what a remark becomes on the mirrored board.
func mirroredRemark(r Remark) Remark {
	m := r
	if !r.Rule.Neutral() {
		m.Side = r.Side.Other()
	}
	if r.Move != bitboard.NoMove {
		m.Move = bitboard.NewMove(r.Move.From()^56, r.Move.To()^56, r.Move.Promotion())
	}
	for i := range r.Squares() {
		m.on[i] = r.on[i] ^ 56
		if r.men[i] != bitboard.NoPiece {
			m.men[i] = bitboard.NewPiece(r.men[i].Colour().Other(), r.men[i].Type())
		}
	}
	switch r.Rule {
	case CentreClosed: // names White's pawns first
		m.on[0], m.on[1], m.on[2], m.on[3] = m.on[2], m.on[3], m.on[0], m.on[1]
		m.men[0], m.men[1], m.men[2], m.men[3] = m.men[2], m.men[3], m.men[0], m.men[1]
	case QueensGone: // White's pieces are in the lower six bits
		m.Amount = r.Amount>>6 | r.Amount&63<<6
	case PawnsTouch, QueensFace, PassersBoth, Opposition: // name White's man first
		m.on[0], m.on[1], m.men[0], m.men[1] = m.on[1], m.on[0], m.men[1], m.men[0]
		if r.Rule == Opposition {
			m.Amount = 1 - r.Amount
		}
	case EndingBegun, SquareFought, PawnsLeft:
		m.Amount = r.Amount%10*10 + r.Amount/10
	}
	return m
}

// TestSymmetry plays the library's games on the mirrored board as well: the same is said with the
// sides swapped, at the same moment.
func TestSymmetry(t *testing.T) {
	compared, games := 0, 100
	if full() {
		games = 1000
	}
	seen := make(map[Rule]bool)
	for _, game := range libraryGames(t, games) {
		steps := played(t, &game)
		start := bitboard.Start()
		p := position(t, mirroredFEN(start.FEN()))
		state := Begin(&p)
		for i := range steps {
			before := p
			m := steps[i].move
			m = bitboard.NewMove(m.From()^56, m.To()^56, m.Promotion())
			p.Make(m)
			// The counters run on with Black's move: take those of the game.
			p = position(t, mirroredFEN(steps[i].after.FEN()))
			state = state.Next(&before, m, &p, mirroredHashes(t, steps, i)...)
			for _, r := range steps[i].state.Remarks() {
				compared++
				seen[r.Rule] = true
				if want := mirroredRemark(r); !slices.Contains(state.Remarks(), want) {
					t.Fatalf("%s: %v\n%v", steps[i].after.FEN(), steps[i].state, state)
				}
			}
			if len(state.Remarks()) != len(steps[i].state.Remarks()) {
				t.Fatalf("%s: %v, mirrored %v", steps[i].after.FEN(), steps[i].state.Remarks(), state.Remarks())
			}
		}
	}
	t.Logf("%d remarks of %d rules compared", compared, len(seen))
	if len(seen) < 40 {
		t.Errorf("only %d rules spoke", len(seen))
	}
}

// mirroredHashes are the hashes of the mirrored positions before the one at index i.
func mirroredHashes(t *testing.T, steps []step, i int) []uint64 {
	if len(steps[i].earlier) < 4 {
		return nil
	}
	var hashes []uint64
	for n := range len(steps[i].earlier) {
		p := position(t, mirroredFEN(steps[i-n].before.FEN()))
		hashes = append(hashes, p.Hash())
	}
	return hashes
}
