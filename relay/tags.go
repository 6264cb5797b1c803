package relay

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/pgn"
	"clocktell/relay/prompt"
	"clocktell/relay/tell"
)

// Defaults is what a show says of games whose tags say less.
type Defaults struct {
	Control clock.Control
	Clocks  ClockPlan     // of the feed that is followed
	Late    time.Duration // usual delay of that feed, as learnt
	Before  bool          // its clocks are read before the increment, as learnt
	Book    OpeningBook   // nil: openings have no names yet

	Language prompt.Language // of what is said of them
}

// OpeningBook names openings by position, whatever order of moves led to it.
type OpeningBook interface {
	Name(place uint64) (Opening, bool)
}

func (d Defaults) opening(b *Board) Opening {
	if d.Book == nil {
		return b.Opening
	}
	for n := len(b.Plies); n > 0; n-- {
		if name, ok := d.Book.Name(b.Place(n).Hash()); ok {
			return name
		}
	}
	return Opening{}
}

// newBoard returns an empty board, of which things are said in a language.
func newBoard(number int, in prompt.Language) *Board {
	start, filter := usualStart(), tell.New(clock.Control{})
	return &Board{
		Number: number, in: in, Result: "*", fed: fedWords{result: "*"}, FEN: start.position.String(),
		start: start, filter0: &filter,
	}
}

// taggedBy returns a copy of b with what the tags of g say. A game that is
// another one starts anew.
func (b *Board) taggedBy(g *pgn.Game, defaults Defaults) *Board {
	next := *b
	key, start := keyOf(g), b.start
	if g.Tag("FEN") != start.text {
		start = startOf(g)
	}
	if b.another {
		fresh := newBoard(b.Number, b.in)
		fresh.Rev, fresh.Game = b.Rev, b.offer(b.Feed).of
		fresh.Feed, fresh.Offers, fresh.Pinned, fresh.shown = b.Feed, b.Offers, b.Pinned, b.shown
		fresh.Frozen, fresh.accepted, fresh.taken, fresh.told = b.Frozen, b.accepted, b.taken, b.told
		fresh.Hand = b.Hand
		next = *fresh
	}
	if start.fault != "" && len(next.Plies) > 0 {
		next.badStart, start = start.fault, next.start // the game goes on from where it did
	}
	if next.borrowed { // a backup may write tags in its own way, or leave them out
		key = next.Key
		if start.text == "" {
			start = next.start
		}
	}
	if start.text != next.start.text {
		next.startKnown, next.startOpinion, next.startSecond = nil, nil, nil
	}
	next.Key, next.start = key, start
	next.takePlayers(g)
	next.fed.result = next.resultOf(g)
	next.Result, next.Hand.Result = next.handed(next.Hand.Result, AsksResult, clock.White, next.fed.result)
	next.takeControl(g, defaults)
	return &next
}

// takePlayers takes the players' tags. From a backup only what is not known yet is
// taken: names must not change on the air with the feed.
func (next *Board) takePlayers(g *pgn.Game) {
	for side, colour := range []string{"White", "Black"} {
		player := playerOf(g, colour)
		if (next.borrowed || player.Name == "") && next.fed.players[side].Name != "" { // a name is not lost
			player = next.fed.players[side]
		}
		next.fed.players[side] = player
		player.Name, next.Hand.Names[side] = next.handed(next.Hand.Names[side], AsksName, clock.Side(side), player.Name)
		next.Players[side] = player
	}
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
	return Player{
		Name: known(g.Tag(side)), Title: strings.Clone(title), Federation: strings.Clone(federation), Rating: max(0, rating),
	}
}

// known returns a tag value of its own memory, "" for one that says nothing.
func known(value string) string {
	if value = strings.TrimSpace(value); unknown(value) {
		return ""
	}
	return strings.Clone(value)
}

// resultOf takes the result at the end of the moves; the tag counts only when
// the moves end without one. A text that breaks off takes no result back.
func (b *Board) resultOf(g *pgn.Game) string {
	for _, result := range []string{g.Result, g.Tag("Result")} {
		switch result {
		case "1-0", "0-1", "1/2-1/2":
			return strings.Clone(result)
		}
	}
	if breaksOff(g) && b.commonPlies(g.Moves) == len(g.Moves) {
		return b.fed.result
	}
	return "*"
}

// startPosition is where a game begins.
type startPosition struct {
	position *chess.Position
	place    bitboard.Position
	text     string // of the FEN tag, "" for the usual start
	fault    string // why the tag could not be used: the game cannot be shown
	halfMove int    // number of the first ply, see Board.HalfMove
}

// usualStart returns the start of a game without a FEN tag. Its position is made
// anew each time: positions remember their moves, so loops must not share one.
func usualStart() startPosition {
	return startPosition{position: chess.StartingPosition(), place: bitboard.Start(), halfMove: 1}
}

// startOf returns the position of the FEN tag, or the usual one. Writers often
// leave out the last two fields of a FEN.
func startOf(g *pgn.Game) startPosition {
	start := usualStart()
	start.text = strings.Clone(g.Tag("FEN"))
	if start.text == "" {
		return start
	}
	fields := strings.Fields(start.text)
	if len(fields) == 4 {
		fields = append(fields, "0", "1")
	}
	position := &chess.Position{}
	if err := position.UnmarshalText([]byte(strings.Join(fields, " "))); err != nil {
		start.fault = fmt.Sprintf("the start position %q cannot be used (%v), so its moves cannot be shown", start.text, err)
		return start
	}
	start.position, start.place, start.halfMove = position, placeOf(position), 2*moveNumberOf(fields)-1
	if position.Turn() == chess.Black {
		start.halfMove++
	}
	return start
}

// moveNumberOf returns the full-move number of a FEN, at least 1.
func moveNumberOf(fields []string) int {
	number, err := strconv.Atoi(fields[len(fields)-1])
	if err != nil {
		return 1
	}
	return max(1, number)
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
