package main

import (
	"context"
	"fmt"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/pgn"
)

// playedGame is a game on its way through a show, and what was said of it.
type playedGame struct {
	Who, Result string
	Plies       int
	FullMoves   int // begun, of either side
	Said        []listedPrompt

	r      *rehearsal
	show   *relay.Show
	intake *relay.Intake
	asked  askedBefore
	last   time.Time         // when the last ply came
	rev    uint64            // of the panel's list when it was looked at
	seen   map[promptKey]int // index in Said
}

// promptKey tells the prompts of a game apart.
type promptKey struct {
	id, text string
	raised   int64
}

// listedPrompt is a prompt as the list tells of it.
type listedPrompt struct {
	relay.BoardPrompt
	Move  string        // it came with
	Full  int           // number of that move, or of the first one
	Later time.Duration // after that move
	FEN   string
	Until string // the last move when it was withdrawn; "" it stands
}

// play lets a game come ply by ply, at the times that a board of the whole game has.
func (p *playedGame) play(ctx context.Context, g *pgn.Game, whole *relay.Board) error {
	p.Plies = len(whole.Plies)
	if p.Plies > 0 {
		first, _ := whole.MoveNumber(0)
		last, _ := whole.MoveNumber(p.Plies - 1)
		p.FullMoves = last - first + 1
	}
	p.show, p.intake = relay.NewShow(p.r.plan, rehearsalStart), relay.NewIntake(rehearsalFeed)
	p.take(relay.ReferenceAttached{At: rehearsalStart, Reference: p.r.library.state})
	p.take(relay.OpeningsLoaded{At: rehearsalStart, Book: theBook()})
	at := rehearsalStart
	if err := p.tell(ctx, g, at, 0, false); err != nil {
		return err
	}
	for i := range whole.Plies {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		spent := p.r.spent(whole, i)
		at = at.Add(spent)
		if spent > polledEvery {
			p.take(relay.FeedAnswered{At: at.Add(-polledEvery), Feed: rehearsalFeed}) // so that it is known when the ply came
		}
		if err := p.tell(ctx, g, at, i+1, i+1 == p.Plies && p.Result != "*"); err != nil {
			return err
		}
	}
	return nil
}

// tell lets the feed tell of a game, and the reference and the engine answer.
func (p *playedGame) tell(ctx context.Context, g *pgn.Game, at time.Time, plies int, over bool) error {
	text, err := textOf(g, plies, over)
	if err != nil {
		return err
	}
	p.pass(at)
	p.last = at
	p.take(p.intake.Read(at, text))
	if p.r.library.index != nil {
		for _, b := range p.show.Boards {
			for _, e := range p.r.library.asks(b, p.asked) {
				p.take(e)
			}
		}
	}
	return p.judged(ctx, at)
}

// pass lets time pass, and looks at the panel after every instant that changes something:
// a prompt may come and go between two moves.
func (p *playedGame) pass(to time.Time) {
	for due := p.show.Due(); !due.IsZero() && !due.After(to); due = p.show.Due() {
		p.show = p.show.AdvancedTo(due)
		p.look()
	}
}

// take lets an event happen.
func (p *playedGame) take(e relay.Event) {
	p.pass(e.When())
	p.show = p.show.After(e)
	p.r.now = p.show.At
	p.look()
}

// look notes what is new on the panel, and what was withdrawn.
func (p *playedGame) look() {
	if p.show.Said.Rev == p.rev || len(p.show.Boards) == 0 {
		return
	}
	p.rev = p.show.Said.Rev
	b := p.show.Boards[0]
	for i := len(p.show.Said.Items) - 1; i >= 0; i-- { // the oldest first
		item := p.show.Said.Items[i]
		key := promptKey{item.Alert.ID, item.Text, item.Alert.At.UnixNano()}
		n, known := p.seen[key]
		if !known {
			n = len(p.Said)
			p.seen[key] = n
			move, full := lastMove(b)
			p.Said = append(p.Said, listedPrompt{Move: move, Full: full, Later: p.show.At.Sub(p.last), FEN: b.FEN})
		}
		said := &p.Said[n]
		switch {
		case item.Withdrawn.IsZero():
			said.Until = ""
		case said.Until == "":
			said.Until, _ = lastMove(b)
		}
		said.BoardPrompt = item
	}
}

// lastMove returns the last move of a board with its number, as in 23...Qxh4, and the
// number.
func lastMove(b *relay.Board) (text string, full int) {
	n := len(b.Plies)
	full, side := b.MoveNumber(max(0, n-1))
	switch {
	case n == 0:
		return "start", full
	case side == clock.Black:
		return fmt.Sprintf("%d...%s", full, b.Plies[n-1].SAN), full
	}
	return fmt.Sprintf("%d.%s", full, b.Plies[n-1].SAN), full
}
