package relay

import "clocktell/relay/bitboard"

// Wanted is a position that somebody waits for an opinion on.
type Wanted struct {
	For   WantedFor
	Board int
	Game  int    // Board.Game now
	Ply   int    // after which it stands, 0: the start; OffGame: on a side line
	Place uint64 // hash of the position
}

// OffGame is the ply of a position that its game has not reached.
const OffGame = -1

// WantedFor says who waits, the most urgent first.
type WantedFor uint8

// Who waits.
const (
	WantedAtDesk  WantedFor = iota // a commentator looks at it
	WantedOnAir                    // viewers see it
	WantedBurning                  // something happens on its board
	WantedLive                     // it is where a game stands
)

// Wanted lists the positions that an opinion is wanted on now, the most urgent first and
// each once: what the desk looks at, where the board on the air stands, then where it
// burns, then the other games that go on. A position without a legal move
// needs none, nor does one that is not of its game.
func (s *Show) Wanted() []Wanted {
	var out []Wanted
	add := func(w Wanted, p *bitboard.Position) {
		if !isPlace(p) || !p.HasMove() || !s.Boards[w.Board-1].HasStart() {
			return
		}
		for i := range out {
			if out[i].Board == w.Board && out[i].Place == w.Place {
				return
			}
		}
		out = append(out, w)
	}
	if w, p, ok := s.atDesk(); ok {
		add(w, &p)
	}
	live := func(board int, why WantedFor) {
		if board < 1 || board > len(s.Boards) {
			return
		}
		b := s.Boards[board-1]
		if n := len(b.Plies); !b.Over() {
			add(Wanted{why, board, b.Game, n, b.Place(n).Hash()}, b.Place(n))
		}
	}
	live(s.Desk.Air.Board, WantedOnAir)
	for _, hot := range s.Desk.Hot {
		live(hot.Board, WantedBurning)
	}
	for _, b := range s.Boards {
		live(b.Number, WantedLive)
	}
	return out
}

// atDesk returns the position that the desk looks at; false where there is none.
func (s *Show) atDesk() (Wanted, bitboard.Position, bool) {
	place := s.Desk.Place
	if place.Board < 1 || place.Board > len(s.Boards) {
		return Wanted{}, bitboard.Position{}, false
	}
	b := s.Boards[place.Board-1]
	w := Wanted{For: WantedAtDesk, Board: place.Board, Game: b.Game, Ply: place.Ply}
	if place.Move == 0 {
		if place.Ply > len(b.Plies) {
			return Wanted{}, bitboard.Position{}, false
		}
		p := *b.Place(place.Ply)
		w.Place = p.Hash()
		return w, p, isPlace(&p)
	}
	_, p, ok := s.sideLine()
	w.Ply, w.Place = OffGame, p.Hash()
	return w, p, ok
}

// Course returns where the moves begin that lead to a wanted position, and those moves;
// false where the show no longer has it. A search needs them to see a repetition.
func (s *Show) Course(w Wanted) (from bitboard.Position, moves []bitboard.Move, ok bool) {
	if w.Board < 1 || w.Board > len(s.Boards) || s.Boards[w.Board-1].Game != w.Game {
		return from, nil, false
	}
	b := s.Boards[w.Board-1]
	if w.Ply != OffGame {
		if w.Ply < 0 || w.Ply > len(b.Plies) || b.Place(w.Ply).Hash() != w.Place {
			return from, nil, false
		}
		return b.start.place, b.Moves(0, w.Ply), true
	}
	if s.Desk.Place.Board != w.Board {
		return from, nil, false
	}
	line, p, ok := s.sideLine()
	if !ok || p.Hash() != w.Place {
		return from, nil, false
	}
	if ply := s.Desk.Place.Ply; ply <= len(b.Plies) && b.Place(ply).Hash() == line.from.Hash() {
		return b.start.place, append(b.Moves(0, ply), line.moves...), true
	}
	return line.from, line.moves, true // the game has been corrected since
}

// sideLine is where a side line departs, and its moves.
type sideLine struct {
	from  bitboard.Position
	moves []bitboard.Move
}

// sideLine returns the side line that the desk stands in, up to there, and where it leads.
func (s *Show) sideLine() (line sideLine, p bitboard.Position, ok bool) {
	fen, steps := s.Desk.Departure()
	p, err := bitboard.ParseFEN(fen)
	if err != nil {
		return line, p, false
	}
	line.from = p
	for _, step := range steps {
		move, err := p.ParseSAN(step.SAN)
		if err != nil {
			return line, p, false
		}
		p.Make(move)
		line.moves = append(line.moves, move)
	}
	return line, p, true
}
