package overlay

import (
	"fmt"
	"strings"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// opinionLimits are of an opinion on the wire.
type opinionLimits struct{ lines, moves int }

// The desk has all that it shows; of every board there is what fits a tile.
var (
	deskLimits = opinionLimits{lines: 5, moves: 12}
	tileLimits = opinionLimits{lines: 1, moves: 6}
)

func engineView(e relay.Engine) wire.Engine {
	return wire.Engine{
		State: engineState(e), Name: e.Name, Text: e.Fault, Since: milli(e.Since), Board: e.Board, Waiting: e.Waiting, Restarts: e.Restarts, Last: e.Last,
	}
}

func engineState(e relay.Engine) string {
	switch {
	case e.Fault != "":
		return wire.EngineFault
	case e.Name == "":
		return wire.EngineNone
	}
	return wire.EngineReady
}

func opinionsFrame(show *relay.Show) wire.Opinions {
	frame := wire.Opinions{
		Type: wire.TypeOpinions, Rev: show.OpinionsRev, State: engineState(show.Engine), Engine: show.Engine.Name, Text: show.Engine.Fault,
		Kept: show.EngineKept(), Boards: []wire.Opinion{},
	}
	if show.Desk.Place.Board != frame.Kept {
		first, second := show.OpinionAtDesk(), show.SecondAtDesk()
		frame.Desk = deskOpinionView(show, first, deskLimits)
		frame.Other = deskOpinionView(show, second, opinionLimits{lines: 1, moves: deskLimits.moves})
		frame.Differ = opinion.Differ(first, second)
	}
	for _, b := range show.Boards {
		n := len(b.Plies)
		if b.Number == frame.Kept || b.Over() {
			continue
		}
		if view, ok := opinionView(show, b.OpinionAt(n), b.Place(n), tileLimits); ok {
			view.Board, view.Ply = b.Number, n
			frame.Boards = append(frame.Boards, view)
		}
	}
	return frame
}

// deskOpinionView says an opinion on where the desk stands, nil where there is none.
func deskOpinionView(show *relay.Show, o *opinion.Opinion, most opinionLimits) *wire.Opinion {
	place, ok := show.PlaceAtDesk()
	if !ok {
		return nil
	}
	view, ok := opinionView(show, o, &place, most)
	if !ok {
		return nil
	}
	at := show.Desk.Place
	view.Board, view.Ply, view.Move = at.Board, at.Ply, at.Move
	return &view
}

// opinionView says an opinion in the words of the protocol; false where there is none.
func opinionView(show *relay.Show, o *opinion.Opinion, place *bitboard.Position, most opinionLimits) (wire.Opinion, bool) {
	if o == nil || len(o.Lines) == 0 {
		return wire.Opinion{}, false
	}
	view := wire.Opinion{FEN: place.FEN(), Depth: o.Depth, Final: o.Final, Engine: o.Engine, Lines: []wire.OpinionLine{}}
	for _, line := range o.Lines[:min(len(o.Lines), most.lines)] {
		if said := lineView(show, line, *place, most.moves); len(said.Moves) > 0 {
			view.Lines = append(view.Lines, said)
		}
	}
	if len(view.Lines) == 0 {
		return wire.Opinion{}, false
	}
	view.Words = view.Lines[0].Words
	return view, true
}

// lineView says a line, as far as its moves can be played.
func lineView(show *relay.Show, line opinion.Line, place bitboard.Position, moves int) wire.OpinionLine {
	view := wire.OpinionLine{
		Score: scoreText(line.Score), Words: show.Stands(line.Score), Side: sideOf(line.Score), Exact: line.Score.Bound == opinion.Exact,
		Moves: []wire.OpinionMove{},
	}
	if c := line.Chances; c != nil {
		view.WDL = &wire.WDL{Win: c.Win, Draw: c.Draw, Loss: c.Loss}
	}
	for _, move := range line.Moves[:min(len(line.Moves), moves)] {
		if !place.IsLegal(move) {
			break
		}
		view.Moves = append(view.Moves, wire.OpinionMove{Number: place.Ply() + 1, SAN: place.SAN(move)})
		place.Make(move)
	}
	return view
}

// scoreText writes a score from White's view, with the signs of a typeset minus and of a
// bound.
func scoreText(s opinion.Score) string {
	text := fmt.Sprintf("%+.2f", float64(s.Centipawns)/100)
	switch {
	case s.Mate != 0:
		text = fmt.Sprintf("#%d", s.Mate)
	case s.Centipawns == 0:
		text = "0.00"
	}
	text = strings.Replace(text, "-", "−", 1)
	return map[opinion.Bound]string{opinion.AtLeast: "≥ ", opinion.AtMost: "≤ "}[s.Bound] + text
}

// sideOf returns the side that a score is good for, "" for level or where a bound leaves
// it open.
func sideOf(s opinion.Score) string {
	side, ahead := "white", s
	if s.Mate < 0 || s.Mate == 0 && s.Centipawns < 0 {
		side, ahead = "black", s.From(false)
	}
	if ahead.Mate == 0 && ahead.Centipawns < relay.LevelBelow || ahead.Bound == opinion.AtMost {
		return ""
	}
	return side
}
