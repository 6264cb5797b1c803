package relay

import (
	"reflect"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/tell"
)

// keptBoard is a board as it is kept for scenes that are held back, taken apart: what is the same
// as before is the very same part. A move changes moves and now, time alone now.
type keptBoard struct {
	game  *Board // what a move seldom changes, and nothing else
	moves *keptMoves
	now   *keptNow
}

// keptMoves is what follows from the moves.
type keptMoves struct {
	plies      []*Ply
	fen        string
	opening    Opening
	correction *Correction
	anchor     time.Time
	timing     Timing
}

// keptNow is what time alone changes as well.
type keptNow struct {
	rev    uint64
	since  time.Time
	news   bool
	keep   int
	sides  [2]*keptSide
	alerts []Alert
}

type keptSide struct {
	call  tell.Call
	level tell.Trouble
	ahead Ahead
}

// keep returns the board as it is kept behind was, which was kept as keeps. The zero board comes
// before the first.
func (b *Board) keep(was *Board, keeps keptBoard) keptBoard {
	if keeps.moves == nil {
		keeps.moves, keeps.now = new(keptMoves), new(keptNow)
	}
	moves, now := b.keptMoves(was, keeps.moves), b.keptNow(keeps.now)
	return keptBoard{game: shared(b.keptGame(), keeps.game), moves: shared(moves, keeps.moves), now: &now}
}

// shared returns what was kept before if it is the same.
func shared[T any](part T, keeps *T) *T {
	if keeps != nil && reflect.DeepEqual(&part, keeps) {
		return keeps
	}
	return &part
}

func (b *Board) keptGame() Board {
	start := b.start
	start.position = nil // it remembers its legal moves
	return Board{
		Number: b.Number, Game: b.Game, Feed: b.Feed, Frozen: b.Frozen, Key: b.Key, Players: b.Players, Control: b.Control,
		Result: b.Result, Fault: b.Fault, Silent: b.Silent, EndedAt: b.EndedAt, HeldAt: b.HeldAt, Seen: b.Seen,
		Secret: b.Secret, Habits: b.Habits, in: b.in, start: start, startKnown: b.startKnown,
	}
}

func (b *Board) keptMoves(was *Board, keeps *keptMoves) keptMoves {
	moves := keptMoves{keeps.plies, b.FEN, b.Opening, b.Correction, b.Anchor, b.Timing}
	if !b.samePlies(was) {
		moves.plies = airedPlies(b.Plies, keeps.plies)
	}
	return moves
}

func (b *Board) keptNow(keeps *keptNow) keptNow {
	now := keptNow{rev: b.Rev, since: b.Since, news: b.News, keep: b.Keep, alerts: b.Alerts}
	for _, side := range []clock.Side{clock.White, clock.Black} {
		now.sides[side] = shared(keptSide{b.Calls[side], b.Levels[side], b.Ahead[side]}, keeps.sides[side])
	}
	if reflect.DeepEqual(b.Alerts, keeps.alerts) {
		now.alerts = keeps.alerts
	}
	return now
}

// board returns it as scenes were sent it. With the same moves as a board made before it has the
// same plies.
func (k keptBoard) board(near keptBoard, made *Board) *Board {
	switch k {
	case keptBoard{}:
		return nil
	case near:
		return made
	}
	next, moves, now := *k.game, k.moves, k.now
	if moves == near.moves {
		next.Plies = made.Plies
	} else {
		next.Plies = pliesOf(moves.plies)
	}
	next.FEN, next.Opening, next.Correction, next.Anchor, next.Timing = moves.fen, moves.opening, moves.correction, moves.anchor, moves.timing
	next.Rev, next.Since, next.News, next.Keep, next.Alerts = now.rev, now.since, now.news, now.keep, now.alerts
	for side, s := range now.sides {
		next.Calls[side], next.Levels[side], next.Ahead[side] = s.call, s.level, s.ahead
	}
	return &next
}

func pliesOf(kept []*Ply) []Ply {
	plies := make([]Ply, len(kept))
	for i, p := range kept {
		plies[i] = *p
	}
	return plies
}
