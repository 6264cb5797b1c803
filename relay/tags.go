package relay

import (
	"strconv"
	"strings"

	"github.com/notnil/chess"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
	"clocktell/relay/tell"
)

// Defaults is what a show says of games whose tags say less.
type Defaults struct {
	Control clock.Control
	Book    OpeningBook // nil: openings have no names yet
}

func (d Defaults) opening(b *Board) Opening {
	if d.Book == nil || b.start.String() != chess.StartingPosition().String() {
		return b.Opening
	}
	moves := make([]*chess.Move, len(b.Plies))
	for i := range b.Plies {
		moves[i] = b.Plies[i].Move
	}
	return d.Book.Name(moves)
}

// newBoard returns an empty board.
func newBoard(number int, feed string) *Board {
	start := chess.StartingPosition()
	return &Board{
		Number: number, Feed: feed, Result: "*", FEN: start.String(),
		start: start, filter0: tell.New(clock.Control{}),
	}
}

// taggedBy returns a copy of b with what the tags of g say. A game that is
// another one, by its pairing or its start position, starts anew.
func (b *Board) taggedBy(g *pgn.Game, defaults Defaults) *Board {
	next := *b
	key, start := keyOf(g), startOf(g)
	if next.isAnother(key, start) {
		fresh := newBoard(b.Number, b.Feed)
		fresh.Rev, fresh.Silent = b.Rev, b.Silent
		next = *fresh
	}
	next.Key, next.start = key, start
	next.Players = [2]Player{playerOf(g, "White"), playerOf(g, "Black")}
	next.Result = resultOf(g)
	control := controlOf(g, defaults)
	if control.String() != next.Control.String() || len(next.Plies) == 0 {
		next.Control, next.filter0 = control, tell.New(control)
	}
	return &next
}

func (b *Board) isAnother(key Key, start *chess.Position) bool {
	if b.Rev == 0 {
		return false
	}
	return start.String() != b.start.String() || key.likeness(b.Key) == 0 || key.Round != b.Key.Round
}

func playerOf(g *pgn.Game, side string) Player {
	rating, _ := strconv.Atoi(strings.TrimSpace(g.Tag(side + "Elo")))
	title := g.Tag(side + "Title")
	if title == "-" {
		title = ""
	}
	federation := g.Tag(side + "Fed")
	if federation == "" {
		federation = g.Tag(side + "Country")
	}
	return Player{Name: g.Tag(side), Title: title, Federation: federation, Rating: max(0, rating)}
}

// resultOf takes the result at the end of the moves; the tag counts only when
// the moves end without one.
func resultOf(g *pgn.Game) string {
	for _, result := range []string{g.Result, g.Tag("Result")} {
		switch result {
		case "1-0", "0-1", "1/2-1/2":
			return result
		}
	}
	return "*"
}

func controlOf(g *pgn.Game, defaults Defaults) clock.Control {
	control, err := clock.ParseControl(g.Tag("TimeControl"))
	if err != nil || !control.Known() {
		return defaults.Control
	}
	return control
}

// startOf returns the position of the FEN tag, or the usual one.
func startOf(g *pgn.Game) *chess.Position {
	text := g.Tag("FEN")
	if text == "" {
		return chess.StartingPosition()
	}
	position := &chess.Position{}
	if err := position.UnmarshalText([]byte(text)); err != nil {
		return chess.StartingPosition()
	}
	return position
}

func startMove(start *chess.Position) int {
	fields := strings.Fields(start.String())
	number, err := strconv.Atoi(fields[len(fields)-1])
	if err != nil {
		return 1
	}
	return number
}

// Short returns the name as people say it: the family name.
func (p Player) Short() string {
	if family, _, found := strings.Cut(p.Name, ","); found {
		return strings.TrimSpace(family)
	}
	words := strings.Fields(p.Name)
	if len(words) == 0 {
		return ""
	}
	return words[len(words)-1]
}
