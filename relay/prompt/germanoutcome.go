package prompt

func (g german) Stands(o Outcome) string {
	side := g.Colour(o.Side)
	switch o.Size {
	case Level:
		return "etwa ausgeglichen" + some(o.Bound != Exact, ", noch nicht sicher")
	case Mating:
		return side + " setzt matt in " + g.inMoves(o.Mate) + map[Bound]string{AtLeast: " oder früher", AtMost: " oder später"}[o.Bound]
	}
	switch o.Bound {
	case AtMost:
		return side + " ist höchstens um " + g.ahead(o.Halves) + " voraus"
	case AtLeast:
		return side + " steht " + germanStands[o.Size] + ", um mindestens " + g.ahead(o.Halves)
	}
	return side + " steht " + germanStands[o.Size] + ", um " + g.ahead(o.Halves)
}

var germanStands = map[Size]string{Slight: "etwas besser", Better: "besser", Clear: "klar besser", Winning: "auf Gewinn"}

func (g german) Prefers(o Outcome) string {
	side := g.Colour(o.Side)
	switch o.Size {
	case Level:
		return "Für die Engine ist die Stellung ausgeglichen."
	case Mating:
		return "Die Engine sieht ein Matt in " + g.inMoves(o.Mate) + " für " + side + "."
	}
	return "Die Engine sieht " + side + " " + map[Size]string{Slight: "etwas im Vorteil", Better: "im Vorteil", Clear: "klar im Vorteil", Winning: "auf Gewinn"}[o.Size] +
		", um " + g.ahead(o.Halves) + "."
}

func (g german) Leans(o Outcome) string {
	switch o.Size {
	case Level:
		return "Engine: ausgeglichen"
	case Mating:
		return "Engine: Matt für " + g.Colour(o.Side)
	}
	return "Engine: " + g.Colour(o.Side) + " " + germanStands[o.Size]
}

func (g german) inMoves(n int) string {
	if n == 1 {
		return "einem Zug"
	}
	return g.Number(n) + " Zügen"
}

func (g german) ahead(halves int) string {
	switch {
	case halves >= manyHalves:
		return g.Number(manyHalves/2) + " Bauern oder mehr"
	case halves <= 1:
		return "einen halben Bauern"
	case halves == 2:
		return "einen Bauern"
	case halves == 3:
		return "anderthalb Bauern"
	case halves%2 == 0:
		return g.Number(halves/2) + " Bauern"
	}
	return g.Number(halves/2) + "einhalb Bauern"
}
