package relay

import (
	"fmt"
	"slices"
	"time"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/remark"
)

// remarksLate is how many plies after a remark the packet that brought it may have gone on: what
// a feed catches up with is news only at its end.
const remarksLate = 1

// remarksAfter returns the remarks after a ply that is about to be appended.
func (next *Board) remarksAfter(ply *Ply) *remark.State {
	n := len(next.Plies)
	before := next.Place(n)
	if !isPlace(before) {
		return new(remark.State)
	}
	state := next.remarksAt(n).Next(before, bitMove(ply.Move), &ply.place, next.repeatable(&ply.place)...)
	return &state
}

// remarksAt returns the remarks after n plies.
func (b *Board) remarksAt(n int) remark.State {
	if n == 0 {
		return remark.Begin(&b.start.place)
	}
	return *b.Plies[n-1].remarks
}

// repeatable returns the hashes of the positions that the one after the next ply may repeat: those
// with the same side to move since the last capture or pawn move.
func (b *Board) repeatable(after *bitboard.Position) []uint64 {
	const soonest = 4 // plies, two there and two back
	n := len(b.Plies)
	quiet := min(after.HalfmoveClock(), n+1)
	if quiet < soonest {
		return nil
	}
	hashes := make([]uint64, 0, quiet/2)
	for back := 2; back <= quiet; back += 2 {
		hashes = append(hashes, b.Place(n+1-back).Hash())
	}
	return hashes
}

// factConditions lists what stands on the board and is worth saying, and if there is silence, something to
// fill it: what holds at this very ply and has not been told of the game. It keeps what it adds.
func (b *Board) factConditions(t time.Time, silent bool) []Alert {
	n := len(b.Plies)
	if n == 0 || b.Fault != "" {
		return nil
	}
	var out []Alert
	state := b.Plies[n-1].remarks
	for _, r := range state.Remarks() {
		if b.isNews(&r) {
			out = append(out, b.remarkAlert(&r, t))
			silent = silent && (hasAlert(b.Alerts, out[len(out)-1].ID) || out[len(out)-1].Say.Priority == prompt.Silent)
		}
	}
	b.filled = slices.DeleteFunc(slices.Clone(b.filled), func(r remark.Remark) bool { return int(r.Said) > n })
	for i := range b.filled {
		if r := &b.filled[i]; state.Stands(r) {
			out = append(out, b.remarkAlert(r, t))
		}
	}
	if !silent || !b.Plies[n-1].Seen.Equal(t) { // later than with its ply it would be stale
		return out
	}
	if r, ok := state.Fill(b.Place(n), b.filled); ok && b.isNews(&r) {
		b.filled = append(b.filled, r)
		out = append(out, b.remarkAlert(&r, t))
	}
	return out
}

// isNews reports whether a remark was found near the end of the packet that brought it, and is not
// of something that happened before anybody listened.
func (b *Board) isNews(r *remark.Remark) bool {
	i := int(r.Said) - 1
	seen := b.Plies[i].Seen
	if b.Plies[i].Within == unknownWithin && r.Rule.IsEvent() {
		return false
	}
	last := i + 1
	for last < len(b.Plies) && b.Plies[last].Seen.Equal(seen) {
		last++
	}
	return last-i-1 <= remarksLate
}

// remarkAlert says a remark; the words of one that stood before are not made again.
func (b *Board) remarkAlert(r *remark.Remark, t time.Time) Alert {
	id := fmt.Sprintf("board%d-game%d-%s-%s-%d", b.Number, b.Game+1, AlertPosition, r.Key(), r.Said)
	if i := slices.IndexFunc(b.Alerts, func(a Alert) bool { return a.ID == id }); i >= 0 {
		return b.Alerts[i]
	}
	side := clock.Side(r.Side)
	a := Alert{ID: id, Kind: AlertPosition, Side: side.String(), Ply: int(r.Said), At: t, Say: prompt.Position(b.in, r, b.Called(side))}
	if r.Rule.Neutral() {
		a.Side = ""
	}
	return a
}
