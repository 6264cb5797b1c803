package overlay

import (
	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/clock"
)

func referenceView(r relay.Reference) wire.Reference {
	return wire.Reference{Games: r.Games, Depth: r.Depth, Counted: r.Counted, Fault: r.Fault}
}

// knownView says what the reference knows of the position of a board as it stands.
func knownView(b *relay.Board) *wire.Known {
	known := b.KnownAt(len(b.Plies))
	if known == nil || b.Secret {
		return nil
	}
	view := knownOf(known)
	return &view
}

func noveltyView(b *relay.Board) *wire.Novelty {
	i := b.Novelty()
	if i < 0 {
		return nil
	}
	return &wire.Novelty{Ply: b.HalfMove(i), All: b.Plies[i].Known.All, Before: knownOf(b.KnownAt(i))}
}

func knownOf(k *relay.Known) wire.Known {
	view := wire.Known{
		Games: k.Games, White: k.White, Draws: k.Draws, Black: k.Black, All: k.All, Moves: []wire.KnownMove{}, Last: gameView(k.Last),
	}
	for _, m := range k.Moves {
		view.Moves = append(view.Moves, wire.KnownMove{
			SAN: m.SAN, Games: m.Games, White: m.White, Draws: m.Draws, Black: m.Black,
			BestRating: m.BestRating, MeanRating: m.MeanRating, LastYear: m.LastYear, Example: gameView(m.Example),
		})
	}
	return view
}

// gameView returns a game of the reference, null for none.
func gameView(g relay.KnownGame) *wire.KnownGame {
	if g == (relay.KnownGame{}) {
		return nil
	}
	return &wire.KnownGame{
		White: g.White, Black: g.Black, WhiteRating: g.WhiteRating, BlackRating: g.BlackRating, Event: g.Event, Year: g.Year,
		Result: g.Result, Went: g.Went,
	}
}

func habitView(b *relay.Board, side clock.Side) *wire.Habit {
	h := b.Habits[side]
	if !h.Told() {
		return nil
	}
	view := &wire.Habit{Games: h.Games, Prepared: h.Prepared[:], Left: []wire.HabitAt{}}
	for _, u := range h.Left {
		view.Left = append(view.Left, habitAt(u))
	}
	if u, ok := h.SpentOn(b.OwnMoves(side) + 1); ok {
		next := habitAt(u)
		view.Next = &next
	}
	return view
}

func habitAt(u relay.Usual) wire.HabitAt {
	return wire.HabitAt{Move: u.Move, TimeMs: u.Time.Milliseconds(), Games: u.Games}
}
