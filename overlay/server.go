// Package overlay is the browsers' side of clocktell: it serves the pages and
// speaks the protocol of overlay/wire with each of them.
//
// Read server.go for the routes, viewer.go for the life of one socket and
// hold.go for what of the past it sees, view.go
// for how a relay's state becomes frames, entering.go for what people enter.
package overlay

import (
	"context"
	"errors"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"net/url"
	"time"

	"golang.org/x/sync/errgroup"

	"clocktell/relay"
)

// shutdownWait is how long open requests may take to end when the server stops.
const shutdownWait = 3 * time.Second

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
	Token    string                   // what people show to enter anything; "": nobody but this machine may

	// Enter brings what a person enters, by hand or at the panel, into the show and says
	// what became of it; the error is for an entry of which that is not known. Nil:
	// nothing can be entered.
	Enter func(ctx context.Context, id string, e relay.Event) (relay.Entered, error)
	// Push takes what is pushed to /push/NAME, by the names of feeds. The handlers
	// check their own tokens.
	Push map[string]http.Handler
}

// DefaultMaxPages is how many pages may be connected at the same time.
const DefaultMaxPages = 500

// Server serves pages and their sockets.
type Server struct {
	Options
	run     string // changes with every start
	frames  *framesByHold
	pages   *pages
	origins *http.CrossOriginProtection
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
	byHold := &framesByHold{make: func() *frames { return newFrames(o.Journal, o.Note) }, open: make(map[held]*sharedFrames)}
	return &Server{
		Options: o, run: newRun(), frames: byHold, pages: newPages(o.MaxPages), origins: http.NewCrossOriginProtection(),
	}
}

// Pages returns the pages connected now, and what they have cost since the start.
func (s *Server) Pages() PagesNow { return s.pages.now() }

// routes is every address the server answers.
func (s *Server) routes(loopback bool) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) {
		target := url.URL{Path: "/health", RawQuery: r.URL.RawQuery}
		http.Redirect(w, r, target.String(), http.StatusFound)
	})
	for page := range pageKinds {
		mux.HandleFunc("GET /"+page, s.page(page))
		mux.HandleFunc("GET /"+page+"/{$}", func(w http.ResponseWriter, r *http.Request) {
			target := url.URL{Path: "/" + page, RawQuery: r.URL.RawQuery}
			http.Redirect(w, r, target.String(), http.StatusFound)
		})
	}
	mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) })
	mux.Handle("GET /static/", http.StripPrefix("/static/", newFiles(s.Static, s.Log)))
	mux.HandleFunc("GET /live", s.live)
	if s.Metrics != nil {
		mux.Handle("GET /metrics", s.Metrics)
	}
	if s.Enter != nil {
		mux.Handle("POST /by-hand", s.entering(loopback, parseByHand))
		mux.Handle("POST /at-panel", s.entering(loopback, parseAtPanel))
	}
	s.routeActions(mux, loopback)
	mux.HandleFunc("PUT /push/{feed}", s.pushed)
	mux.HandleFunc("POST /push/{feed}", s.pushed)
	return guarded(mux, loopback)
}

// page serves the document of one page.
func (s *Server) page(name string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		http.ServeFileFS(w, r, s.Static, name+"/index.html")
	}
}

// Serve answers on l until ctx ends, then tells every page to come back later,
// waits for all of them and closes l.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{
		Handler:           s.routes(isLoopback(l.Addr())),
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       requestWait,
		IdleTimeout:       time.Minute,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          slog.NewLogLogger(s.Log.Handler(), slog.LevelDebug),
	}
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error {
		if err := server.Serve(l); !errors.Is(err, http.ErrServerClosed) {
			return err
		}
		return nil
	})
	group.Go(func() error {
		<-ctx.Done()
		stop, cancel := context.WithTimeout(context.WithoutCancel(ctx), shutdownWait)
		defer cancel()
		err := server.Shutdown(stop)
		s.pages.wait()
		return err
	})
	return group.Wait()
}
