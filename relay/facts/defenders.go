package facts

import "clocktell/relay/bitboard"

// duty is what a sole defender defends.
type duty struct {
	defender, on Square
	won          int // by the other side, were there no defender
}

func (l *look) soleDefenders(c Colour) {
	var duties [16]duty
	n := 0
	them := c.Other()
	guarded := l.side[c] & l.attacked[c] & l.attacked[them] &^ l.hanging[c] &^ bitOf(l.king[c])
	for s := flipped(c, guarded); s != 0 && n < len(duties); s = s.Rest() {
		on := flippedSquare(c, s.First())
		if d, ok := l.duty(c, on); ok {
			duties[n] = d
			n++
		}
	}
	for _, d := range duties[:n] {
		if l.pawns[c]&bitOf(d.defender) != 0 {
			continue
		}
		l.add(SoleDefender, c).Amount = d.won
		l.point(d.defender, d.on)
	}
	if l.checkers == 0 {
		l.overloads(c, duties[:n])
	}
}

// duty finds the only defender of a man, if losing it would lose the man.
func (l *look) duty(c Colour, on Square) (duty, bool) {
	defenders := l.defenders(c, on)
	if !alone(defenders) {
		return duty{}, false
	}
	left := l.occupied &^ defenders
	if l.p.AttackersThrough(on, left)&left&l.side[c] != 0 {
		return duty{}, false
	}
	e := newExchange(&l.views[c.Other()])
	e.occupied = left
	won, _ := e.capture(c.Other(), on)
	return duty{defenders.First(), on, won}, won > 0
}

// overloads finds defenders that cannot do two duties, and for each the two that lose
// most.
func (l *look) overloads(c Colour, duties []duty) {
	for i, d := range duties {
		var first, second duty
		most := 0
		for j, a := range duties {
			if a.defender == d.defender && j < i {
				break // has had its turn
			}
			for _, b := range duties {
				if a.defender != d.defender || b.defender != d.defender || a.on == b.on {
					continue
				}
				if won := l.overload(c, a, b); won > most {
					most, first, second = won, a, b
				}
			}
		}
		if most > 0 {
			l.add(Overloaded, c).Amount = most
			l.point(d.defender, first.on, second.on)
		}
	}
}

// overload returns the most that is won by capturing on first, letting the defender
// recapture, and capturing on second.
func (l *look) overload(c Colour, first, second duty) int {
	view := &l.views[c.Other()]
	most := 0
	for s := l.defenders(c.Other(), first.on); s != 0; s = s.Rest() {
		capture := bitboard.NewMove(s.First(), first.on, bitboard.NoPieceType)
		if !view.IsLegal(capture) {
			continue
		}
		after := *view
		after.Make(capture)
		recapture := bitboard.NewMove(first.defender, first.on, bitboard.NoPieceType)
		if !after.IsLegal(recapture) {
			continue
		}
		after.Make(recapture)
		e := newExchange(&after)
		won, _ := e.capture(c.Other(), second.on)
		given := l.worth(s.First()) - l.worth(first.on)
		// Who does not recapture has lost what was captured.
		most = max(most, min(won-given, l.worth(first.on)))
	}
	return most
}
