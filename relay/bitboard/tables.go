package bitboard

// What pieces attack that do not slide, and what sliders attack on an empty board.
var (
	knightSteps [64]Set
	kingSteps   [64]Set
	pawnSteps   [2][64]Set // by the colour of the pawn
	cross       [64]Set    // file and rank through the square, without it
	saltire     [64]Set    // both diagonals, without it
)

// step is a direction in files and ranks.
type step struct{ file, rank int }

var (
	straight   = []step{{0, 1}, {1, 0}, {0, -1}, {-1, 0}}
	diagonal   = []step{{1, 1}, {1, -1}, {-1, -1}, {-1, 1}}
	knightLike = []step{{1, 2}, {2, 1}, {2, -1}, {1, -2}, {-1, -2}, {-2, -1}, {-2, 1}, {-1, 2}}
)

func init() {
	fillTables()
	fillKeys()
	start, _ = ParseFEN(StartFEN)
}

func fillTables() {
	fillRanks()
	for square := range Square(64) {
		knightSteps[square] = reach(square, 1, knightLike...)
		kingSteps[square] = reach(square, 1, straight...) | reach(square, 1, diagonal...)
		pawnSteps[White][square] = reach(square, 1, step{-1, 1}, step{1, 1})
		pawnSteps[Black][square] = reach(square, 1, step{-1, -1}, step{1, -1})
		through[square] = lines{
			file:    reach(square, 7, step{0, 1}, step{0, -1}),
			rising:  reach(square, 7, step{1, 1}, step{-1, -1}),
			falling: reach(square, 7, step{1, -1}, step{-1, 1}),
		}
		cross[square] = reach(square, 7, straight...)
		saltire[square] = reach(square, 7, diagonal...)
	}
}

// reach returns the squares at most so many steps away on an empty board.
func reach(square Square, most int, steps ...step) Set {
	var s Set
	for _, d := range steps {
		file, rank := square.File()+d.file, square.Rank()+d.rank
		for n := 0; n < most && file|rank >= 0 && file < 8 && rank < 8; n++ {
			s |= NewSquare(file, rank).bit()
			file, rank = file+d.file, rank+d.rank
		}
	}
	return s
}

func fillRanks() {
	for file := range 8 {
		for inner := range 64 {
			alongRank[file][inner] = rankAttacks(file, inner<<1)
		}
	}
}

func rankAttacks(file, occupied int) uint8 {
	var attacked uint8
	for _, d := range []int{-1, 1} {
		for f := file + d; f >= 0 && f < 8; f += d {
			attacked |= 1 << f
			if occupied>>f&1 != 0 {
				break
			}
		}
	}
	return attacked
}
