package main

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"strings"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/config"
	"clocktell/relay/pgn"
)

// Times of a game that is played for its prompts.
const (
	thinkMost   = 4 * time.Hour // a longer think is cut to it, and goes on at once
	polledEvery = time.Second   // the feed is asked so often, as one would be on the air
)

// rehearsalFeed is the name of the feed that games come by.
const rehearsalFeed = "games"

// rehearsalStart is when each game begins. The day means nothing.
var rehearsalStart = time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)

// rehearsal plays games, one after the other, each through a show of its own.
type rehearsal struct {
	plan    relay.Plan
	every   time.Duration // time of a move without a clock
	library *library
	judge   judge     // nil: no engine
	kind    string    // of prompts that are listed; "" all
	now     time.Time // show time of the game that is played
}

// newRehearsal takes from a configuration all that bears on prompts. A reference that
// cannot be used is an error: what would be listed without it is not what was asked for.
func newRehearsal(c config.Config, every time.Duration) (*rehearsal, error) {
	r := &rehearsal{plan: planOf(c, relay.NewTimebaseAt(rehearsalStart, 1)), every: every}
	feed := relay.FeedPlan{Name: rehearsalFeed, Kind: config.KindFile, Every: polledEvery, Late: 2 * thinkMost, Stale: 2 * thinkMost}
	if len(c.Feeds) > 0 {
		feed.Clocks = clocksOf(c.Feeds[0])
	}
	r.plan.Feeds = []relay.FeedPlan{feed}
	r.library = openLibrary(c.Reference, func() time.Time { return r.now }, slog.New(slog.DiscardHandler))
	if fault := r.library.state.Fault; fault != "" {
		return nil, fmt.Errorf("the reference cannot be used: %s", fault)
	}
	return r, nil
}

func (r *rehearsal) close() error { return r.library.close() }

// failed returns why the reference failed in the middle of a game; nil: it did not.
func (r *rehearsal) failed() error { return r.library.failed }

// play plays a game. The error is a brokenGame if the game cannot be shown whole.
func (r *rehearsal) play(ctx context.Context, g *pgn.Game) (*playedGame, error) {
	who := fmt.Sprintf("%s – %s", orUnknown(g.Tag("White")), orUnknown(g.Tag("Black")))
	if len(g.Tags) == 0 { // no show opens a board for it
		return nil, brokenGame{g.Line, "moves or a result without a tag before them"}
	}
	for _, fault := range g.Faults {
		if !fault.Harmless() {
			return nil, brokenGame{fault.Line, fmt.Sprintf("%s: %s", who, strings.TrimPrefix(fault.String(), fmt.Sprintf("line %d: ", fault.Line)))}
		}
	}
	told := commandsOnly(g)
	whole, err := textOf(told, len(told.Moves), true)
	if err != nil {
		return nil, brokenGame{g.Line, fmt.Sprintf("%s: %v", who, err)}
	}
	shown := relay.NewShow(r.plan, rehearsalStart).After(relay.NewIntake(rehearsalFeed).Read(rehearsalStart, whole))
	board := shown.Boards[0]
	if board.Fault != "" {
		return nil, brokenGame{faultLine(g, len(board.Plies)), fmt.Sprintf("%s: %s", who, board.Fault)}
	}
	p := &playedGame{Who: who, Result: board.Result, r: r, seen: make(map[promptKey]int), asked: make(askedBefore)}
	return p, p.play(ctx, told, board)
}

// brokenGame says why a game cannot be shown whole.
type brokenGame struct {
	line int // of its file
	why  string
}

func (b brokenGame) Error() string { return fmt.Sprintf("line %d: %s", b.line, b.why) }

// faultLine returns the line of the move that cannot be played, or of the game.
func faultLine(g *pgn.Game, plies int) int {
	if plies < len(g.Moves) {
		return g.Moves[plies].Line
	}
	return g.Line
}

// spent returns how long the ply at index i takes when the game is played.
func (r *rehearsal) spent(board *relay.Board, i int) time.Duration {
	timed := &board.Plies[i].Timed
	if timed.SpentQuality == clock.QualityNone {
		return r.every
	}
	return min(max(0, timed.Spent), thinkMost)
}

// commandsOnly returns a game with nothing but the commands of its comments, such as
// clocks: variations and words are no matter of the show, and would be read again with
// every ply.
func commandsOnly(g *pgn.Game) *pgn.Game {
	told := pgn.Game{Tags: g.Tags, Result: g.Result, Moves: make([]pgn.Move, len(g.Moves))}
	for i, move := range g.Moves {
		told.Moves[i] = pgn.Move{SAN: move.SAN}
		if move.Notes == nil {
			continue
		}
		told.Moves[i].Notes = &pgn.Notes{}
		for _, c := range move.Notes.Comments {
			told.Moves[i].Notes.Comments = append(told.Moves[i].Notes.Comments, pgn.Comment{Commands: c.Commands})
		}
	}
	return &told
}

// textOf returns a game as a feed has it after so many plies, its result only once it is
// over.
func textOf(g *pgn.Game, plies int, over bool) ([]byte, error) {
	part := *g
	part.Moves = g.Moves[:plies]
	if !over {
		part.Tags = append([]pgn.Tag{}, g.Tags...)
		part.Result = "*"
		setTag(&part, "Result", "*")
	}
	var out bytes.Buffer
	err := pgn.Write(&out, &part)
	return out.Bytes(), err
}
