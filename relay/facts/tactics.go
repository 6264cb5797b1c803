package facts

import "clocktell/relay/bitboard"

func (l *look) tactics() {
	for c := range both {
		if c == l.turn || l.checkers == 0 {
			l.mates(c)
		}
	}
	c := l.turn
	if l.count[c] == 0 && l.checkers != 0 {
		l.add(Checkmated, c)
		l.point(l.king[c])
		l.pointAll(c, l.checkers)
	}
	// Targets are men that do not hang already, the king among them.
	targets := (l.pieceSet[c.Other()] | bitOf(l.king[c.Other()])) &^ l.hanging[c.Other()]
	for i, m := range l.moves[c][:l.count[c]] {
		if l.outcomes[c][i] >= 0 {
			l.attempt(m, l.outcomes[c][i], targets)
		}
	}
}

// mates finds the moves of a side that mate.
func (l *look) mates(c Colour) {
	kind := MateOffer
	if c != l.turn {
		kind = MateThreat
	}
	for _, m := range l.moves[c][:l.count[c]] {
		next := l.views[c]
		next.Make(m)
		if !next.IsMate() {
			continue
		}
		l.add(kind, c).Move = m
		l.point(m.From(), m.To(), l.king[c.Other()])
	}
}

// try is a move looked at for what it attacks.
type try struct {
	move     Move
	outcome  int
	piece    Piece // as it stands after the move
	occupied Set   // after the move
	targets  Set
}

func (l *look) attempt(m Move, outcome int, targets Set) {
	piece := l.p.Piece(m.From())
	if t := m.Promotion(); t != bitboard.NoPieceType {
		piece = bitboard.NewPiece(l.turn, t)
	}
	t := try{move: m, outcome: outcome, piece: piece, targets: targets &^ bitOf(m.To())}
	t.occupied = l.occupied&^bitOf(m.From()) | bitOf(m.To())
	l.fork(&t)
	l.skewers(&t)
	l.discoveries(&t)
}

// worthwhile returns those targets that something attacking them would win if it were
// its turn: the king, what is worth more, what is not defended.
func (l *look) worthwhile(attacker PieceType, targets, occupied Set) Set {
	var found Set
	for s := targets; s != 0; s = s.Rest() {
		on := s.First()
		defended := l.p.AttackersThrough(on, occupied)&occupied&l.side[l.turn.Other()] != 0
		if !defended || l.worth(on) > bitboard.Value(attacker) {
			found |= s & -s
		}
	}
	return found
}

func (l *look) fork(t *try) {
	from, to := t.move.From(), t.move.To()
	attacked := bitboard.Attacks(to, t.piece, t.occupied) & t.targets
	if attacked.Rest() == 0 {
		return
	}
	forked := l.worthwhile(t.piece.Type(), attacked, t.occupied)
	if forked.Rest() == 0 {
		return
	}
	if won := l.winsAnyway(t, forked); won > 0 {
		l.offer(Fork, t, won, from, to)
		l.pointAll(l.turn, forked)
	}
}

func (l *look) offer(kind Kind, t *try, won int, squares ...Square) {
	f := l.add(kind, l.turn)
	f.Amount, f.Move = won, t.move
	l.point(squares...)
}

func (l *look) skewers(t *try) {
	if k := t.piece.Type(); k != bitboard.Bishop && k != bitboard.Rook && k != bitboard.Queen {
		return
	}
	from, to := t.move.From(), t.move.To()
	before := bitboard.Attacks(from, l.p.Piece(from), l.occupied)
	reach := bitboard.Attacks(to, t.piece, t.occupied)
	fronts := l.worthwhile(t.piece.Type(), reach&t.targets&^before, t.occupied)
	for s := flipped(l.turn, fronts); s != 0; s = s.Rest() {
		front := flippedSquare(l.turn, s.First())
		opened := bitboard.Attacks(to, t.piece, t.occupied&^bitOf(front)) &^ reach
		behind := opened & t.targets &^ bitOf(l.king[l.turn.Other()])
		if behind == 0 || l.worth(behind.First()) > l.worth(front) {
			continue
		}
		if won := l.winsAnyway(t, behind|bitOf(front)); won > 0 {
			l.offer(Skewer, t, won, from, to, front, behind.First())
		}
	}
}

// discoveries looks along the lines that the man leaves.
func (l *look) discoveries(t *try) {
	from, to := t.move.From(), t.move.To()
	behind := l.p.AttackersThrough(from, l.occupied) & l.sliders(l.turn)
	for s := flipped(l.turn, behind); s != 0; s = s.Rest() {
		attacker := flippedSquare(l.turn, s.First())
		piece := l.p.Piece(attacker)
		opened := bitboard.Attacks(attacker, piece, t.occupied) &^ bitboard.Attacks(attacker, piece, l.occupied)
		found := l.worthwhile(piece.Type(), opened&t.targets, t.occupied)
		if found == 0 {
			continue
		}
		forked := l.worthwhile(t.piece.Type(), bitboard.Attacks(to, t.piece, t.occupied)&t.targets, t.occupied)
		if won := l.winsAnyway(t, found|forked); won > 0 {
			l.offer(DiscoveredAttack, t, won, from, to, attacker, found.First())
			l.pointAll(l.turn, forked&^found)
		}
	}
}

// winsAnyway returns the least that the move wins with captures on these squares, or where
// the reply goes, whatever the reply; 0 if it is no more than what the move wins by
// itself, or if there is no reply.
func (l *look) winsAnyway(t *try, squares Set) int {
	e := newExchange(l.p)
	gain := e.enter(t.move, l.p.Piece(t.move.From()).Type(), l.turn)
	after := *l.p
	after.Make(t.move)
	var room [bitboard.MaxMoves]Move
	replies := after.Moves(room[:0])
	least := kingValue
	for _, reply := range replies {
		least = min(least, gain+afterReply(&after, reply, squares))
		if least <= max(0, t.outcome) {
			return 0
		}
	}
	if len(replies) == 0 {
		return 0
	}
	return least
}

// afterReply returns what the other side can then win, less what the reply captured.
func afterReply(p *Position, reply Move, squares Set) int {
	e := newExchange(p)
	lost := e.enter(reply, p.Piece(reply.From()).Type(), p.Turn())
	next := *p
	next.Make(reply)
	us, them := next.Turn(), p.Turn()
	e = newExchange(&next)
	most := 0
	for s := (squares | bitOf(reply.To())) & next.Side(them) &^ bitOf(next.KingSquare(them)); s != 0; s = s.Rest() {
		won, _ := e.capture(us, s.First())
		most = max(most, won)
	}
	return most - lost
}
