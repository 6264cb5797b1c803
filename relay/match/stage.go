package match

// Kind is the kind of games of a stage.
type Kind uint8

// The kinds. Regular is the match proper, whatever its time control.
const (
	Regular Kind = iota
	Rapid
	Blitz
	Armageddon // one game; a draw wins it for Black
)

// String returns "regular", "rapid", "blitz" or "armageddon".
func (k Kind) String() string {
	return [...]string{"regular", "rapid", "blitz", "armageddon"}[k]
}

// Stage is a part of a match that has its own score: the games planned, or a
// tie-break. Games are numbered from 0, all boards of a round before the next round.
type Stage struct {
	Kind   Kind
	Games  int  // planned, on all boards together
	Boards int  // played at once; 0 means one
	Race   bool // over when one side has half of the points and the other has not: "first to six of twelve"

	// Opens has White in the first game; colours then alternate from round to round
	// and from board to board. Neither: not known yet. Whites gives the colours of
	// every game instead, if they go another way.
	Opens  Side
	Whites []Side

	Rounds  []string // Round tag of each round; empty: rounds are numbered from 1 through all stages
	Results []Result // by game, as far as known
}

func (s Stage) boards() int { return max(1, s.Boards) }

// rounds returns how many rounds are planned.
func (s Stage) rounds() int { return s.Games / s.boards() }

// Result returns the result of a game.
func (s Stage) Result(game int) Result {
	if game < 0 || game >= len(s.Results) {
		return Unknown
	}
	return s.Results[game]
}

// White returns who has White in a game.
func (s Stage) White(game int) Side {
	if game < len(s.Whites) {
		return s.Whites[game]
	}
	return s.turned(s.Opens, game)
}

// turned returns who has White in a game if side has it in the first, and the other
// way round.
func (s Stage) turned(side Side, game int) Side {
	if (game/s.boards()+game%s.boards())%2 == 1 {
		return side.Other()
	}
	return side
}

// Score returns the points made so far. In an armageddon a draw brings Black the
// whole point, and half of one while the colours are not known.
func (s Stage) Score() Tally {
	var score Tally
	for game := range s.Games {
		score = score.plus(s.tally(game))
	}
	return score
}

// ByRound returns the points made in each round planned.
func (s Stage) ByRound() []Tally {
	out := make([]Tally, s.rounds())
	for game := range len(out) * s.boards() {
		out[game/s.boards()] = out[game/s.boards()].plus(s.tally(game))
	}
	return out
}

func (t Tally) plus(other Tally) Tally { return Tally{t[0] + other[0], t[1] + other[1]} }

// tally returns the points that a game has brought.
func (s Stage) tally(game int) Tally {
	result := s.Result(game)
	if result == Drawn && s.Kind == Armageddon && s.White(game) != Neither {
		result = wonBy(s.White(game).Other())
	}
	switch result {
	case Unknown:
		return Tally{}
	case FirstWon:
		return Tally{OnePoint, 0}
	case SecondWon:
		return Tally{0, OnePoint}
	}
	return Tally{HalfPoint, HalfPoint}
}

// gains lists the points that First may have of a game.
func (s Stage) gains(game int) []Points {
	switch s.Result(game) {
	case FirstWon:
		return []Points{OnePoint}
	case SecondWon:
		return []Points{0}
	case Drawn:
		return s.drawGains(game)
	}
	if s.Kind == Armageddon {
		return []Points{0, OnePoint}
	}
	return []Points{0, HalfPoint, OnePoint}
}

func (s Stage) drawGains(game int) []Points {
	if s.Kind != Armageddon {
		return []Points{HalfPoint}
	}
	switch s.White(game) {
	case First:
		return []Points{0}
	case Second:
		return []Points{OnePoint}
	}
	return []Points{0, OnePoint}
}
