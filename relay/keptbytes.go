package relay

import (
	"reflect"

	"clocktell/relay/desk"
)

// What the parts of the past take in memory, without what they point to.
var (
	boardBytes  = sizeOf[Board]()
	movesBytes  = sizeOf[keptMoves]()
	nowBytes    = sizeOf[keptNow]()
	sideBytes   = sizeOf[keptSide]()
	plyBytes    = sizeOf[Ply]()
	alertBytes  = sizeOf[Alert]()
	topBytes    = sizeOf[Show]() + sizeOf[keptTop]()
	deskBytes   = sizeOf[desk.State]()
	hiddenBytes = sizeOf[hidden]()
	matchBytes  = sizeOf[Match]()
	gameBytes   = sizeOf[MatchBoard]()
)

const (
	pointerBytes = 8
	stringBytes  = 2 * pointerBytes // without its letters
)

func sizeOf[T any]() int { return int(reflect.TypeFor[T]().Size()) }

func (k keptBoard) bytes(before keptBoard) int {
	sum := nowBytes
	if k.game != before.game {
		sum += boardBytes
	}
	if before.moves == nil {
		before.moves, before.now = new(keptMoves), new(keptNow)
	}
	if k.moves != before.moves {
		sum += k.moves.bytes(before.moves)
	}
	for side, s := range k.now.sides {
		if s != before.now.sides[side] {
			sum += s.bytes()
		}
	}
	if !sameRoom(k.now.alerts, before.now.alerts) {
		sum += alertsBytes(k.now.alerts)
	}
	return sum
}

func (m *keptMoves) bytes(before *keptMoves) int {
	sum := movesBytes + len(m.fen)
	if !sameRoom(m.plies, before.plies) {
		sum += pointerBytes * cap(m.plies)
	}
	for i, p := range m.plies {
		if i >= len(before.plies) || p != before.plies[i] {
			sum += plyBytes
		}
	}
	return sum
}

func (s *keptSide) bytes() int {
	sum := sideBytes + len(s.call.Changed) + len(s.level.Reason) + len(s.level.Evidence)
	for _, reason := range s.call.Reasons {
		sum += stringBytes + len(reason)
	}
	return sum
}

func alertsBytes(alerts []Alert) int {
	sum := alertBytes * cap(alerts)
	for _, a := range alerts {
		sum += len(a.ID) + len(a.Say.Text) + len(a.Say.Evidence)
	}
	return sum
}

func sameRoom[T any](a, b []T) bool {
	return cap(a) == 0 || cap(b) > 0 && &a[:1][0] == &b[:1][0]
}

func (t *keptTop) bytes(before *keptTop) int {
	if before == nil {
		before = &keptTop{show: &Show{}}
	}
	sum := topBytes
	if d := t.show.Desk; d != nil && d != before.show.Desk {
		sum += deskBytes
	}
	if m := t.show.Match; m != nil && m != before.show.Match {
		sum += matchBytes + gameBytes*len(m.Boards)
	}
	if h, was := t.show.hidden, before.show.hidden; h != nil {
		if sum += hiddenBytes; was == nil || was.board != h.board {
			sum += boardBytes + plyBytes*len(h.board.Plies)
		}
	}
	return sum
}
