package bitboard

import (
	"fmt"
	"strconv"
	"strings"
)

// StartFEN is the position a game begins with (PGN 16.1.4).
const StartFEN = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"

// ParseFEN reads a position in Forsyth-Edwards Notation (PGN 16.1). The two counters
// may both be missing, and a move number of 0 is taken for 1. What could never be used
// is dropped, since many writers leave it in: a right to castle whose king or rook is
// not at home, an en passant square that no pawn has just passed. Everything else that
// is not in order is an error that says where.
func ParseFEN(fen string) (Position, error) {
	p, err := parseFEN(fen)
	if err != nil {
		return Position{}, fmt.Errorf("FEN %.100q: %w", fen, err)
	}
	return p, nil
}

func parseFEN(fen string) (Position, error) {
	p := Position{passed: NoSquare, number: 1}
	fields := strings.Fields(fen)
	if len(fields) != 4 && len(fields) != 6 {
		return p, fmt.Errorf("%d fields, want 6, or 4 without the counters", len(fields))
	}
	if err := p.readPlacement(fields[0]); err != nil {
		return p, err
	}
	for i, read := range []func(string) error{p.readTurn, p.readCastles, p.readPassed} {
		if err := read(fields[i+1]); err != nil {
			return p, err
		}
	}
	if len(fields) == 6 {
		if err := p.readCounters(fields[4], fields[5]); err != nil {
			return p, err
		}
	}
	return p, p.complete()
}

func (p *Position) readPlacement(field string) error {
	ranks := strings.Split(field, "/")
	if len(ranks) != 8 {
		return fmt.Errorf("%d ranks, want 8", len(ranks))
	}
	for i, rank := range ranks {
		if err := p.readRank(7-i, rank); err != nil {
			return err
		}
	}
	return nil
}

func (p *Position) readRank(rank int, text string) error {
	file := 0
	for _, c := range []byte(text) {
		switch piece := pieceOf(c); {
		case c >= '1' && c <= '8':
			file += int(c - '0')
		case piece == NoPiece:
			return fmt.Errorf("rank %d: %q is no piece", rank+1, c)
		case file < 8:
			p.put(piece, NewSquare(file, rank))
			file++
		default:
			file++
		}
	}
	if file != 8 {
		return fmt.Errorf("rank %d has %d squares", rank+1, file)
	}
	return nil
}

// pieceOf returns the piece a letter of FEN stands for, or NoPiece.
func pieceOf(letter byte) Piece {
	c := White
	if letter >= 'a' {
		c, letter = Black, letter-0x20
	}
	if letter == ' ' {
		return NoPiece
	}
	return NewPiece(c, PieceType(max(0, strings.IndexByte(typeLetters, letter))))
}

func (p *Position) readTurn(field string) error {
	switch field {
	case "w":
		p.turn = White
	case "b":
		p.turn = Black
	default:
		return fmt.Errorf("side to move is %q, want w or b", field)
	}
	return nil
}

func (p *Position) readCastles(field string) error {
	if field == "-" {
		return nil
	}
	for _, c := range []byte(field) {
		i := strings.IndexByte("KQkq", c)
		if i < 0 {
			return fmt.Errorf("castling has %q, want KQkq or -", c)
		}
		rook := [...]Square{H1, A1, H8, A8}[i]
		side := Colour(i / 2)
		if p.Piece(rook) == NewPiece(side, Rook) && p.Piece(E1+Square(side)*56) == NewPiece(side, King) {
			p.castles |= rook.bit()
		}
	}
	return nil
}

func (p *Position) readPassed(field string) error {
	if field == "-" {
		return nil
	}
	square, ok := ParseSquare(field)
	if rank := 5 - 3*int(p.turn); !ok || square.Rank() != rank {
		return fmt.Errorf("en passant is %q, want - or a square of rank %d", field, rank+1)
	}
	from := square + 8 - 16*Square(p.turn) // where the pawn came from
	if p.Occupied()&SetOf(square, from) == 0 && p.Piece(behind(square)) == NewPiece(p.turn.Other(), Pawn) {
		p.passed = square
	}
	return nil
}

func (p *Position) readCounters(quiet, number string) error {
	q, err := strconv.ParseUint(quiet, 10, 16)
	if err != nil {
		return fmt.Errorf("half-move clock is %q, want a number up to %d", quiet, mostCounted)
	}
	n, err := strconv.ParseUint(number, 10, 16)
	if err != nil {
		return fmt.Errorf("move number is %q, want a number up to %d", number, mostCounted)
	}
	p.quiet, p.number = uint16(q), max(1, uint16(n))
	return nil
}

// complete checks what cannot be played from and finds the hash.
func (p *Position) complete() error {
	for _, c := range []Colour{White, Black} {
		if n := p.Pieces(c, King).Count(); n != 1 {
			return fmt.Errorf("%s has %d kings", c, n)
		}
	}
	if wrong := p.Types(Pawn) & (rank1 | rank8); wrong != 0 {
		return fmt.Errorf("a pawn stands on %s", wrong.First())
	}
	them := p.turn.Other()
	if p.attackedBy(p.turn, p.KingSquare(them), p.Occupied(), p.Side(p.turn)) != 0 {
		return fmt.Errorf("%s is in check and %s is to move", them, p.turn)
	}
	p.taken = p.canPass()
	p.hash = p.fullHash()
	return nil
}
