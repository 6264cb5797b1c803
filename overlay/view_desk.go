package overlay

import (
	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/desk"
)

func airFrame(show *relay.Show) wire.Air {
	state := show.Desk
	frame := wire.Air{Type: wire.TypeAir, Rev: state.AirRev, Board: state.Air.Board, Explained: explainedView(state.Shown)}
	if l := state.Leans(); l.Board != 0 {
		frame.Lean = &wire.Lean{Board: l.Board, Side: l.Shown.Side, Size: l.Shown.Size, Text: l.Shown.Short}
	}
	if c := state.Challenge; c != nil && c.State != desk.ChallengeReady {
		view := challengeView(c)
		frame.Challenge = &view
	}
	return frame
}

func explainedView(shown *desk.Shown) *wire.Explained {
	if shown == nil {
		return nil
	}
	return &wire.Explained{
		Board: shown.Board, Way: string(shown.Way), Ply: shown.Ply, FEN: shown.FEN, Last: stepView(shown.Last), Moves: stepsView(shown.Moves),
		Name: shown.Name, At: milli(shown.At), StepMs: desk.StepEvery.Milliseconds(), Live: shown.Live, Turned: shown.Turned,
		Marks: deskMarksView(shown.Marks),
	}
}

func stepView(step *desk.Step) *wire.Step {
	if step == nil {
		return nil
	}
	return &wire.Step{Number: step.Number, SAN: step.SAN, From: step.From, To: step.To, FEN: step.FEN}
}

func stepsView(steps []desk.Step) []wire.Step {
	views := make([]wire.Step, 0, len(steps))
	for i := range steps {
		views = append(views, *stepView(&steps[i]))
	}
	return views
}

func deskMarksView(marks []desk.Mark) []wire.Mark {
	views := make([]wire.Mark, 0, len(marks))
	for _, m := range marks {
		views = append(views, wire.Mark{Kind: string(m.Meaning), From: m.From, To: m.To})
	}
	return views
}

// challengeView is a challenge as viewers may know it: hints that were given, and the
// answer once it is revealed.
func challengeView(c *desk.Challenge) wire.AirChallenge {
	view := wire.AirChallenge{
		ID: c.ID, Board: c.Place.Board, State: string(c.State), Number: c.Number, FEN: c.FEN, Last: stepView(c.Last), Turned: c.Turned,
		Question: c.Question, Asked: milli(c.Asked), Hints: append([]string{}, c.Hints[:c.Given]...), Answer: stepsView(c.Answer),
		Revealed: milli(c.Revealed), StepMs: desk.StepEvery.Milliseconds(),
	}
	if !c.Asked.IsZero() {
		view.Ends = milli(c.Ends())
	}
	return view
}

func deskFrame(show *relay.Show) wire.Desk {
	state, games := show.Desk, show.Games()
	fen, last := state.Stand(games)
	frame := wire.Desk{
		Type: wire.TypeDesk, Rev: state.Rev, Lead: state.Lead, Asks: state.Asks, Turned: state.Turned,
		Place: wire.DeskPlace{
			Board: state.Place.Board, Live: state.Place.Live, Ply: state.Place.Ply, Move: state.Place.Move, FEN: fen, Last: stepView(last),
		},
		Moves: legalView(state, games), Lines: linesView(state, games), Marks: deskMarksView(state.Marks), Keep: state.Keep,
		Undoable: state.Undoable(), Auto: state.Auto, Suggestions: []wire.Suggestion{},
		Air: wire.DeskAir{
			Board: state.Air.Board, Way: string(state.Air.Way), Since: milli(state.Air.Since), Move: state.Air.Move,
			LeanBoard: state.Lean.Board, LeanKept: state.Lean.Keep,
		},
	}
	for _, s := range state.Hot {
		frame.Suggestions = append(frame.Suggestions, wire.Suggestion{
			Board: s.Board, Kind: s.Kind, Side: s.Side, Reason: s.Reason, At: milli(s.At),
		})
	}
	if c := state.Challenge; c != nil {
		frame.Challenge = &wire.DeskChallenge{
			Air: challengeView(c), ForMs: c.For.Milliseconds(), All: append([]string{}, c.Hints...), Until: milli(c.Until), Line: c.Line,
			Played: state.Played(games),
		}
	}
	return frame
}

func legalView(state *desk.State, games desk.Games) []wire.LegalMove {
	views := []wire.LegalMove{}
	position, ok := state.Legal(games)
	if !ok {
		return views
	}
	for _, m := range position.Moves(nil) {
		view := wire.LegalMove{SAN: position.SAN(m), From: m.From().String(), To: m.To().String()}
		if t := m.Promotion(); t != bitboard.NoPieceType {
			view.Promotion = string(bitboard.NewPiece(bitboard.Black, t).Letter())
		}
		views = append(views, view)
	}
	return views
}

func linesView(state *desk.State, games desk.Games) []wire.LineMove {
	views := []wire.LineMove{}
	game := games.Game(state.Place.Board)
	for _, m := range state.Lines() {
		views = append(views, wire.LineMove{
			ID: m.ID, After: m.After, Ply: m.Ply, Step: *stepView(&m.Step), Name: m.Name, Adrift: m.Adrift(game),
		})
	}
	return views
}
