package desk

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/notnil/chess"

	"clocktell/relay/bitboard"
	"clocktell/relay/notation"
)

// Move is a move of a side line.
type Move struct {
	ID    int
	After int // the move of a side line before it; 0: it departs from the game
	Board int
	Game  int // as Place.Game
	Ply   int // plies of the game before the side line
	Step
	Name string          // of the side line that begins with it
	from *chess.Position // before it
	to   *chess.Position
}

// Step is a move as it is shown.
type Step struct {
	Number   int // half-moves from White's first, as Game.HalfMove counts
	SAN      string
	From, To string // squares such as "e4"
	FEN      string // of the position after it
}

// Lines returns the side lines of the game that the desks stand at.
func (s *State) Lines() []Move {
	var out []Move
	for _, m := range s.lines {
		if m.Board == s.Place.Board && m.Game == s.Place.Game {
			out = append(out, m)
		}
	}
	return out
}

// move returns a move of a side line, nil for none.
func (s *State) move(id int) *Move {
	i := slices.IndexFunc(s.lines, func(m Move) bool { return m.ID == id })
	if i < 0 || id == 0 {
		return nil
	}
	return &s.lines[i]
}

// path returns the side line from where it departs up to a move.
func (s *State) path(id int) []Move {
	var out []Move
	for m := s.move(id); m != nil; m = s.move(m.After) {
		out = append(out, *m)
	}
	slices.Reverse(out)
	return out
}

// Departure returns the position from which the side line departs that the desks stand
// in, and its moves up to there; "" where they stand in the game.
func (s *State) Departure() (fen string, moves []Step) {
	path := s.path(s.Place.Move)
	if len(path) == 0 {
		return "", nil
	}
	return path[0].from.String(), steps(path)
}

func steps(path []Move) []Step {
	out := make([]Step, 0, len(path))
	for _, m := range path {
		out = append(out, m.Step)
	}
	return out
}

// Adrift reports that a side line departs from a position that its game, as it stands
// now, did not reach.
func (m Move) Adrift(game Game) bool {
	return m.After == 0 && (game == nil || game.Plies() < m.Ply || game.Position(m.Ply).String() != m.from.String())
}

// position returns where the desks stand.
func (s *State) position(games Games) (*chess.Position, error) {
	if m := s.move(s.Place.Move); m != nil {
		return m.to, nil
	}
	game, err := s.game(games)
	if err != nil {
		return nil, err
	}
	return game.Position(s.Place.Ply), nil
}

// Legal returns the position at the place; false where there is no game. It is the
// caller's own: those of a game remember their moves and must not be shared.
func (s *State) Legal(games Games) (bitboard.Position, bool) {
	position, err := s.position(games)
	if err != nil {
		return bitboard.Position{}, false
	}
	p, err := bitboard.ParseFEN(position.String())
	return p, err == nil
}

// play plays a move on the desk's board: a step on, where the game or a side line went
// there already, else a new move of a side line.
func (s *State) play(act Act, games Games) error {
	game, err := s.game(games)
	if err != nil {
		return err
	}
	before, err := s.position(games)
	if err != nil {
		return err
	}
	move, err := notation.Resolve(before, act.SAN)
	if err != nil {
		return refusal(before, act.SAN, err)
	}
	if s.Place.Move == 0 && s.Place.Ply < game.Plies() {
		if from, to := game.Squares(s.Place.Ply); from == move.S1().String() && to == move.S2().String() &&
			game.Position(s.Place.Ply+1).String() == before.Update(move).String() {
			s.stand(s.Place.Ply+1, 0, games)
			return nil
		}
	}
	fresh := s.sideMove(game, before, move)
	for i := range s.lines {
		if m := &s.lines[i]; m.After == fresh.After && m.SAN == fresh.SAN && (m.After != 0 || m.departsAt(s.Place) && m.from.String() == before.String()) {
			s.stand(m.Ply, m.ID, games)
			return nil
		}
	}
	return s.add(fresh, games)
}

func (m *Move) departsAt(p Place) bool {
	return m.Board == p.Board && m.Game == p.Game && m.Ply == p.Ply
}

func (s *State) sideMove(game Game, before *chess.Position, move *chess.Move) Move {
	after := before.Update(move)
	return Move{
		After: s.Place.Move, Board: s.Place.Board, Game: s.Place.Game, Ply: s.Place.Ply,
		Step: Step{
			Number: game.HalfMove(s.Place.Ply) + len(s.path(s.Place.Move)), SAN: chess.AlgebraicNotation{}.Encode(before, move),
			From: move.S1().String(), To: move.S2().String(), FEN: after.String(),
		},
		from: before, to: after,
	}
}

// lineMeant returns the side line's move that an act means.
func (s *State) lineMeant(act Act) (*Move, error) {
	id := act.Move
	if id == 0 {
		id = s.Place.Move
	}
	if m := s.move(id); m != nil {
		return m, nil
	}
	if act.Move == 0 {
		return nil, errors.New("the desk stands in the game, not in a side line")
	}
	return nil, fmt.Errorf("there is no move %d of a side line", act.Move)
}

func (s *State) nameLine(act Act, _ Games) error {
	m, err := s.lineMeant(act)
	if err != nil {
		return err
	}
	name := strings.TrimSpace(act.Text)
	if name != "" && !legible(name, nameMost) {
		return fmt.Errorf("a name has at most %d characters, on one line", nameMost)
	}
	s.keepUndo("the name")
	first := s.branchOf(m.ID)
	s.lines = slices.Clone(s.lines)
	s.move(first).Name = name
	return nil
}

// branchOf returns the first move of the side line that a move belongs to: the nearest
// one at or before it that was entered beside another, or that departs from the game.
func (s *State) branchOf(id int) int {
	for m := s.move(id); m != nil; m = s.move(m.After) {
		if m.After == 0 || m.Name != "" || s.siblings(m)[0].ID != m.ID {
			return m.ID
		}
	}
	return id
}

// siblings returns the moves shown in place of a move, itself among them, in the order
// in which they were entered.
func (s *State) siblings(m *Move) []Move {
	var out []Move
	for _, o := range s.lines {
		if o.After == m.After && (o.After != 0 || o.Board == m.Board && o.Game == m.Game && o.Ply == m.Ply && o.from.String() == m.from.String()) {
			out = append(out, o)
		}
	}
	return out
}

func (s *State) dropLine(act Act, games Games) error {
	m, err := s.lineMeant(act)
	if err != nil {
		return err
	}
	gone := map[int]bool{m.ID: true}
	for _, o := range s.lines { // a move stands behind the one that it follows
		if gone[o.After] {
			gone[o.ID] = true
		}
	}
	if gone[s.Air.Move] || s.Challenge != nil && (gone[s.Challenge.Line] || gone[s.Challenge.Place.Move]) {
		return errors.New("the line is on the air, or the answer of the challenge; take that off first")
	}
	s.keepUndo("the line that was dropped")
	before, ply := m.After, m.Ply
	s.lines = slices.DeleteFunc(slices.Clone(s.lines), func(o Move) bool { return gone[o.ID] })
	if gone[s.Place.Move] {
		s.stand(ply, before, games)
	}
	return nil
}
