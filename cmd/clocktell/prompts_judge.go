package main

import (
	"context"
	"time"

	"clocktell/relay"
	"clocktell/relay/opinion"
)

// judge gives an opinion on the position of a board after n plies. The same board and n
// always have the same opinion, or two lists of the same games could not be compared.
type judge func(ctx context.Context, b *relay.Board, n int) (opinion.Opinion, error)

// judged lets the engine answer on the position that a game has come to.
func (p *playedGame) judged(ctx context.Context, at time.Time) error {
	if p.r.judge == nil || len(p.show.Boards) == 0 {
		return nil
	}
	b := p.show.Boards[0]
	n := len(b.Plies)
	if place := b.Place(n); b.Over() || !place.HasMove() {
		return nil
	}
	said, err := p.r.judge(ctx, b, n)
	if err != nil {
		return err
	}
	p.take(relay.EngineAnswered{At: at, Board: b.Number, Game: b.Game, Answers: []relay.Judged{{Ply: n, Place: b.Place(n).Hash(), Opinion: said}}})
	return nil
}
