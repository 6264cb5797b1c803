package relay

import (
	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/tell"
)

// language returns the language planned, English if none is. A code that is none is
// refused where plans are made and read.
func (p Plan) language() prompt.Language {
	if in, err := prompt.LanguageOf(p.Language); err == nil {
		return in
	}
	return prompt.English
}

// Language returns the code of the language of the show.
func (s *Show) Language() string { return s.plan.language().Code() }

// longGame is how many own moves no forecast is worth saying beyond.
const longGame = 60

// budgetOf returns the figures of a side's time trouble, for a language to say. Where the
// range of the date is wider than a game, only its near end says something.
func budgetOf(t tell.Trouble) prompt.Budget {
	b := prompt.Budget{
		Move: t.Budget, Usual: t.Usual, ToControl: t.ToControl, Below: t.Below,
		AtMove: t.AtMove, From: t.From, To: t.To, NoTrouble: t.Forecast && t.Level == 0,
	}
	if t.To > max(longGame, t.AtMove) {
		b.To = 0
	}
	return b
}

// leadOf returns the figures of a lead.
func leadOf(l tell.Lead) prompt.Lead {
	return prompt.Lead{By: l.By, Mine: l.Budgets[l.Side], Yours: l.Budgets[l.Side.Other()], Moves: l.Moves}
}

// Outlook says in lines what there is to say of the time a side has left: its budget,
// its pace, the control, and where its clock is going.
func (b *Board) Outlook(side clock.Side) []string {
	var out []string
	if trouble := b.Levels[side]; trouble.Evidence != "" {
		out = b.in.Outlook(budgetOf(trouble))
	}
	if a := b.Ahead[side]; a.Move > 0 {
		out = append(out, b.in.Ahead(prompt.Ahead(a)))
	}
	return out
}

// Called returns how a side is spoken of: by name, else by colour.
func (b *Board) Called(side clock.Side) string {
	if short := b.Players[side].Short(); short != "" {
		return short
	}
	return b.in.Colour(side)
}
