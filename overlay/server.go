// Package overlay is the browsers' side of clocktell: it serves the pages and
// speaks the protocol of overlay/wire with each of them.
//
// Read server.go for the routes, viewer.go for the life of one socket,
// outlet.go for how its frames leave and
// hold.go for what of the past it sees, view.go
// for how a relay's state becomes frames and ledger.go for those that
// come row by row, entering.go for what people enter.
package overlay

import (
	"context"
	"crypto/tls"
	"errors"
	"io"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"net/url"
	"sync/atomic"
	"time"

	"golang.org/x/sync/errgroup"

	"clocktell/overlay/access"
	"clocktell/relay"
)

// headerWait is how long the header of a request may take to come, and a handshake.
const headerWait = 5 * time.Second

// answerWait is how long a request and its answer may take together, the pushing of a long
// file over a slow line included.
const answerWait = 2 * time.Minute

// idleWait is how long a connection may stay open between two requests.
const idleWait = time.Minute

// headerMost is how many bytes the header of a request may have; net/http takes some 4 KiB more.
const headerMost = 16 << 10

// requestWait is how long a whole request may take to come, a body that is pushed
// over a slow line included. Sockets are no longer requests.
const requestWait = 30 * time.Second

// Options is what a server needs.
type Options struct {
	Relay    *relay.Relay
	Time     relay.Timebase
	Static   fs.FS                    // the pages
	Metrics  http.Handler             // nil: no /metrics
	Log      *slog.Logger             // nil: no log
	MaxPages int                      // sockets at the same time; 0 means DefaultMaxPages
	Late     func(wall time.Duration) // told of every board drawn: from receipt to page; nil: nobody
	Journal  string                   // where it is kept, for the health page; "" nowhere
	Note     func(feed string) string // how a feed is watched, for the health page; nil: nothing is worth telling
	Keys     *access.Keys             // the tokens; nil: none are on, and whoever is at this machine may do everything
	TLS      *tls.Config              // nil: plain HTTP
	Now      func() time.Time         // of the wall; nil: time.Now
	Run      string                   // names the show where several servers have it; "" this start of this server alone

	MaxConns     int // connections at the same time; 0 means DefaultMaxConns
	MaxConnsEach int // from one address; 0 means DefaultMaxConnsEach

	// Enter brings what a person enters, by hand or at the panel, into the show and says
	// what became of it; the error is for an entry of which that is not known. Nil:
	// nothing can be entered.
	Enter func(ctx context.Context, id string, e relay.Event) (relay.Entered, error)
	// Push takes what is pushed to /push/NAME, by the names of feeds. The handlers
	// check their own tokens.
	Push map[string]http.Handler
	// Recap writes the recap of the show so far, as an archive, or nothing and an error for
	// whoever asked. Nil: there is none.
	Recap func(ctx context.Context, w io.Writer) error
}

// DefaultMaxPages is how many pages may be connected at the same time.
const DefaultMaxPages = 500

// Server serves pages and their sockets.
type Server struct {
	Options
	frames  *framesByHold
	feeds   *feedsLedger
	sources *sourcesLedger
	encoded *atomic.Uint64 // frames, for however many pages
	pages   *pages
	sockets errgroup.Group // of pages
	origins *http.CrossOriginProtection
	limits  *limits
	port    int // where it listens, once it serves

	failed, failedPush *access.Failures
}

// New returns a server that serves nothing yet.
func New(o Options) *Server {
	if o.Log == nil {
		o.Log = slog.New(slog.DiscardHandler)
	}
	if o.MaxPages == 0 {
		o.MaxPages = DefaultMaxPages
	}
	if o.Late == nil {
		o.Late = func(time.Duration) {}
	}
	if o.Run == "" {
		o.Run = newRun()
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.MaxConns == 0 {
		o.MaxConns = DefaultMaxConns
	}
	if o.MaxConnsEach == 0 {
		o.MaxConnsEach = DefaultMaxConnsEach
	}
	encoded := new(atomic.Uint64)
	byHold := &framesByHold{make: func() *frames { return newFrames(encoded) }, open: make(map[held]*sharedFrames)}
	return &Server{
		Options: o, frames: byHold, feeds: newFeedsLedger(encoded, o.Journal, o.Note), sources: newSourcesLedger(encoded), encoded: encoded,
		pages: newPages(o.MaxPages), origins: http.NewCrossOriginProtection(),
		limits: newLimits(o.MaxConns, o.MaxConnsEach), failed: access.NewFailures(o.Now), failedPush: access.NewFailures(o.Now),
	}
}

// Pages returns the pages connected now, and what they have cost since the start.
func (s *Server) Pages() PagesNow { return s.pages.now() }

// doors is every address the server answers, and who may use it.
func (s *Server) doors() []door {
	all := []door{
		{pattern: "GET /{$}", behind: leadTo("/health")},
		{pattern: "GET /favicon.ico", behind: http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) })},
		{pattern: "GET /static/", behind: http.StripPrefix("/static/", newFiles(s.Static, s.Log))},
		{pattern: "PUT /push/{feed}", behind: http.HandlerFunc(s.pushed)}, // with tokens of their own
		{pattern: "POST /push/{feed}", behind: http.HandlerFunc(s.pushed)},
		{pattern: "GET /live", behind: http.HandlerFunc(s.live)}, // by the page that it is for
		{pattern: "GET " + accessPath, role: actRoles[accessPath], behind: http.HandlerFunc(s.tellAccess)},
		{pattern: "POST " + accessPath + "/{role}", role: actRoles[accessPath], behind: http.HandlerFunc(s.renew)},
	}
	for _, page := range pageNames() {
		all = append(all,
			door{pattern: "GET /" + page, role: pageRole(page), page: page, inAddress: isScene(page), behind: s.page(page)},
			door{pattern: "GET /" + page + "/{$}", behind: leadTo("/" + page)})
	}
	if s.Metrics != nil {
		all = append(all, door{pattern: "GET /metrics", role: access.Producer, behind: s.Metrics})
	}
	if s.Enter != nil {
		all = append(all,
			door{pattern: "POST /by-hand", role: actRoles["/by-hand"], behind: s.entering(parseByHand)},
			door{pattern: "POST /at-panel", role: actRoles["/at-panel"], behind: s.entering(parseAtPanel)})
	}
	if s.Recap != nil {
		all = append(all, door{pattern: "GET /recap", role: access.Producer, behind: http.HandlerFunc(s.recap)})
	}
	return append(all, s.actionDoors()...)
}

// leadTo sends the browser to another page, with what its address asks for.
func leadTo(path string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		target := url.URL{Path: path, RawQuery: r.URL.RawQuery}
		w.Header().Set("Cache-Control", "no-store") // the address may hold a token
		http.Redirect(w, r, target.String(), http.StatusFound)
	}
}

// page serves the document of one page.
func (s *Server) page(name string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		http.ServeFileFS(w, r, s.Static, name+"/index.html")
	}
}

// errOpenToAll is for a server that others reach and that asks nobody who they are.
var errOpenToAll = errors.New("other machines reach this address, and no tokens are on: anybody could watch and enter; " +
	"set access.dir in the configuration, or listen on 127.0.0.1")

// MayServe refuses an address that other machines reach unless tokens are on.
func MayServe(addr net.Addr, keys *access.Keys) error {
	if keys == nil && !OnlyHere(addr) {
		return errOpenToAll
	}
	return nil
}

// Serve answers on l until ctx ends, then tells every page to come back later,
// waits for all of them and closes l.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	if err := MayServe(l.Addr(), s.Keys); err != nil {
		return errors.Join(err, l.Close())
	}
	s.port = portOf(l.Addr())
	unheard := &silent{conns: make(map[net.Conn]struct{})}
	server := &http.Server{
		ConnState:         unheard.note,
		Handler:           s.opened(s.doors()),
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ReadHeaderTimeout: headerWait,
		ReadTimeout:       requestWait,
		WriteTimeout:      answerWait,
		IdleTimeout:       idleWait,
		MaxHeaderBytes:    headerMost,
		ErrorLog:          slog.NewLogLogger(s.Log.Handler(), slog.LevelDebug),
	}
	server.RegisterOnShutdown(unheard.close)
	l = &limited{Listener: l, limits: s.limits}
	if s.TLS != nil {
		l = tls.NewListener(l, s.TLS)
	}
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error {
		if err := server.Serve(l); !errors.Is(err, http.ErrServerClosed) {
			return err
		}
		return nil
	})
	if s.Keys != nil {
		group.Go(func() error {
			s.watchKeys(ctx)
			return nil
		})
	}
	group.Go(func() error {
		<-ctx.Done()
		s.pages.stop()
		err := s.shutDown(server)
		s.pages.wg.Wait()
		return errors.Join(err, s.sockets.Wait())
	})
	return group.Wait()
}
