package match

// After is how the match stands for a side if a game ends in a certain way.
type After struct {
	Match Outcomes // how the match can end then
	Stage Outcomes // how this stage can

	Own, Other        Points // score of the stage
	ToClinch, ToLevel Points // what the side lacks in the stage, see Standing
	Left              int    // games of the stage without a result

	TieBreak int // the stage that follows because this one is level; 0: none follows at once
}

// Meaning is what one game is worth to one side, whatever happens in the other games.
// Of a match that is decided only Clinched, Lost and the standings are set.
type Meaning struct {
	Side            Side
	Place           Place
	Win, Draw, Loss After

	Clinched bool // the side has won the match already
	Lost     bool // ... or lost it

	WinClinches bool // a win wins the match at once
	DrawEnough  bool // a draw does
	MustWin     bool // anything but a win loses the match
	MustNotLose bool // a loss loses the match, a draw does not

	DrawsMatch bool // a draw ends the match drawn
}

// Meaning tells what a game without a result means to First or Second. It is false for
// a game that is not planned or has its result, for a game of a stage that is not under
// way, and for Neither.
func (m Match) Meaning(stage, game int, side Side) (Meaning, bool) {
	if side == Neither || stage != m.current() || game < 0 || game >= m.Stages[stage].Games ||
		m.Stages[stage].Result(game) != Unknown {
		return Meaning{}, false
	}
	after := func(r Result) After { return m.with(stage, game, r).after(stage, side) }
	out := Meaning{
		Side: side, Place: m.place(stage, game),
		Win: after(wonBy(side)), Draw: after(Drawn), Loss: after(wonBy(side.Other())),
	}
	out.judge(m.Possible())
	return out, true
}

// judge sets what follows from how the match can end now and after each result.
func (g *Meaning) judge(now Outcomes) {
	own, other := g.Side, g.Side.Other()
	if winner, decided := now.Decided(); decided {
		g.Clinched, g.Lost = winner == own, winner == other
		return
	}
	g.WinClinches = g.Win.Match.Only(own)
	g.DrawEnough = g.Draw.Match.Only(own)
	g.MustWin = g.Draw.Match.Only(other)
	g.MustNotLose = g.Loss.Match.Only(other) && !g.MustWin
	g.DrawsMatch = g.Draw.Match.Only(Neither)
}

// after tells how the match stands for the side, seen from a stage.
func (m Match) after(stage int, side Side) After {
	s := m.Stages[stage]
	score := s.Score()
	out := After{
		Match: m.Possible(), Stage: s.Possible(), Own: score.Of(side), Other: score.Of(side.Other()), Left: s.left(),
	}
	out.ToClinch = max(0, m.line(stage, side)-out.Own)
	out.ToLevel = max(0, s.half()-out.Own)
	if out.Stage.Only(Neither) && stage+1 < len(m.Stages) {
		out.TieBreak = stage + 1
	}
	return out
}
