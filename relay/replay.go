package relay

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/notation"
	"clocktell/relay/pgn"
	"clocktell/relay/tell"
	"github.com/notnil/chess"
)

// follow takes the moves of g onto next, and their clocks. It returns the first ply
// index at which anything differs from before, and what was corrected.
func (next *Board) follow(g *pgn.Game, r Receipt) (int, *Correction) {
	moves, from, correction := next.followMoves(g, r)
	return next.takeReadings(moves, from), correction
}

// followMoves takes the moves of g onto next. It returns those whose clocks are known,
// the first ply index at which a move differs from before, and what was corrected.
//
// A game that breaks off (a half-written packet) never takes a move back: only
// a text that goes on to its result, to the next game, or to another move, does.
func (next *Board) followMoves(g *pgn.Game, r Receipt) ([]pgn.Move, int, *Correction) {
	old := next.Plies
	if next.start.fault != "" {
		next.Plies, next.Fault = nil, next.start.fault
		return nil, 0, nil
	}
	moves := trusted(g)
	same := next.commonPlies(moves)
	if same == len(moves) && same < next.fedPlies() && breaksOff(g) {
		return nil, len(old), next.Correction
	}
	next.Fault = ""
	if next.badStart != "" {
		next.Fault, next.badStart = next.badStart, ""
		return nil, len(old), next.Correction
	}
	next.Plies = slices.Clip(old[:same])
	next.play(moves[same:], old, r)
	if next.Fault != "" && len(next.Plies) < len(old) && !next.entersInto(old) {
		next.Plies = old // what cannot be played takes nothing back
		return nil, len(old), next.Correction
	}
	next.remember(old, same)
	told := moves[:same]
	if same == len(moves) && same > 0 && clockMayBeCut(g, &moves[same-1]) {
		told = moves[:same-1]
	}
	return told, same, next.corrected(old, same, r.At)
}

// entersInto reports that a move was entered by hand in place of one of the old plies.
func (next *Board) entersInto(old []Ply) bool {
	return slices.ContainsFunc(next.Hand.Moves, func(e HandMove) bool {
		return e.SAN != "" && e.Ply <= min(len(next.Plies), len(old)) && next.Plies[e.Ply-1].Move.String() != old[e.Ply-1].Move.String()
	})
}

// breaksOff reports a text that ends without a result and without another game
// behind it: it may be half of what the arena wanted to write. So is one whose comment
// is not closed: the rest of the game is taken for comment.
func breaksOff(g *pgn.Game) bool {
	return g.Result == "" && (!hasFault(g, pgn.FaultNoResult) || hasFault(g, pgn.FaultUnclosedComment))
}

// clockMayBeCut reports whether a text may have broken off before, or inside, the
// clock of its last move.
func clockMayBeCut(g *pgn.Game, last *pgn.Move) bool {
	return breaksOff(g) && (!hasReading(last) || hasFault(g, pgn.FaultUnclosedComment))
}

func hasReading(move *pgn.Move) bool {
	reading, _ := readingOf(move)
	return reading != clock.Reading{}
}

func hasFault(g *pgn.Game, reason string) bool {
	return slices.ContainsFunc(g.Faults, func(f pgn.Fault) bool { return f.Reason == reason })
}

// trusted leaves out a last move that may be half a word: O-O may still become
// O-O-O.
func trusted(g *pgn.Game) []pgn.Move {
	if n := len(g.Moves); n > 0 && hasFault(g, pgn.FaultOpenEnd) {
		return g.Moves[:n-1]
	}
	return g.Moves
}

// commonPlies counts the plies that stand as they were. A move written in
// another way is still the same move.
func (next *Board) commonPlies(moves []pgn.Move) int {
	before := next.start.position
	for i := range min(len(moves), len(next.Plies)) {
		ply := &next.Plies[i]
		if ply.Text != moves[i].SAN {
			move, err := notation.Resolve(before, moves[i].SAN)
			if err != nil || move.String() != ply.Move.String() {
				return i
			}
		}
		before = ply.position
	}
	return min(len(moves), len(next.Plies))
}

// play appends moves until one is not legal, and names that one.
func (next *Board) play(moves []pgn.Move, old []Ply, r Receipt) {
	fresh := len(next.Plies) + len(moves) - len(old)
	for i := range moves {
		before := next.position()
		move, err := notation.Resolve(before, moves[i].SAN)
		if err != nil {
			next.Fault = next.faultAt(moves[i].SAN, err)
			return
		}
		ply := newPly(before, next.Place(len(next.Plies)), move, next.lastMove())
		ply.Text = strings.Clone(moves[i].SAN) // not the whole game of this packet
		ply.told = heardOf(&moves[i])
		ply.Seen, ply.Within, ply.Alone = r.At, r.Within, fresh == 1
		if was := next.atThatMoment(old, len(next.Plies), ply.Text); was != nil {
			ply.Seen, ply.Within, ply.Alone = was.Seen, was.Within, was.Alone
		}
		ply.remarks = next.remarksAfter(&ply)
		next.stampByHand(&ply)
		next.Plies = append(next.Plies, ply)
	}
}

// atThatMoment returns a ply of before that was received when this one was
// played: the wrong move that it corrects, or itself, taken back by a feed that
// for a while told an older state.
func (next *Board) atThatMoment(old []Ply, n int, text string) *Ply {
	if n < len(old) {
		return &old[n]
	}
	if i := n - next.lostFrom; i >= 0 && i < len(next.lost) && next.lost[i].Text == text {
		return &next.lost[i]
	}
	return nil
}

// remember keeps the plies that were taken back without another in their place.
func (next *Board) remember(old []Ply, same int) {
	switch {
	case len(next.Plies) < len(old):
		next.lost, next.lostFrom = old[same:], same
	case len(next.Plies) > len(old) && len(next.Plies) >= next.lostFrom+len(next.lost):
		next.lost = nil
	}
}

func (next *Board) lastMove() *chess.Move {
	if n := len(next.Plies); n > 0 {
		return next.Plies[n-1].Move
	}
	return nil
}

func (next *Board) faultAt(text string, err error) string {
	number, side := next.MoveNumber(len(next.Plies))
	shown := "the game is shown up to its start"
	if n := len(next.Plies); n > 0 {
		shown = "the game is shown up to " + next.moveText(n-1)
	}
	return fmt.Sprintf("move %s: %v; %s", numbered(number, side, text), err, shown)
}

// moveText returns a ply with its number, as in 23...Qxh4.
func (b *Board) moveText(i int) string {
	number, side := b.MoveNumber(i)
	return numbered(number, side, b.Plies[i].SAN)
}

func numbered(number int, side clock.Side, san string) string {
	if side == clock.Black {
		return fmt.Sprintf("%d...%s", number, san)
	}
	return fmt.Sprintf("%d.%s", number, san)
}

func newPly(before *chess.Position, place *bitboard.Position, move, last *chess.Move) Ply {
	return Ply{
		Move: move, SAN: chess.AlgebraicNotation{}.Encode(before, move),
		Reply: replyOf(move, last), Legal: len(before.ValidMoves()), Rescued: rescues(place, move),
		position: before.Update(move), place: placeAfter(place, move),
	}
}

// replyOf classes a move by what it answers; see relay/tell for why.
func replyOf(move, last *chess.Move) tell.Reply {
	if last != nil && last.HasTag(chess.Capture) && move.S2() == last.S2() {
		return tell.Recapture
	}
	return pressureOf(last)
}

// pressureOf says what a side has to answer, before its answer is known.
func pressureOf(last *chess.Move) tell.Reply {
	switch {
	case last == nil:
		return tell.Quiet
	case last.HasTag(chess.Check):
		return tell.EvadesCheck
	case last.HasTag(chess.Capture):
		return tell.AfterCapture
	}
	return tell.Quiet
}

// corrected compares what stood at index i with what stands there now. When what
// was taken back has come again there is nothing left to correct.
func (next *Board) corrected(old []Ply, i int, at time.Time) *Correction {
	c := next.Correction
	if i >= len(old) {
		if c != nil && c.Is == "" && len(next.Plies) >= c.Ply && next.Plies[c.Ply-1].SAN == c.Was {
			return nil
		}
		return c
	}
	c = &Correction{Ply: i + 1, Was: old[i].SAN, At: at}
	if i < len(next.Plies) {
		c.Is = next.Plies[i].SAN
	}
	return c
}
