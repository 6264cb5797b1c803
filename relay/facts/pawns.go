package facts

func (l *look) passedPawns(c Colour) {
	own, theirs := flipped(c, l.pawns[c]), flipped(c, l.pawns[c.Other()])
	stopped := backward(theirs|beside(theirs)) >> 8
	behindOwn := backward(own) >> 8
	for s := own &^ stopped &^ behindOwn; s != 0; s = s.Rest() {
		square := s.First()
		left := 7 - square.Rank()
		l.add(Passed, c).Amount = left
		l.point(flippedSquare(c, square))
		if support := beside(s&-s) >> 8 & own; support != 0 {
			l.add(ProtectedPassed, c).Amount = left
			l.point(flippedSquare(c, square))
			l.pointAll(c, flipped(c, support))
		}
	}
}

// weakPawns finds isolated, doubled and backward pawns.
func (l *look) weakPawns(c Colour) {
	own := flipped(c, l.pawns[c])
	isolated := own &^ files(beside(own))
	for s := isolated; s != 0; s = s.Rest() {
		l.add(Isolated, c)
		l.point(flippedSquare(c, s.First()))
	}
	for s := files(own&(backward(own)>>8)) & rank1; s != 0; s = s.Rest() {
		l.add(Doubled, c)
		l.pointAll(c, flipped(c, own&files(s&-s)))
	}
	attacked := flipped(c, l.pawnControl(c.Other()))
	exposed := own &^ isolated & ((attacked &^ pawnAttacks(onward(own)) &^ own) >> 8)
	for s := exposed; s != 0; s = s.Rest() {
		l.add(Backward, c)
		l.point(flippedSquare(c, s.First()), flippedSquare(c, s.First()+8))
	}
}

func (l *look) majorities(c Colour) {
	wings := [...]Set{QueenSide: queenSide, KingSide: ^queenSide}
	for _, wing := range []Wing{QueenSide, KingSide} {
		own := l.pawns[c] & wings[wing]
		if more := own.Count() - (l.pawns[c.Other()] & wings[wing]).Count(); more > 0 {
			f := l.add(Majority, c)
			f.Wing, f.Amount = wing, more
			l.pointAll(c, own)
		}
	}
}
