package remark

import "clocktell/relay/bitboard"

// series is what the last moves were like.
type series struct {
	castle [2]bool   // the side has castled
	check  bool      // there has been one
	still  int16     // plies since the last capture, from the first position on
	usual  bool      // the game began as games do
	by     [2]Square // the man that made the side's last move, where it stands now
	moves  [2]uint8  // of that man in a row that captured nothing, gave no check and left no attack
	checks [2]uint8  // of the side in a row
	queen  [2]uint8  // moves of the side's queen
}

// continued returns the series after the scene's move.
func (sc *scene) continued() series {
	s := sc.earlier.memory.series
	if sc.move == bitboard.NoMove {
		return series{usual: sc.usualStart()}
	}
	c, on := sc.mover, sc.move.To()
	s.still++
	if sc.captured {
		s.still = 0
	}
	switch plain := !sc.captured && !sc.inCheck && sc.before.Attackers(sc.move.From())&sc.before.Side(c.Other()) == 0; {
	case !plain:
		s.moves[c] = 0
	case s.by[c] == sc.move.From():
		s.moves[c] = min(s.moves[c]+1, mostInRow)
	default:
		s.moves[c] = 1
	}
	s.by[c] = on
	from := sc.move.From()
	s.castle[c] = s.castle[c] || sc.p.Piece(on).Type() == bitboard.King && absolute(from.File()-on.File()) == 2
	s.check = s.check || sc.inCheck
	s.checks[c] = min(s.checks[c]+1, mostInRow)
	if !sc.inCheck {
		s.checks[c] = 0
	}
	if sc.p.Piece(on).Type() == bitboard.Queen && s.queen[c] < mostInRow {
		s.queen[c]++
	}
	return s
}

// usualStart reports that all men stand as at the start of a usual game.
func (sc *scene) usualStart() bool {
	start := bitboard.Start()
	for s := range Square(64) {
		if sc.p.Piece(s) != start.Piece(s) {
			return false
		}
	}
	return sc.p.Castles(0) == start.Castles(0) && sc.p.Castles(1) == start.Castles(1)
}

// mostInRow is as far as a series is counted.
const mostInRow = 100

// How long series must be to be worth a word, and until when.
const (
	inRow      = 3
	allMen     = 32
	stillLong  = 20 // plies
	stillMen   = 5  // of each side, the king among them
	sameManTo  = 15 // the last move at which it is news
	queenEarly = 10 // own moves
	queenMoves = 3
)

func findSeries() {
	ownFinders = append(ownFinders, stillness, sameMan, func(sc *scene, c Colour) {
		if s := &sc.memory.series; sc.mover == c && s.checks[c] == inRow && !sc.captured && sc.p.Attackers(sc.move.To())&sc.p.Side(c.Other()) == 0 {
			sc.add(ChecksInRow, c)
		}
	}, func(sc *scene, c Colour) {
		s := &sc.memory.series
		moved := sc.move != bitboard.NoMove && sc.mover == c && sc.p.Piece(sc.move.To()).Type() == bitboard.Queen
		if moved && s.usual && s.queen[c] == queenMoves && sc.number()-int(c) <= queenEarly {
			sc.add(QueenOften, c)
		}
	})
}

func stillness(sc *scene, c Colour) {
	if c == bitboard.Black {
		return
	}
	offered := sc.move != bitboard.NoMove && sc.p.Attackers(sc.move.To())&sc.p.Side(sc.turn) != 0
	if sc.memory.still >= stillLong && !offered && sc.p.Occupied().Count() < allMen && min(sc.p.Side(0).Count(), sc.p.Side(1).Count()) >= stillMen {
		sc.add(NoCaptureLong, c)
	}
}

func sameMan(sc *scene, c Colour) {
	s := &sc.memory.series
	if sc.mover != c || s.moves[c] != inRow || sc.number()-int(c) > sameManTo {
		return
	}
	if t := sc.p.Piece(s.by[c]).Type(); t == bitboard.Knight || t == bitboard.Bishop || t == bitboard.Queen {
		sc.add(SameMan, c, s.by[c])
	}
}
