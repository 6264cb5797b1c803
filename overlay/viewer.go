package overlay

import (
	"context"
	"net/http"
	"runtime/debug"
	"strings"
	"time"

	"github.com/coder/websocket"
	"golang.org/x/sync/errgroup"

	"clocktell/overlay/access"
	"clocktell/overlay/wire"
	"clocktell/relay"
)

// Limits of one socket, in wall time.
const (
	writeWait    = 5 * time.Second  // a page that takes nothing for so long, though there is something for it, is dropped
	writeStep    = time.Second      // how often it is looked at what it has taken
	pingEvery    = 2 * time.Second  // a page's heartbeat
	silenceMost  = 30 * time.Second // a page that says nothing for so long is gone
	pagesEvery   = time.Second      // how often a page hears of the others
	frameMost    = 4 << 10          // bytes of a frame from a page
	requestsMost = 8                // requests of a page that may wait
	lateMost     = 60_000           // milliseconds of lateness believed

	closeReasonMost = 123 // bytes; a control frame has 125, two for the code (RFC 6455, 5.5)
)

// viewer is one page's socket.
type viewer struct {
	// Static after construction.
	server *Server
	kind   pageKind
	parts  []part
	chosen chosen
	me     *connected
	conn   *websocket.Conn // reads, and writes control frames
	outlet *outlet         // all that is sent goes through it
	box    *mailbox
	frames *frames // of pages that are held alike

	// Owned by write.
	sight     sight
	due       *time.Timer       // of a page that is held back; look sets it
	pace      float64           // of the past that the page was told; 1: that of the show
	boards    map[int]uint64    // revision the page holds of each board
	sent      uint64            // states of boards that it was sent
	resume    int               // board at which the next look goes on, so that all have their turn
	holds     [partsMost]uint64 // and of each part
	people    uint64
	listed    uint64       // revision of the list of pages that it was sent
	hides     relay.Hidden // what the engine says of whose board the page is not told
	challenge int          // that keeps something from the page; 0: none
	log       logHeld
	feeds     ledgerHeld
	sources   ledgerHeld
	ahead     ahead // of this server

	flood flood // owned by read
}

// live upgrades a request and keeps the page up to date until it leaves. The page outlives
// the request, of which nothing is kept.
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
	if s.cutOff(pageKinds[name]) {
		s.refuse(w, r, d, &refusal{status: http.StatusServiceUnavailable, text: errCutOff.Error(), retry: cutOffRetry})
		return
	}
	var pings flood
	hijacking := &hijacking{ResponseWriter: w, box: newMailbox()}
	conn, err := websocket.Accept(hijacking, r, &websocket.AcceptOptions{
		CompressionMode: websocket.CompressionDisabled, InsecureSkipVerify: c.way == byBearer, // which no page of others can send
		OnPingReceived: func(context.Context, []byte) bool { return pings.more(s.Now()) }, // more than that are not answered
	})
	if err != nil {
		s.Log.Debug("page refused", "from", r.RemoteAddr, "err", err)
		return // Accept has answered
	}
	conn.SetReadLimit(frameMost)
	v, err := s.newViewer(conn, hijacking, r, c)
	if err != nil {
		conn.Close(wire.CloseUnknownPage, short(err))
		return
	}
	welcome := v.welcome() // made here: the page's own stacks are to stay small
	if err := s.pages.add(v.me); err != nil {
		v.close(err)
		return
	}
	if s.Keys != nil && s.Keys.RoleOf(c.token) != c.role {
		v.box.end(errRenewed) // while it came
	}
	s.Log.Info("page came", "page", v.me.kind, "from", v.me.from)
	s.sockets.Go(func() error {
		v.serve(welcome)
		return nil
	})
}

func (s *Server) newViewer(conn *websocket.Conn, line *hijacking, r *http.Request, c caller) (*viewer, error) {
	query := r.URL.Query()
	name := strings.Clone(query.Get("page")) // what is cut out of the address keeps all of it
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
		log: s.logHeldBy(query), ahead: s.aheadBy(query),
		server: s, kind: kind, parts: partsOfKinds[name], chosen: asked, conn: conn, outlet: line.outlet, box: line.box,
		me:    &connected{kind: name, board: asked.single(), from: r.RemoteAddr, since: s.Time.Now(), held: held, role: c.role, box: line.box},
		sight: sight{held: held},
	}, nil
}

// serve keeps the page up to date until it leaves, stalls, or is ended.
func (v *viewer) serve(welcome message) {
	s := v.server
	defer s.pages.leave(v.me)
	v.frames = s.frames.take(v.me.held)
	defer s.frames.giveBack(v.me.held)
	err := v.run(welcome)
	s.Log.Info("page left", "page", v.me.kind, "from", v.me.from, "why", access.Redact(reasonToLeave(err)))
}

func (v *viewer) run(welcome message) error {
	var group errgroup.Group
	group.Go(func() error {
		v.box.end(v.unbroken(v.read))
		return nil
	})
	err := v.unbroken(func() error { return v.write(welcome) })
	v.close(err)
	group.Wait()
	return err
}

// unbroken ends the page, and not the process, should there be a mistake in what it does: the
// show goes on for the others, as net/http has it go on for other requests.
func (v *viewer) unbroken(do func() error) (err error) {
	defer func() {
		if mistake := recover(); mistake != nil {
			v.server.Log.Error("page given up", "page", v.me.kind, "mistake", mistake, "stack", string(debug.Stack()))
			err = errMistake
		}
	}()
	return do()
}

// write is the only place that sends frames to the page. It ends with the reason why the
// page goes.
func (v *viewer) write(welcome message) error {
	subscription := v.server.Relay.SubscribeWith(v.box.wake)
	defer subscription.Close()
	var listing <-chan time.Time // never, for most pages
	if v.kind.table || v.kind.pages {
		ticker := time.NewTicker(pagesEvery)
		defer ticker.Stop()
		listing = ticker.C
	}
	if v.me.held != (held{}) {
		v.due = time.AfterFunc(time.Hour, v.box.signal)
		defer v.due.Stop()
	}
	if v.ahead != (ahead{}) {
		waiting := time.AfterFunc(aheadMost, v.box.signal)
		defer waiting.Stop()
	}
	if err := v.outlet.send([]message{welcome}); err != nil {
		return err
	}
	for {
		var err error
		select {
		case <-v.box.wake:
			err = v.turn()
		case <-listing:
			err = v.outlet.send(v.listPages(nil))
		}
		if err != nil {
			return err
		}
	}
}

// turn answers what the page has asked for, and brings it up to date.
func (v *viewer) turn() error {
	var room [requestsMost]request
	requests, anew, over := v.box.take(room[:0])
	if over != nil {
		return over
	}
	if v.server.cutOff(v.kind) {
		return errCutOff
	}
	if anew {
		clear(v.boards)
	}
	var roomOut [4]message
	out := roomOut[:0]
	for _, r := range requests {
		out = v.answer(r, out)
	}
	return v.outlet.send(v.look(out))
}
