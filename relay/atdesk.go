package relay

import (
	"errors"

	"github.com/notnil/chess"

	"clocktell/relay/desk"
	"clocktell/relay/prompt"
)

// AtDesk is something that a commentator did at a desk. It is done once: another of the
// same ID is taken for the same one, sent again.
type AtDesk = desk.Act

// takeAtDesk does what a commentator asks for, unless it has been done before.
func (s *Show) takeAtDesk(act AtDesk) {
	if _, known := s.Entry(act.ID); known {
		return
	}
	act.At = s.At
	entered := Entered{ID: act.ID}
	next, told, err := s.Desk.Do(act, s.Games())
	if act.ID == "" || len(act.ID) > 64 {
		next, err = s.Desk, errors.New("an act needs an id of 1 to 64 characters, its own and no other's")
	}
	if next.Quiet != s.Quiet {
		s.Quiet = next.Quiet
		s.HeadRev++
	}
	s.Desk = next
	if err != nil {
		entered.Refused = err.Error()
	} else {
		noted := Noted{Board: next.Place.Board, Kind: NoteDesk, Was: act.Who, Is: act.Action, Text: told}
		if said := s.sayAtDesk(act); said != "" {
			noted.Text, noted.Engine = said, true
		}
		s.note(noted)
		s.Totals.AtDesk++
	}
	s.remember(entered)
}

// followAtDesk lets the desks follow what has happened.
func (s *Show) followAtDesk() {
	s.Desk = s.Desk.Follow(s.Games(), s.At)
	s.hide()
}

// Games returns the show's games as desks take them.
func (s *Show) Games() desk.Games { return deskGames{s} }

type deskGames struct{ show *Show }

func (g deskGames) Boards() int { return len(g.show.Boards) }
func (g deskGames) Quiet() bool { return g.show.Quiet }

func (g deskGames) Game(board int) desk.Game {
	if board < 1 || board > len(g.show.Boards) {
		return nil
	}
	return deskGame{g.show.Boards[board-1]}
}

// Pointed returns the marks of a sentence that still holds, and that viewers may know of:
// all desks see the marks, and not all may know what the engine says.
func (g deskGames) Pointed(key string, board int) ([]desk.Mark, int, error) {
	hides := g.show.EngineHides()
	for i := range g.show.Said.Items {
		item := &g.show.Said.Items[i]
		meant := item.Key() == key || key == "" && item.Board == board && len(item.Marks) > 0
		if meant && hides.keeps(item) {
			if key != "" {
				return nil, 0, desk.ErrHidesEngine
			}
			continue
		}
		if meant && item.Withdrawn.IsZero() {
			if len(item.Marks) == 0 {
				return nil, 0, errors.New("that sentence points at nothing on the board")
			}
			return deskMarks(item.Marks), item.Board, nil
		}
	}
	if key == "" {
		return nil, 0, errors.New("no sentence of this board points at anything now")
	}
	return nil, 0, errors.New("that sentence is no longer true")
}

func deskMarks(marks []prompt.Mark) []desk.Mark {
	out := make([]desk.Mark, 0, len(marks))
	for _, m := range marks {
		out = append(out, desk.Mark{Meaning: desk.Meaning(m.Kind), From: m.From, To: m.To})
	}
	return out
}

type deskGame struct{ board *Board }

func (g deskGame) Number() int          { return g.board.Game }
func (g deskGame) Plies() int           { return len(g.board.Plies) }
func (g deskGame) HalfMove(ply int) int { return g.board.HalfMove(ply) }
func (g deskGame) SAN(ply int) string   { return g.board.Plies[ply].SAN }

func (g deskGame) Squares(ply int) (from, to string) {
	move := g.board.Plies[ply].Move
	return move.S1().String(), move.S2().String()
}

func (g deskGame) Position(ply int) *chess.Position {
	if ply == 0 {
		return g.board.start.position
	}
	return g.board.Plies[ply-1].position
}

// FEN is known of where the game stands, which is where desks mostly do.
func (g deskGame) FEN(ply int) string {
	if ply == len(g.board.Plies) {
		return g.board.FEN
	}
	return g.Position(ply).String()
}
