package overlay

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/pgn"
)

// standing is an entry that was taken: it must be shown until a feed says the same,
// the producer thinks otherwise, or another game begins.
type standing struct {
	relay.ByHand
	game int
	was  string // what stood at its ply
}

// entriesStand reports an entry that was taken and is neither shown, nor what the
// feed says by now, nor asked about. While a board is frozen nothing new is shown.
func (w *world) entriesStand(b *relay.Board) string {
	var kept []standing
	for _, s := range w.standing[b.Number] {
		if s.game != b.Game || s.agreed(b) || s.void(b) {
			continue
		}
		kept = append(kept, s)
		if !s.shown(b) && !s.asked(b) && b.Frozen.IsZero() {
			return fmt.Sprintf("%s %d %s%s %v was taken, is not shown, and nobody is asked", s.Act, s.Ply, s.SAN, s.Text, s.Left)
		}
	}
	w.standing[b.Number] = kept
	return ""
}

// asked reports an entry that an open question is about, or that stands on one.
func (s *standing) asked(b *relay.Board) bool {
	return b.Question != nil && b.Question.Kind == relay.AsksMove && s.Ply >= b.Question.Ply
}

// staysInQuestion reports that a board has gone on although a move is in question.
func (w *world) staysInQuestion(before *relay.Show, b *relay.Board) string {
	if b.Number > len(before.Boards) || b.Question == nil || b.Question.Kind != relay.AsksMove {
		return ""
	}
	was := before.Boards[b.Number-1]
	if x, y := sansOf(was, len(was.Plies)), sansOf(b, len(b.Plies)); !slices.Equal(x, y) {
		return fmt.Sprintf("%+v is asked, and the board goes on from %v to %v", *b.Question, x, y)
	}
	return ""
}

// passed looks at the entries when time has passed and the next deed is still to come: a
// feed that the board has turned to may have agreed with one, and take it back now.
func (w *world) passed() {
	for _, b := range w.stage.Show.Boards {
		if problem := w.entriesStand(b); problem != "" {
			w.missed = problem
		}
	}
}

func (s *standing) side() clock.Side {
	if s.Side == "black" {
		return clock.Black
	}
	return clock.White
}

func (s *standing) shown(b *relay.Board) bool {
	switch s.Act {
	case relay.ActResult:
		return b.Result == s.Text
	case relay.ActName:
		return b.Players[s.side()].Name == s.Text
	case relay.ActClock:
		return b.Plies[s.Ply-1].Reading.Left == clock.Value{D: s.Left, OK: true}
	}
	if s.SAN == "" {
		return len(b.Plies) < s.Ply || b.Plies[s.Ply-1].SAN != s.was
	}
	return len(b.Plies) >= s.Ply && sameWord(b.Plies[s.Ply-1].SAN, s.SAN)
}

// agreed reports that the feed followed says the same by now, and leads again. A text
// that breaks off takes no move back.
func (s *standing) agreed(b *relay.Board) bool {
	i := slices.IndexFunc(b.Offers, func(o *relay.Offer) bool { return o.Feed == b.Feed })
	if i < 0 || b.Offers[i].Game == nil {
		return false
	}
	game := b.Offers[i].Game
	switch s.Act {
	case relay.ActResult:
		return game.Result == s.Text || game.Result == "" && game.Tag("Result") == s.Text
	case relay.ActName:
		return game.Tag([]string{"White", "Black"}[s.side()]) == s.Text
	case relay.ActClock:
		if s.Ply > len(game.Moves) {
			return false
		}
		operands, ok := game.Moves[s.Ply-1].Command("clk")
		left, err := clock.ParseReading(strings.Join(operands, ""))
		return ok && err == nil && (left-s.Left).Abs() <= 2*time.Second
	}
	if s.SAN == "" && len(game.Moves) < s.Ply {
		return game.Result != "" || slices.ContainsFunc(game.Faults, func(f pgn.Fault) bool { return f.Reason == pgn.FaultNoResult })
	}
	if s.SAN == "" {
		return game.Moves[s.Ply-1].SAN != s.was
	}
	return len(game.Moves) >= s.Ply && sameWord(game.Moves[s.Ply-1].SAN, s.SAN)
}

// sameWord compares moves but for their signs of check and capture, which depend on the
// moves before: an entry stands though the feed has changed those, if it can be played.
func sameWord(a, b string) bool { return signs.Replace(a) == signs.Replace(b) }

var signs = strings.NewReplacer("+", "", "#", "", "x", "")

// void reports an entry that the game has made pointless: the ply of a clock is another
// one now, or the result of the position is law.
func (s *standing) void(b *relay.Board) bool {
	switch s.Act {
	case relay.ActClock:
		return len(b.Plies) < s.Ply || b.Plies[s.Ply-1].SAN != s.was
	case relay.ActResult:
		position, err := positionAfter(sansOf(b, len(b.Plies)))
		return err == nil && s.Text == "*" && len(position.ValidMoves()) == 0
	}
	return false
}
