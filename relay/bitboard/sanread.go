package bitboard

import (
	"errors"
	"unsafe"
)

// Why a text is not taken for a move. The errors say nothing of the text, so that to
// refuse one costs no more than to take it.
var (
	ErrNotMove   = errors.New("not written as a move")
	ErrIllegal   = errors.New("not a legal move")
	ErrAmbiguous = errors.New("may mean two moves")
)

// ParseSAN finds the one legal move that the text means. It takes what people and
// programs write besides strict SAN (PGN 8.2.3): zeros in castling, no = before a
// promotion, long algebraic moves and coordinates, figurines, more disambiguation than
// needed, and marks of check and capture that are missing or wrong. The error is
// ErrNotMove, ErrIllegal or ErrAmbiguous.
func (p *Position) ParseSAN(text string) (Move, error) {
	w, ok := readMove(text)
	if !ok {
		return NoMove, ErrNotMove
	}
	return p.resolve(w)
}

// ParseSANBytes is ParseSAN of bytes, which it does not keep.
func (p *Position) ParseSANBytes(text []byte) (Move, error) {
	return p.ParseSAN(unsafe.String(unsafe.SliceData(text), len(text)))
}

// resolve looks only at pieces of the kind that can reach the square: usually one, and
// then only whether its king is safe remains to be seen.
func (p *Position) resolve(w written) (Move, error) {
	if w.castle != noCastle {
		return p.resolveCastle(w.castle == castleShort)
	}
	kind := w.piece
	if kind == NoPieceType {
		kind = p.typeOn(w.from.First())
	}
	if !p.promotes(kind, w.to, w.promotion) {
		return NoMove, ErrIllegal
	}
	found := NoSquare
	for s := p.sources(kind, w.to) & w.from; s != 0; s = s.Rest() {
		from := s.First()
		if !p.legal(from, w.to, kind) {
			continue
		}
		if found != NoSquare {
			return NoMove, ErrAmbiguous
		}
		found = from
	}
	if found == NoSquare {
		return p.kingCastles(w, kind)
	}
	return NewMove(found, w.to, w.promotion), nil
}

func (p *Position) resolveCastle(short bool) (Move, error) {
	if !p.canCastle(short) {
		return NoMove, ErrIllegal
	}
	return p.castling(short), nil
}

// kingCastles takes castling that is written as the king's own move.
func (p *Position) kingCastles(w written, kind PieceType) (Move, error) {
	from := p.KingSquare(p.turn)
	if kind != King || p.castles == 0 || !w.from.Has(from) {
		return NoMove, ErrIllegal
	}
	switch NewMove(from, w.to, NoPieceType) {
	case p.castling(true):
		return p.resolveCastle(true)
	case p.castling(false):
		return p.resolveCastle(false)
	}
	return NoMove, ErrIllegal
}
