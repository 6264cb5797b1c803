package relay

import (
	"slices"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/notation"
	"clocktell/relay/pgn"
	"github.com/notnil/chess"
)

// Hand is what the producer has entered for a board and no feed says yet. The package
// document tells how it goes together with what the feed says.
type Hand struct {
	Moves  []HandMove  // in order of plies
	Clocks []HandClock // in order of plies
	Result *HandWord
	Names  [2]*HandWord

	entries int // made so far
}

// clockAgrees is how near the feed's clock must be to one read off a screen by
// hand.
const clockAgrees = 2 * time.Second

// HandMove is a ply entered by hand.
type HandMove struct {
	Ply   int    // from 1
	SAN   string // "" for a ply taken back
	Was   string // the move taken back
	Over  string // what the feed said of the ply; "" nothing
	Graft bool   // the feed's later moves follow on this one
	At    time.Time
}

// HandClock is a clock entered by hand.
type HandClock struct {
	Ply  int    // the mover's after this ply
	SAN  string // which is this move
	Left time.Duration
	Over clock.Value
}

// HandWord is a name or a result entered by hand.
type HandWord struct{ Is, Over string }

// Any reports whether anything entered still stands.
func (h *Hand) Any() bool {
	return len(h.Moves)+len(h.Clocks) > 0 || h.Result != nil || h.Names[0] != nil || h.Names[1] != nil
}

// move returns the entered move of a ply, or nil.
func (h *Hand) move(ply int) *HandMove {
	for i := range h.Moves {
		if h.Moves[i].Ply == ply {
			return &h.Moves[i]
		}
	}
	return nil
}

// merged returns the feed's game with what was entered by hand, and drops from
// next what the feed has come to say itself. With a question nothing is merged.
func (next *Board) merged(g *pgn.Game) (*pgn.Game, *Question) {
	if len(next.Hand.Moves) == 0 {
		return g, nil
	}
	out, kept := handedGame{*g}, []HandMove{}
	for i, e := range next.Hand.Moves {
		said := textAt(g.Moves, e.Ply)
		last := e.Ply >= len(g.Moves)
		switch agreed := said == "" && e.SAN == "" || said != "" && next.saysSame(out.Moves, said, e); {
		case agreed && next.hears() && (said == "" || e.Ply <= next.told):
			continue // the feed says so too
		case agreed: // at a time that is past, or another feed that is not followed now
		case e.Ply-1 > len(out.Moves), !next.playable(out.Moves[:e.Ply-1], e.SAN):
			return g, next.askMove(e, said) // it has taken back, or changed, what the entry stands on
		case said == "", next.sameMove(e.Ply, said, e.Over) && (last || e.Graft):
			out.Moves = withMove(out.Moves, e)
		case e.SAN == "" && !next.sameMove(e.Ply, said, e.Over) && !next.sameMove(e.Ply, said, e.Was):
			continue // taken back, and replaced by the feed
		default:
			return g, next.askMove(e, said)
		}
		kept = append(kept, next.Hand.Moves[i])
	}
	next.Hand.Moves = kept
	if len(kept) > 0 {
		out.closeEnd(next.fed.result)
	}
	return &out.Game, nil
}

// saysSame reports that a feed's word is the entered move, behind those moves, and can be
// played: a rook from a1 to a1 is not "Ra1".
func (next *Board) saysSame(moves []pgn.Move, said string, e HandMove) bool {
	return next.sameMove(e.Ply, said, e.SAN) && next.playable(moves[:min(len(moves), e.Ply-1)], said)
}

// hears reports that the board takes what its feed says now. While it is frozen, or a move
// is in question, it shows what the feed said at a time that is past, and to say the same
// as that is no reason to drop an entry.
func (next *Board) hears() bool {
	return next.Frozen.IsZero() && (next.Question == nil || next.Question.Kind != AsksMove)
}

// handedGame is a feed's game with moves entered by hand.
type handedGame struct{ pgn.Game }

// closeEnd lets a game with entered moves be taken for whole, with the result it had,
// although the feed's text may break off.
func (g *handedGame) closeEnd(result string) {
	if g.Result == "" {
		g.Result = result
	}
	g.Faults = slices.DeleteFunc(slices.Clone(g.Faults), func(f pgn.Fault) bool { return f.Reason == pgn.FaultOpenEnd })
}

// withMove returns moves with the entered one at its ply, or without that ply.
func withMove(moves []pgn.Move, e HandMove) []pgn.Move {
	at := e.Ply - 1
	var rest []pgn.Move
	if at < len(moves) && e.Graft {
		rest = moves[at+1:]
	}
	out := slices.Clip(moves[:at])
	if e.SAN == "" {
		return out
	}
	return append(append(out, pgn.Move{SAN: e.SAN}), rest...)
}

// playable reports whether an entered move can be played behind others.
func (next *Board) playable(moves []pgn.Move, san string) bool {
	position, from := next.start.position, 0
	for from < len(moves) && from < len(next.Plies) && sameSAN(moves[from].SAN, next.Plies[from].Text) {
		position = next.Plies[from].position
		from++
	}
	for _, move := range moves[from:] {
		played, err := notation.Resolve(position, move.SAN)
		if err != nil {
			return false
		}
		position = position.Update(played)
	}
	_, err := notation.Resolve(position, san)
	return san == "" || err == nil
}

// sameMove reports whether two words mean the same move at a ply of the board.
func (next *Board) sameMove(ply int, a, b string) bool {
	if a == "" || b == "" {
		return a == b
	}
	if sameSAN(a, b) {
		return true
	}
	if ply-1 > len(next.Plies) {
		return false
	}
	before := next.positionBefore(ply)
	x, errX := notation.Resolve(before, a)
	y, errY := notation.Resolve(before, b)
	return errX == nil && errY == nil && x.String() == y.String()
}

// positionBefore returns the position in which a ply, from 1, is played.
func (b *Board) positionBefore(ply int) *chess.Position {
	if ply > 1 {
		return b.Plies[ply-2].position
	}
	return b.start.position
}

// handedClock returns what is shown of the clocks after the ply at index i: what was
// entered by hand in place of what the feed has told. It drops the entry when the feed
// agrees or the ply is another.
func (next *Board) handedClock(i int, told heardClock) heardClock {
	at := slices.IndexFunc(next.Hand.Clocks, func(c HandClock) bool { return c.Ply == i+1 })
	if at < 0 {
		return told
	}
	e := next.Hand.Clocks[at]
	switch said := told.reading.Left; {
	case !sameSAN(e.SAN, next.Plies[i].SAN), said.OK && (said.D-e.Left).Abs() <= clockAgrees && said != e.Over && next.hears():
		next.Hand.Clocks = slices.Delete(slices.Clone(next.Hand.Clocks), at, at+1)
		return told
	case said.OK && said != e.Over:
		next.askAlso(next.ask(AsksClock, e.Ply, next.moverOf(i), clock.Format(e.Left), clock.Format(said.D)))
	}
	return heardClock{reading: clock.Reading{Left: clock.Value{D: e.Left, OK: true}}}
}

// handed returns a word entered by hand in place of the feed's, and the entry as
// it stands then.
func (next *Board) handed(e *HandWord, kind QuestionKind, side clock.Side, said string) (string, *HandWord) {
	kept := kind == AsksName && next.borrowed // from the feed before; the one followed is not asked
	switch {
	case e == nil, said == e.Is && next.hears() && !kept:
		return said, nil
	case said != e.Over && said != e.Is:
		next.askAlso(next.ask(kind, 0, side, e.Is, said))
	}
	return e.Is, e
}
