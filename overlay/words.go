package overlay

import (
	"fmt"

	"clocktell/relay"
	"clocktell/relay/clock"
)

// questionWords asks the producer who is right. The board must have a question.
func questionWords(b *relay.Board) string {
	q := b.Question
	feed := "the feed"
	if b.Feed != "" {
		feed = "feed " + b.Feed
	}
	switch q.Kind {
	case relay.AsksMove:
		return fmt.Sprintf("Move %s: %s, %s.", placeWords(b, q.Ply), handMoveWords(q.Hand), feedMoveWords(feed, q.Feed))
	case relay.AsksClock:
		return fmt.Sprintf("Clock after %s: by hand %s, %s says %s.", plyWords(b, q.Ply), q.Hand, feed, q.Feed)
	case relay.AsksResult:
		return fmt.Sprintf("Result: by hand %s, %s says %s.", resultWords(q.Hand), feed, resultWords(q.Feed))
	}
	says := feed + " has none"
	if q.Feed != "" {
		says = fmt.Sprintf("%s says %q", feed, q.Feed)
	}
	return fmt.Sprintf("Name of %s: by hand %q, %s.", sideName(q.Side), q.Hand, says)
}

func handMoveWords(san string) string {
	if san == "" {
		return "taken back by hand"
	}
	return "by hand " + san
}

// feedMoveWords says what the feed has where a move was entered. It has nothing there
// only when it has taken back what the move was entered behind.
func feedMoveWords(feed, san string) string {
	if san == "" {
		return feed + " no longer has the move before it"
	}
	return feed + " says " + san
}

func resultWords(result string) string {
	if result == "*" {
		return "not over (*)"
	}
	return result
}

// handWords lists in words what was entered for a board and stands.
func handWords(b *relay.Board) []string {
	words := make([]string, 0, len(b.Hand.Moves)+len(b.Hand.Clocks))
	for _, m := range b.Hand.Moves {
		if m.SAN == "" {
			words = append(words, moveNumber(b, m.Ply)+m.Was+" taken back")
			continue
		}
		words = append(words, moveNumber(b, m.Ply)+m.SAN)
	}
	for _, c := range b.Hand.Clocks {
		words = append(words, fmt.Sprintf("clock %s after %s", clock.Format(c.Left), plyWords(b, c.Ply)))
	}
	if result := b.Hand.Result; result != nil {
		words = append(words, "result "+resultWords(result.Is))
	}
	for side, name := range b.Hand.Names {
		if name != nil {
			words = append(words, sideName(clock.Side(side))+": "+name.Is)
		}
	}
	return words
}

// moveNumber is what stands before a move in writing: "23." for White's, "23..." for
// Black's. Plies count from 1.
func moveNumber(b *relay.Board, ply int) string {
	number, side := b.MoveNumber(ply - 1)
	if side == clock.Black {
		return fmt.Sprintf("%d...", number)
	}
	return fmt.Sprintf("%d.", number)
}

// moveWords is a ply that is shown, with its number: "23...Qd7".
func moveWords(b *relay.Board, ply int) string { return moveNumber(b, ply) + b.Plies[ply-1].SAN }

// plyWords names a ply by its move, or by its place if it is not shown.
func plyWords(b *relay.Board, ply int) string {
	if ply < 1 || ply > len(b.Plies) {
		return "move " + placeWords(b, ply)
	}
	return moveWords(b, ply)
}

// placeWords names the place of a ply: "23, White".
func placeWords(b *relay.Board, ply int) string {
	number, side := b.MoveNumber(ply - 1)
	return fmt.Sprintf("%d, %s", number, sideName(side))
}

func sideName(side clock.Side) string {
	if side == clock.Black {
		return "Black"
	}
	return "White"
}
