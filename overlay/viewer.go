package overlay

import (
	"context"
	"errors"
	"net/http"
	"time"

	"github.com/coder/websocket"
	"golang.org/x/sync/errgroup"

	"clocktell/overlay/access"
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

var errRenewed = errors.New("the token of this page has been renewed; open the page with its new link")

var errUnknownPage = errors.New("the address names no page or board")

// viewer is one page's socket.
type viewer struct {
	// Static after construction.
	server *Server
	kind   pageKind
	chosen chosen
	me     *connected
	conn   *websocket.Conn
	asked  chan request // the reader sends; never closed
	frames *frames      // of pages that are held alike

	// Owned by write.
	sight                         sight
	pace                          float64        // of the past that the page was told; 1: that of the show
	boards                        map[int]uint64 // revision the page holds of each board
	show, prompts, feeds, sources uint64
	table, caption, people, holds uint64
	air, desk, opinions           uint64
	hides                         relay.Hidden // what the engine says of whose board the page is not told
	challenge                     int          // that keeps something from the page; 0: none
	log                           logHeld

	flood flood // owned by read
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
	name := r.URL.Query().Get("page")
	d := door{pattern: "GET /live", role: access.Viewer, inAddress: isScene(name)}
	if _, known := pageKinds[name]; known {
		d.role = pageRole(name)
	}
	c, refused := s.mayEnter(r, d)
	if refused != nil {
		s.refuse(w, r, d, refused)
		return
	}
	var pings flood
	conn, err := websocket.Accept(w, r, &websocket.AcceptOptions{
		CompressionMode: websocket.CompressionDisabled, InsecureSkipVerify: c.way == byBearer, // which no page of others can send
		OnPingReceived: func(context.Context, []byte) bool { return pings.more(s.Now()) }, // more than that are not answered
	})
	if err != nil {
		s.Log.Debug("page refused", "from", r.RemoteAddr, "err", err)
		return // Accept has answered
	}
	defer conn.CloseNow()
	conn.SetReadLimit(frameMost)
	v, err := s.newViewer(conn, r, c)
	if err != nil {
		conn.Close(wire.CloseUnknownPage, short(err))
		return
	}
	if !s.pages.add(v.me) {
		conn.Close(websocket.StatusTryAgainLater, "too many pages; max_pages in the configuration sets how many")
		return
	}
	defer s.pages.leave(v.me)
	if s.Keys != nil && s.Keys.RoleOf(c.token) != c.role {
		conn.Close(wire.CloseTokenRenewed, short(errRenewed)) // while it came
		return
	}
	v.frames = s.frames.take(v.me.held)
	defer s.frames.giveBack(v.me.held)
	s.Log.Info("page came", "page", v.me.kind, "from", v.me.from)
	err = v.run(r.Context())
	s.Log.Info("page left", "page", v.me.kind, "from", v.me.from, "why", access.Redact(reasonToLeave(err)))
}

func (s *Server) newViewer(conn *websocket.Conn, r *http.Request, c caller) (*viewer, error) {
	query := r.URL.Query()
	name := query.Get("page")
	kind, ok := pageKinds[name]
	if !ok {
		return nil, errUnknownPage
	}
	asked, err := boardsAsked(kind, query)
	if err != nil {
		return nil, err
	}
	held, err := heldBy(query, kind)
	if err != nil {
		return nil, err
	}
	return &viewer{
		server: s, kind: kind, chosen: asked, conn: conn, asked: make(chan request, requestsMost),
		me:     &connected{kind: name, board: asked.single(), from: r.RemoteAddr, since: s.Time.Now(), held: held, role: c.role, gone: make(chan struct{})},
		boards: make(map[int]uint64), sight: sight{held: held},
	}, nil
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
	case errors.Is(err, errRenewed):
		v.conn.Close(wire.CloseTokenRenewed, short(err))
	}
	if bad := new(badFrame); errors.As(err, &bad) {
		v.conn.Close(bad.code, short(err))
	}
}

// short is an error as a close reason.
func short(err error) string {
	reason := access.Redact(err.Error())
	return reason[:min(len(reason), closeReasonMost)]
}

// write is the only place that writes to the socket. It ends when the reader has
// left, with the reader's reason.
func (v *viewer) write(ctx context.Context, left <-chan error) error {
	subscription := v.server.Relay.Subscribe()
	defer subscription.Close()
	ticker := time.NewTicker(pagesEvery)
	defer ticker.Stop()
	due := time.NewTimer(time.Hour) // of a page that is held back; look sets it
	defer due.Stop()
	if err := v.welcome(ctx); err != nil {
		return err
	}
	for {
		var err error
		select {
		case <-subscription.C:
			err = v.look(ctx, due)
		case <-due.C:
			err = v.look(ctx, due)
		case r := <-v.asked:
			err = v.answer(ctx, r, due)
		case <-ticker.C:
			err = v.listPages(ctx)
		case err := <-left:
			return err
		case <-v.me.gone:
			return errRenewed
		case <-ctx.Done():
			return ctx.Err()
		}
		if err != nil {
			return err
		}
	}
}

func (v *viewer) sendJSON(ctx context.Context, frame any) error {
	return v.send(ctx, encode(frame))
}

func (v *viewer) send(ctx context.Context, frame []byte) error {
	ctx, cancel := context.WithTimeout(ctx, writeWait)
	defer cancel()
	return v.conn.Write(ctx, websocket.MessageText, frame)
}
