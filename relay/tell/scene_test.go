package tell

import "github.com/notnil/chess"

// scene is what the board says about a move, apart from any clock.
type scene struct {
	reply            Reply
	legal            int
	captures, checks bool // the move itself
	castles, king    bool
	pawn             bool
	attacked         bool // the moved man stood attacked
	loose            bool // attacked by a man of less worth, or attacked and not defended
	threatens        int  // own men in such trouble before the move
	returns          bool // the man goes back to where it came from the move before
	follows          bool // it is the man moved the time before
	repeats          bool // the position after it was there before
	men              int
}

// worth is the usual worth of a man, by chess.PieceType.
var worth = map[chess.PieceType]int{chess.Pawn: 1, chess.Knight: 3, chess.Bishop: 3, chess.Rook: 5, chess.Queen: 9, chess.King: 99}

func sceneOf(p *chess.Position, m, last *chess.Move) scene {
	b := p.Board()
	man := b.Piece(m.S1())
	s := scene{
		legal: len(p.ValidMoves()), captures: m.HasTag(chess.Capture), checks: m.HasTag(chess.Check),
		castles: m.HasTag(chess.KingSideCastle) || m.HasTag(chess.QueenSideCastle),
		king:    man.Type() == chess.King, pawn: man.Type() == chess.Pawn,
	}
	switch {
	case last != nil && last.HasTag(chess.Capture) && last.S2() == m.S2():
		s.reply = Recapture
	case last != nil && last.HasTag(chess.Check):
		s.reply = EvadesCheck
	case last != nil && last.HasTag(chess.Capture):
		s.reply = AfterCapture
	}
	squares := boardOf(b)
	for sq, piece := range squares {
		if piece == chess.NoPiece {
			continue
		}
		s.men++
		if piece.Color() != p.Turn() || piece.Type() == chess.King {
			continue
		}
		cheapest, attackers := squares.attackers(sq, p.Turn().Other())
		_, defenders := squares.attackers(sq, p.Turn())
		trouble := attackers > 0 && (defenders == 0 || cheapest < worth[piece.Type()])
		if trouble {
			s.threatens++
		}
		if sq == int(m.S1()) {
			s.attacked, s.loose = attackers > 0, trouble
		}
	}
	return s
}

// board is a board by square, a1 first.
type board [64]chess.Piece

func boardOf(b *chess.Board) *board {
	var out board
	for sq := range out {
		out[sq] = b.Piece(chess.Square(sq))
	}
	return &out
}

var (
	straight = [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}
	slanted  = [][2]int{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}}
	jumps    = [][2]int{{1, 2}, {2, 1}, {-1, 2}, {-2, 1}, {1, -2}, {2, -1}, {-1, -2}, {-2, -1}}
)

// attackers returns the worth of the cheapest man of a colour that attacks a square,
// and how many do.
func (b *board) attackers(sq int, by chess.Color) (cheapest, n int) {
	cheapest = 100
	hit := func(file, rank, steps int, dirs [][2]int, types ...chess.PieceType) {
		for _, d := range dirs {
			for k := 1; k <= steps; k++ {
				f, r := file+k*d[0], rank+k*d[1]
				if f < 0 || f > 7 || r < 0 || r > 7 {
					break
				}
				piece := b[r*8+f]
				if piece == chess.NoPiece {
					continue
				}
				for _, t := range types {
					if piece.Color() == by && piece.Type() == t {
						n++
						cheapest = min(cheapest, worth[t])
					}
				}
				break
			}
		}
	}
	file, rank := sq%8, sq/8
	hit(file, rank, 7, straight, chess.Rook, chess.Queen)
	hit(file, rank, 7, slanted, chess.Bishop, chess.Queen)
	hit(file, rank, 1, jumps, chess.Knight)
	hit(file, rank, 1, straight, chess.King)
	hit(file, rank, 1, slanted, chess.King)
	pawns := [][2]int{{1, -1}, {-1, -1}}
	if by == chess.Black {
		pawns = [][2]int{{1, 1}, {-1, 1}}
	}
	hit(file, rank, 1, pawns, chess.Pawn)
	return cheapest, n
}
