package prompt

func (e english) Stands(o Outcome) string {
	side := e.Colour(o.Side)
	switch o.Size {
	case Level:
		return "about level" + some(o.Bound != Exact, ", not settled yet")
	case Mating:
		return side + " mates in " + e.Number(o.Mate) + map[Bound]string{AtLeast: " or sooner", AtMost: " or later"}[o.Bound]
	}
	switch o.Bound {
	case AtMost:
		return side + " is ahead by " + e.ahead(o.Halves) + " at most"
	case AtLeast:
		return side + " " + englishStands[o.Size] + ", by " + e.ahead(o.Halves) + " at least"
	}
	return side + " " + englishStands[o.Size] + ", by " + e.ahead(o.Halves)
}

var englishStands = map[Size]string{Slight: "is slightly better", Better: "is better", Clear: "is clearly better", Winning: "is winning"}

func (e english) Prefers(o Outcome) string {
	side := e.Colour(o.Side)
	switch o.Size {
	case Level:
		return "To the engine the position is level."
	case Mating:
		return "The engine sees mate in " + e.Number(o.Mate) + " for " + side + "."
	}
	return "The engine " + englishPrefers[o.Size] + side + some(o.Size == Winning, " winning") + ", by " + e.ahead(o.Halves) + "."
}

var englishPrefers = map[Size]string{Slight: "slightly prefers ", Better: "prefers ", Clear: "clearly prefers ", Winning: "sees "}

func (e english) Leans(o Outcome) string {
	switch o.Size {
	case Level:
		return "Engine: level"
	case Mating:
		return "Engine: mate for " + e.Colour(o.Side)
	}
	return "Engine: " + e.Colour(o.Side) + " " + map[Size]string{Slight: "slightly better", Better: "better", Clear: "clearly better", Winning: "winning"}[o.Size]
}

func (e english) ahead(halves int) string {
	switch {
	case halves >= manyHalves:
		return e.Number(manyHalves/2) + " pawns or more"
	case halves <= 1:
		return "half a pawn"
	case halves == 2:
		return "a pawn"
	case halves == 3:
		return "a pawn and a half"
	case halves%2 == 0:
		return e.Number(halves/2) + " pawns"
	}
	return e.Number(halves/2) + " and a half pawns"
}
