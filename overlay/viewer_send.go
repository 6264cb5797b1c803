package overlay

import (
	"context"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

func (v *viewer) welcome(ctx context.Context) error {
	now := v.stand()
	v.pace = now.pace
	return v.sendJSON(ctx, wire.Welcome{
		Type: wire.TypeWelcome, Version: wire.Version, Run: v.server.Run, Now: now.at.UnixMilli(),
		Rate: v.pace * v.server.Time.Rate, PingEveryMs: pingEvery.Milliseconds(),
	})
}

// stand returns where the page stands now.
func (v *viewer) stand() view { return v.sight.look(v.server.Relay.Show().Holds, v.server.Time.Now()) }

// look brings the page up to where it stands, and sets due to when there is more to see.
// A page that is held back is never sent anything of the present: this is the one place
// where a show is chosen for it.
func (v *viewer) look(ctx context.Context, due *time.Timer) error {
	due.Stop()
	if v.me.held == (held{}) {
		return v.update(ctx, v.server.Relay.Show())
	}
	now := v.stand()
	if err := v.keepTime(ctx, now); err != nil || now.blank {
		return err
	}
	show, next := v.server.Relay.ShownAt(now.at)
	if wait := now.wait(next); wait > 0 {
		due.Reset(max(1, v.server.Time.Wall(wait)))
	}
	if show == nil {
		return nil
	}
	return v.update(ctx, show)
}

// keepTime tells the page when its time goes on at another pace.
func (v *viewer) keepTime(ctx context.Context, now view) error {
	if now.pace == v.pace {
		return nil
	}
	v.pace = now.pace
	return v.sendJSON(ctx, wire.Time{Type: wire.TypeTime, Now: now.at.UnixMilli(), Rate: now.pace * v.server.Time.Rate})
}

func (v *viewer) answer(ctx context.Context, r request, due *time.Timer) error {
	switch {
	case r.pong != nil:
		now := v.stand()
		if err := v.keepTime(ctx, now); err != nil {
			return err
		}
		r.pong.Now = now.at.UnixMilli()
		return v.sendJSON(ctx, r.pong)
	case r.who:
		if err := v.listPages(ctx); err != nil {
			return err
		}
		return v.look(ctx, due) // who sits there may know more, or less
	}
	delete(v.boards, r.again)
	return v.look(ctx, due)
}

func (v *viewer) listPages(ctx context.Context) error {
	if v.kind.table {
		if frame, rev, news := v.server.pages.people(v.people); news {
			v.people = rev
			return v.sendJSON(ctx, frame)
		}
	}
	if v.kind.pages {
		return v.sendJSON(ctx, v.server.pages.frame(v.server.Relay.Show().Holds))
	}
	return nil
}

// update sends whatever of the show the page does not hold yet.
func (v *viewer) update(ctx context.Context, show *relay.Show) error {
	show, frames := v.permitted(show)
	var out [][]byte
	take := func(wanted bool, held *uint64, rev uint64, frame func(*relay.Show) []byte) {
		if wanted && *held != rev {
			out, *held = append(out, frame(show)), rev
		}
	}
	take(v.kind.show, &v.show, show.HeadRev, frames.show)
	take(v.kind.feeds, &v.feeds, show.FeedsRev, frames.feeds)
	take(v.kind.sources, &v.sources, show.SourcesRev, frames.sources)
	take(v.kind.air, &v.air, show.Desk.AirRev, frames.air) // before the boards that it may cover
	out = v.newBoards(show, frames, out)
	take(v.kind.prompts, &v.prompts, show.Said.Rev, frames.prompts)
	take(v.kind.table, &v.table, show.Table.Rev, frames.table)
	take(v.kind.caption, &v.caption, show.OnAir.Rev, frames.caption)
	take(v.kind.desk, &v.desk, show.Desk.Rev, frames.desk)
	take(v.kind.opinions, &v.opinions, show.OpinionsRev, frames.opinions)
	take(v.kind.holds, &v.holds, show.Holds.Rev, frames.holds)
	if v.kind.log {
		out = append(out, v.log.newLines(show)...)
	}
	for _, frame := range out {
		if err := v.send(ctx, frame); err != nil {
			return err
		}
	}
	return nil
}

func (v *viewer) newBoards(show *relay.Show, frames *frames, out [][]byte) [][]byte {
	for _, board := range show.Boards {
		held := v.boards[board.Number]
		if !v.wants(board, show) {
			delete(v.boards, board.Number) // with board=air the page forgets it, and may want it again
			continue
		}
		if held == board.Rev {
			continue
		}
		out = append(out, frames.board(board, held))
		v.boards[board.Number] = board.Rev
		if held != 0 && board.Rev > held+1 {
			v.server.pages.skipped(v.me, board.Rev-held-1)
		}
	}
	return out
}

// permitted returns what the page may be sent of a show, and its frames. A scene is sent
// nothing that would give away what viewers are asked; when that begins or ends, what it
// holds is not what its revisions say, and everything is sent anew.
func (v *viewer) permitted(show *relay.Show) (*relay.Show, *frames) {
	if !v.kind.held {
		return v.told(show)
	}
	permitted, challenge := show.ForScenes()
	if challenge != v.challenge {
		v.challenge, v.show, v.caption = challenge, 0, 0
		clear(v.boards)
	}
	return permitted, v.frames.during(challenge)
}

// told returns what a working surface may be sent of a show, and its frames: what the
// engine says of the board that viewers are asked about is for who asked only.
func (v *viewer) told(show *relay.Show) (*relay.Show, *frames) {
	hides := show.EngineHides()
	if hides.Board != 0 && hides.Knows(v.kind.desk, v.server.pages.who(v.me)) {
		hides = relay.Hidden{}
	}
	if hides != v.hides {
		v.hides = hides
		v.prompts, v.caption, v.desk, v.opinions = 0, 0, 0, 0
	}
	if hides.Board == 0 {
		return show, v.frames
	}
	return show.WithoutEngine(hides.Board), v.frames.without(hides)
}

func (v *viewer) wants(board *relay.Board, show *relay.Show) bool {
	if v.chosen.air {
		return board.Number == show.Desk.Air.Board
	}
	return v.kind.boards != noBoards && v.chosen.has(board.Number)
}
