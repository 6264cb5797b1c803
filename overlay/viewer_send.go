package overlay

import (
	"clocktell/overlay/wire"
	"clocktell/relay"
)

func (v *viewer) welcome() message {
	now := v.stand()
	v.pace = now.pace
	return framed(encode(wire.Welcome{
		Type: wire.TypeWelcome, Version: wire.Version, Run: v.server.Run, Now: now.at.UnixMilli(),
		Rate: v.pace * v.server.Time.Rate, PingEveryMs: pingEvery.Milliseconds(),
	}))
}

// stand returns where the page stands now.
func (v *viewer) stand() view { return v.sight.look(v.server.Relay.Show().Holds, v.server.Time.Now()) }

// look appends what brings the page up to where it stands, and sets due to when there is more to
// see. A page that is held back is never sent anything of the present: this is the one place
// where a show is chosen for it.
func (v *viewer) look(out []message) []message {
	if v.waits() {
		return out
	}
	if v.me.held == (held{}) {
		return v.update(v.server.Relay.Show(), out)
	}
	v.due.Stop()
	now := v.stand()
	out = v.keepTime(now, out)
	if now.blank {
		return out
	}
	show, next := v.server.Relay.ShownAt(now.at)
	if wait := now.wait(next); wait > 0 {
		v.due.Reset(max(1, v.server.Time.Wall(wait)))
	}
	if show == nil {
		return out
	}
	return v.update(show, out)
}

// keepTime tells the page when its time goes on at another pace.
func (v *viewer) keepTime(now view, out []message) []message {
	if now.pace == v.pace {
		return out
	}
	v.pace = now.pace
	return append(out, framed(encode(wire.Time{Type: wire.TypeTime, Now: now.at.UnixMilli(), Rate: now.pace * v.server.Time.Rate})))
}

// answer appends what a page has asked for; a look follows, in which it may know more, or less,
// than before it said who sits there.
func (v *viewer) answer(r request, out []message) []message {
	switch {
	case r.pong != nil:
		now := v.stand()
		out = v.keepTime(now, out)
		return append(out, framed(pongText(r.pong, now.at.UnixMilli())))
	case r.who:
		return v.listPages(out)
	}
	delete(v.boards, r.again)
	return out
}

func (v *viewer) listPages(out []message) []message {
	if v.kind.table {
		if people, rev, news := v.server.pages.people(v.people); news {
			v.people = rev
			return append(out, framed(encode(people)))
		}
	}
	if v.kind.pages {
		if list, rev := v.server.pages.list(v.server.Relay.Show().Holds); rev != v.listed {
			v.listed = rev
			return append(out, list)
		}
	}
	return out
}

// lacksBoards reports that a page of all boards has not been sent some of them yet.
func (v *viewer) lacksBoards(show *relay.Show) bool {
	return v.resume > 0 && len(v.chosen.boards) == 0 && v.chosen.most == 0 && len(v.boards) < len(show.Boards)
}

// update appends whatever of the show the page does not hold yet.
func (v *viewer) update(show *relay.Show, out []message) []message {
	show, frames := v.permitted(show)
	boards := false
	for _, p := range v.parts {
		if p > partAir && !boards {
			out, boards = v.newBoards(show, frames, out), true
		}
		if boards && v.lacksBoards(show) {
			break // what follows may speak of them; the next look sends more
		}
		if rev := parts[p].rev(show); v.isNews(rev, v.holds[p]) {
			out, v.holds[p] = append(out, frames.part(p, show)), rev
		}
	}
	if !boards {
		out = v.newBoards(show, frames, out)
	}
	if v.kind.feeds {
		out = v.server.feeds.news(out, &v.feeds, show)
	}
	if v.kind.sources {
		out = v.server.sources.news(out, &v.sources, show)
	}
	if v.kind.log {
		out = append(out, frames.newLines(&v.log, show)...)
	}
	return out
}

// isNews reports whether a page that holds a revision is to be sent another. A scene may look at a
// past that has been thinned out since it looked last: it never goes back.
func (v *viewer) isNews(rev, holds uint64) bool {
	return rev > holds || rev != holds && !v.kind.held
}

// newBoards looks at those boards only that the page may want, for there may be many.
func (v *viewer) newBoards(show *relay.Show, frames *frames, out []message) []message {
	if v.kind.boards == noBoards {
		return out
	}
	if v.chosen.air {
		return v.boardOnAir(show, frames, out)
	}
	size, from := 0, v.resume
	v.resume = 0
	for number := range v.chosen.amongFrom(from, len(show.Boards)) {
		before := len(out)
		out = v.newBoard(show, number, frames, out)
		for _, m := range out[before:] {
			size += len(m)
		}
		if size > lookMost {
			v.resume = number + 1
			v.box.signal() // the rest follows
			break
		}
	}
	return out
}

func (v *viewer) boardOnAir(show *relay.Show, frames *frames, out []message) []message {
	on := show.Desk.Air.Board
	for number := range v.boards {
		if number != on {
			delete(v.boards, number) // the page forgets it, and may want it again
		}
	}
	if on < 1 || on > len(show.Boards) {
		return out
	}
	return v.newBoard(show, on, frames, out)
}

func (v *viewer) newBoard(show *relay.Show, number int, frames *frames, out []message) []message {
	board, held := show.Boards[number-1], v.boards[number]
	if !v.isNews(board.Rev, held) {
		return out
	}
	if v.boards == nil {
		v.boards = make(map[int]uint64)
	}
	v.boards[number] = board.Rev
	v.sent++
	if held != 0 && board.Rev > held+1 {
		v.server.pages.skipped(v.me, board.Rev-held-1, v.sent)
	}
	return append(out, frames.board(board, held))
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
		v.challenge, v.holds[partShow], v.holds[partCaption] = challenge, 0, 0
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
		for _, p := range []part{partPrompts, partCaption, partDesk, partOpinions} {
			v.holds[p] = 0
		}
	}
	if hides.Board == 0 {
		return show, v.frames
	}
	return show.WithoutEngine(hides.Board), v.frames.without(hides)
}
