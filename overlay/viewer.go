package overlay

import (
	"context"
	"errors"
	"net/http"
	"strconv"
	"time"

	"github.com/coder/websocket"
	"golang.org/x/sync/errgroup"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// Limits of one socket, in wall time.
const (
	writeWait    = 5 * time.Second  // a frame not taken by then drops the page
	pingEvery    = 2 * time.Second  // a page's heartbeat
	silenceMost  = 30 * time.Second // a page that says nothing for so long is gone
	pagesEvery   = time.Second      // how often a page hears of the others
	frameMost    = 4 << 10          // bytes of a frame from a page
	requestsMost = 8                // requests of a page that may wait
	lateMost     = 60_000           // milliseconds of lateness believed

	closeReasonMost = 123 // bytes; a control frame has 125, two for the code (RFC 6455, 5.5)
)

var errSilentPage = errors.New("the page has said nothing for 30 seconds")

var errUnknownPage = errors.New("the address names no page or board")

// viewer is one page's socket.
type viewer struct {
	// Static after construction.
	server *Server
	kind   pageKind
	me     *connected
	conn   *websocket.Conn
	asked  chan request // the reader sends; never closed

	// Owned by write.
	boards                        map[int]uint64 // revision the page holds of each board
	show, prompts, feeds, sources uint64
	table, caption, people        uint64
	log                           logHeld
}

// request is what a page wants to hear: a pong, the whole of a board, or who sits at the
// panels now that it has named itself.
type request struct {
	pong  *wire.Pong
	who   bool
	again int
}

// live upgrades a request and keeps the page up to date until it leaves.
func (s *Server) live(w http.ResponseWriter, r *http.Request) {
	conn, err := websocket.Accept(w, r, &websocket.AcceptOptions{CompressionMode: websocket.CompressionDisabled})
	if err != nil {
		s.Log.Debug("page refused", "from", r.RemoteAddr, "err", err)
		return // Accept has answered
	}
	defer conn.CloseNow()
	conn.SetReadLimit(frameMost)
	v, err := s.newViewer(conn, r)
	if err != nil {
		conn.Close(wire.CloseUnknownPage, err.Error())
		return
	}
	if !s.pages.add(v.me) {
		conn.Close(websocket.StatusTryAgainLater, "too many pages; max_pages in the configuration sets how many")
		return
	}
	defer s.pages.leave(v.me)
	s.Log.Info("page came", "page", v.me.kind, "from", v.me.from)
	err = v.run(r.Context())
	s.Log.Info("page left", "page", v.me.kind, "from", v.me.from, "why", reasonToLeave(err))
}

func (s *Server) newViewer(conn *websocket.Conn, r *http.Request) (*viewer, error) {
	query := r.URL.Query()
	name := query.Get("page")
	kind, ok := pageKinds[name]
	if !ok {
		return nil, errUnknownPage
	}
	board := 0
	if text := query.Get("board"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 {
			return nil, errUnknownPage
		}
		board = n
	}
	if kind.boards == oneBoard {
		board = max(board, 1)
	}
	return &viewer{
		server: s, kind: kind, conn: conn, asked: make(chan request, requestsMost),
		me:     &connected{kind: name, board: board, from: r.RemoteAddr, since: s.Time.Now()},
		boards: make(map[int]uint64),
	}, nil
}

// reasonToLeave is the end of a socket as the log says it.
func reasonToLeave(err error) string {
	switch websocket.CloseStatus(err) {
	case websocket.StatusNormalClosure, websocket.StatusGoingAway, websocket.StatusNoStatusRcvd:
		return "closed by the page"
	}
	return err.Error()
}

// run serves the page until it leaves, stalls, or ctx ends.
func (v *viewer) run(ctx context.Context) error {
	reading, stop := context.WithCancel(context.WithoutCancel(ctx))
	defer stop()
	var group errgroup.Group
	left := make(chan error, 1)
	group.Go(func() error {
		left <- v.read(reading)
		return nil
	})
	err := v.write(ctx, left)
	v.close(ctx, err)
	stop()
	group.Wait()
	return err
}

// close says good-bye with the code that tells the page whether to come back.
func (v *viewer) close(ctx context.Context, err error) {
	switch {
	case ctx.Err() != nil:
		v.conn.Close(websocket.StatusGoingAway, "the relay stops")
	case errors.Is(err, context.DeadlineExceeded):
		v.server.pages.wasDropped()
		v.conn.CloseNow()
	case errors.As(err, new(*badFrame)):
		reason := err.Error()
		v.conn.Close(wire.CloseBadFrame, reason[:min(len(reason), closeReasonMost)])
	}
}

// write is the only place that writes to the socket. It ends when the reader has
// left, with the reader's reason.
func (v *viewer) write(ctx context.Context, left <-chan error) error {
	subscription := v.server.Relay.Subscribe()
	defer subscription.Close()
	ticker := time.NewTicker(pagesEvery)
	defer ticker.Stop()
	if err := v.welcome(ctx); err != nil {
		return err
	}
	for {
		var err error
		select {
		case <-subscription.C:
			err = v.update(ctx, v.server.Relay.Show())
		case r := <-v.asked:
			err = v.answer(ctx, r)
		case <-ticker.C:
			err = v.listPages(ctx)
		case err := <-left:
			return err
		case <-ctx.Done():
			return ctx.Err()
		}
		if err != nil {
			return err
		}
	}
}

func (v *viewer) welcome(ctx context.Context) error {
	return v.sendJSON(ctx, wire.Welcome{
		Type: wire.TypeWelcome, Version: wire.Version, Run: v.server.run, Now: v.server.Time.Now().UnixMilli(),
		Rate: v.server.Time.Rate, PingEveryMs: pingEvery.Milliseconds(),
	})
}

func (v *viewer) answer(ctx context.Context, r request) error {
	if r.pong != nil {
		r.pong.Now = v.server.Time.Now().UnixMilli()
		return v.sendJSON(ctx, r.pong)
	}
	if r.who {
		return v.listPages(ctx)
	}
	delete(v.boards, r.again)
	return v.update(ctx, v.server.Relay.Show())
}

func (v *viewer) listPages(ctx context.Context) error {
	if v.kind.table {
		if frame, rev, news := v.server.pages.people(v.people); news {
			v.people = rev
			return v.sendJSON(ctx, frame)
		}
	}
	if v.kind.pages {
		return v.sendJSON(ctx, v.server.pages.frame())
	}
	return nil
}

// update sends whatever of the show the page does not hold yet.
func (v *viewer) update(ctx context.Context, show *relay.Show) error {
	frames := v.server.frames
	var out [][]byte
	if v.kind.show && v.show != show.HeadRev {
		out, v.show = append(out, frames.show(show)), show.HeadRev
	}
	if v.kind.feeds && v.feeds != show.FeedsRev {
		out, v.feeds = append(out, frames.feeds(show)), show.FeedsRev
	}
	if v.kind.sources && v.sources != show.SourcesRev {
		out, v.sources = append(out, frames.sources(show)), show.SourcesRev
	}
	for _, board := range show.Boards {
		if held := v.boards[board.Number]; v.wants(board) && held != board.Rev {
			out = append(out, frames.board(board, held))
			v.boards[board.Number] = board.Rev
			if held != 0 && board.Rev > held+1 {
				v.server.pages.skipped(v.me, board.Rev-held-1)
			}
		}
	}
	if v.kind.prompts && v.prompts != show.Said.Rev {
		out, v.prompts = append(out, frames.prompts(show)), show.Said.Rev
	}
	if v.kind.table && v.table != show.Table.Rev {
		out, v.table = append(out, frames.table(show)), show.Table.Rev
	}
	if v.kind.caption && v.caption != show.OnAir.Rev {
		out, v.caption = append(out, frames.caption(show)), show.OnAir.Rev
	}
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

func (v *viewer) wants(board *relay.Board) bool {
	return v.kind.boards != noBoards && (v.me.board == 0 || v.me.board == board.Number)
}

func (v *viewer) sendJSON(ctx context.Context, frame any) error {
	return v.send(ctx, encode(frame))
}

func (v *viewer) send(ctx context.Context, frame []byte) error {
	ctx, cancel := context.WithTimeout(ctx, writeWait)
	defer cancel()
	return v.conn.Write(ctx, websocket.MessageText, frame)
}
