package main

import (
	"fmt"
	"math/rand/v2"
	"time"

	"clocktell/relay/bitboard"
)

// What invented games are played with, and how long they get at most.
const (
	baseTime   = 15 * time.Minute
	increment  = 5 * time.Second
	pliesLeast = 60
	pliesMost  = 160
)

// ply is a half-move as it was played.
type ply struct {
	san string
	at  time.Time
}

// game is one invented game: any legal move may be the next.
type game struct {
	event, white, black string
	table, round        int
	length              int // plies until it ends, if no rule ends it before
	position            bitboard.Position
	moves               []bitboard.Move // scratch
	plies               []ply
	left                [2]time.Duration
	turned              time.Time // since when the side on move thinks
	result              string
	ended               time.Time
	movetext            []byte
}

func newGame(event string, table, round int, rng *rand.Rand, now time.Time) *game {
	return &game{
		event: event, table: table, round: round, white: inventName(rng), black: inventName(rng),
		length: pliesLeast + rng.IntN(pliesMost-pliesLeast), position: bitboard.Start(),
		left: [2]time.Duration{baseTime, baseTime}, turned: now, result: "*",
	}
}

// play goes on by one ply that took the time since the last one.
func (g *game) play(rng *rand.Rand, now time.Time) {
	g.moves = g.position.Moves(g.moves[:0])
	side := len(g.plies) % 2
	g.left[side] -= now.Sub(g.turned)
	if g.left[side] <= 0 {
		g.end([2]string{"0-1", "1-0"}[side], now)
		return
	}
	g.left[side] += increment
	g.turned = now
	move := g.moves[rng.IntN(len(g.moves))]
	san := g.position.SAN(move)
	g.position.Make(move)
	g.plies = append(g.plies, ply{san, now})
	if side == 0 {
		g.movetext = fmt.Appendf(g.movetext, "%d. ", len(g.plies)/2+1)
	}
	g.movetext = fmt.Appendf(g.movetext, "%s {[%%clk %s]}\n", san, reading(g.left[side]))
	switch {
	case g.position.IsMate():
		g.end([2]string{"1-0", "0-1"}[side], now)
	case !g.position.HasMove() || len(g.plies) >= g.length:
		g.end("1/2-1/2", now)
	}
}

func (g *game) end(result string, now time.Time) { g.result, g.ended = result, now }

func (g *game) over() bool { return g.result != "*" }

// appendPGN writes the game as an arena does.
func (g *game) appendPGN(b []byte) []byte {
	for _, tag := range [][2]string{
		{"Event", g.event}, {"Site", "Velmarin"}, {"Date", "2026.10.17"}, {"Round", fmt.Sprint(g.round)}, {"Board", fmt.Sprint(g.table)},
		{"White", g.white}, {"Black", g.black}, {"Result", g.result},
		{"TimeControl", fmt.Sprintf("%d+%d", int(baseTime.Seconds()), int(increment.Seconds()))},
	} {
		b = fmt.Appendf(b, "[%s %q]\n", tag[0], tag[1])
	}
	b = append(append(b, '\n'), g.movetext...)
	return append(append(b, g.result...), "\n\n"...)
}

// reading is a clock as feeds write it.
func reading(left time.Duration) string {
	s := int(left.Seconds())
	return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
}
