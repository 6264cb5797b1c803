package overlay

import (
	"clocktell/overlay/wire"
	"clocktell/relay"
)

// matchView says how the match stands, nil without one.
func matchView(m *relay.Match) *wire.Match {
	if m == nil {
		return nil
	}
	view := &wire.Match{
		First: m.Stands.Names[0], Second: m.Stands.Names[1],
		FirstScore: m.Stands.Score[0].String(), SecondScore: m.Stands.Score[1].String(),
		Stage: m.Stage.Kind.String(), Played: m.Stage.Games - m.Stands.Left, Planned: m.Stage.Games,
		Line: m.Line, Forecast: m.Expected, Games: []wire.MatchGame{}, ToCome: append([]string{}, m.ToCome...),
	}
	for _, g := range m.Boards {
		if len(g.After) == 3 {
			view.Games = append(view.Games, wire.MatchGame{Board: g.Board, White: g.After[0], Draw: g.After[1], Black: g.After[2]})
		}
	}
	return view
}
