package reference

// add adds the games of a move to the answer.
func (q *query) add(move uint16, t *tally) {
	if t.games == 0 || q.bad {
		return
	}
	out := q.out
	played := move &^ BlackMoves
	if out.Games == 0 || t.latest > q.latest {
		q.latest, out.Last, out.LastMove = t.latest, GameID(t.latest), played
	}
	out.Games += int(t.games)
	white, draws, black := int(t.results[WhiteWon]), int(t.results[Drawn]), int(t.results[BlackWon])
	out.White += white
	out.Draws += draws
	out.Black += black
	if played == 0 {
		return
	}
	out.Moves = append(out.Moves, MoveAnswer{
		Move: played, Games: int(t.games), White: white, Draws: draws, Black: black,
		BestRating: int(t.best), MeanRating: t.mean(), LastYear: int(t.latest >> 32), Examples: out.pick(t),
	})
}

// pick chooses the examples: highest rated, latest, second highest rated.
func (out *Answer) pick(t *tally) []GameID {
	start := len(out.examples)
	top, latest, second := GameID(t.top), GameID(t.latest), GameID(t.second)
	out.examples = append(out.examples, top)
	if latest != top {
		out.examples = append(out.examples, latest)
	}
	if t.games > 1 && second != latest {
		out.examples = append(out.examples, second)
	}
	end := len(out.examples)
	return out.examples[start:end:end]
}

func (out *Answer) reset() {
	*out = Answer{Moves: out.Moves[:0], examples: out.examples[:0], block: out.block, body: out.body, detail: out.detail}
}

// mostPlayed orders moves as Answer.Moves says.
func mostPlayed(a, b MoveAnswer) int {
	if a.Games != b.Games {
		return b.Games - a.Games
	}
	return int(a.Move) - int(b.Move)
}
