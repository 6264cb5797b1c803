package match

// Possible returns how the stage can still end, over all results of the games that
// have none. It goes through the games in their order and keeps every score that can
// be reached; half points are whole numbers, so there are few of them.
func (s Stage) Possible() Outcomes {
	if !s.Race && s.Kind != Armageddon {
		return s.inAnyOrder()
	}
	var out Outcomes
	reached := make([]bool, 2*s.Games+1) // by First's points
	reached[0] = true
	for game := 0; game <= s.Games; game++ {
		next := make([]bool, len(reached))
		for first, is := range reached {
			if !is {
				continue
			}
			if winner, over := s.over(game, Points(first)); over {
				out |= only(winner)
				continue
			}
			for _, gain := range s.gains(game) {
				next[first+int(gain)] = true
			}
		}
		reached = next
	}
	return out
}

// inAnyOrder is Possible for a stage whose end depends on its last score only: every half
// point that is left may go to either side.
func (s Stage) inAnyOrder() Outcomes {
	var out Outcomes
	score, left := s.Score(), Points(s.left())*OnePoint
	for i, side := range []Side{First, Second} {
		if score[i]+left > s.half() {
			out |= only(side)
		}
	}
	if max(score[0], score[1]) <= s.half() {
		out |= only(Neither)
	}
	return out
}

// over reports whether the stage is over after so many games, of which First has so
// many points, and who has won it.
func (s Stage) over(played int, first Points) (Side, bool) {
	second := Points(played)*OnePoint - first
	line := s.line()
	switch {
	case first >= line && second < line:
		return First, true
	case second >= line && first < line:
		return Second, true
	case played < s.Games:
		return Neither, false
	}
	return leader(first, second), true
}

func leader(first, second Points) Side {
	switch {
	case first > second:
		return First
	case second > first:
		return Second
	}
	return Neither
}

// half is the score with which a stage of all games ends level.
func (s Stage) half() Points { return Points(s.Games) * HalfPoint }

// line is the score that wins the stage, as long as the other has not reached it.
func (s Stage) line() Points {
	if s.Race {
		return s.half()
	}
	return s.half() + HalfPoint
}
