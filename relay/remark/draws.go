package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

func findDraws() {
	finders[facts.Repetition] = func(sc *scene, f *facts.Fact) {
		rule := PositionTwice
		if f.Amount > 2 {
			rule = PositionThrice
		}
		sc.add(rule, bitboard.White).Amount = int16(f.Amount)
	}
	finders[facts.FiftyMoves] = func(sc *scene, f *facts.Fact) {
		if f.Amount >= 100 {
			sc.add(FiftyReached, bitboard.White).Amount = int16(f.Amount)
			return
		}
		sc.add(FiftyNear, bitboard.White).Amount = int16(f.Amount / 10 * 10)
	}
	finders[facts.DeadPosition] = func(sc *scene, _ *facts.Fact) { sc.add(DeadDraw, bitboard.White) }
	finders[facts.CannotWin] = func(sc *scene, f *facts.Fact) {
		enemy := f.Side.Other()
		if sc.queens[enemy] == 0 && sc.rooks(enemy) == 0 {
			sc.add(LoneKing, f.Side)
		}
	}
}
