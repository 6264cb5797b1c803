package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"time"

	"clocktell/overlay"
	"clocktell/relay"
	"clocktell/relay/bus"
	"clocktell/relay/config"
)

const edgeHelp = `Usage: clocktell edge --bus URL [flags]

Serve the pages of a show that another process leads, until interrupted. An edge keeps
nothing: start as many as there are people, stop them at will. What is entered at its
pages goes to the process that leads.

Example:
  clocktell edge --bus nats://127.0.0.1:4222 --listen 127.0.0.1:8700

Flags:
`

// edgeOptions is what of an edge can be chosen.
type edgeOptions struct {
	bus   config.Bus
	serve config.Config // its server and its access
}

func runEdge(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	o := edgeOptions{serve: config.Default()}
	o.bus = o.serve.Bus
	flags := flag.NewFlagSet("edge", flag.ContinueOnError)
	flags.StringVar(&o.bus.URL, "bus", "", "`URL` of the NATS server that carries the show")
	flags.StringVar(&o.bus.Show, "show", o.bus.Show, "`NAME` of the show on the bus")
	token := flags.String("token-env", "", "the environment variable of this `NAME` holds the token of the bus")
	flags.StringVar(&o.serve.Server.Listen, "listen", o.serve.Server.Listen, "serve pages at this `HOST:PORT`")
	flags.StringVar(&o.serve.Access.Dir, "access", "", "keep the tokens that let people in in this folder `DIR`; needed where other machines reach the pages")
	flags.StringVar(&o.serve.Server.TLSCert, "tls-cert", "", "serve HTTPS with the certificate in this `FILE`")
	flags.StringVar(&o.serve.Server.TLSKey, "tls-key", "", "`FILE` of the certificate's key")
	flags.IntVar(&o.serve.Server.MaxPages, "max-pages", o.serve.Server.MaxPages, "serve at most this `NUMBER` of pages at the same time")
	flags.IntVar(&o.serve.Server.MaxConns, "max-connections", o.serve.Server.MaxConns, "keep at most this `NUMBER` of connections open, pages and others")
	flags.IntVar(&o.serve.Server.MaxConnsOne, "max-connections-each", o.serve.Server.MaxConnsOne, "keep at most this `NUMBER` of connections open from one address")
	level := flags.String("log", "info", "how much to log: debug, info, warn or error")
	if err := parseFlags(flags, edgeHelp, args, stdout, stderr); err != nil {
		return err
	}
	log, err := newLog(stderr, *level)
	if err == nil {
		err = o.check(*token)
	}
	if err != nil {
		fmt.Fprintf(stderr, "clocktell edge: %v\n", err)
		return errUsage
	}
	return serveEdge(ctx, o, log, stdout)
}

func (o *edgeOptions) check(tokenEnv string) error {
	if o.bus.URL == "" {
		return errors.New("needs --bus URL, where the show is; clocktell serve --bus shares one")
	}
	if wrong := config.CheckBusURL(o.bus.URL); wrong != "" {
		return fmt.Errorf("--bus %s", wrong)
	}
	if tokenEnv != "" {
		if o.bus.Token = os.Getenv(tokenEnv); o.bus.Token == "" {
			return fmt.Errorf("--token-env: the environment has no %s", tokenEnv)
		}
	}
	return bus.CheckShow(o.bus.Show)
}

func serveEdge(ctx context.Context, o edgeOptions, log *slog.Logger, stdout io.Writer) error {
	l, err := listen(ctx, o.serve.Server.Listen)
	if err != nil {
		return err
	}
	if !overlay.OnlyHere(l.Addr()) && o.serve.Access.Dir == "" {
		return errors.Join(fmt.Errorf("serve pages at %s: %w", l.Addr(), overlay.MayServe(l.Addr(), nil)), l.Close())
	}
	way, err := openEntrance(o.serve)
	if err != nil {
		return errors.Join(err, l.Close())
	}
	tell := func(_ *station, l net.Listener) {
		fmt.Fprintf(stdout, "An edge of the show %q. Open:\n", o.bus.Show)
		way.printLinks(stdout, l)
	}
	return runStations(ctx, l, log, tell, func(ctx context.Context) (*station, error) { return awaitEdge(ctx, o, way, log) })
}

// edgeRetry is how long an edge waits for a bus that is not there.
const edgeRetry = 2 * time.Second

// awaitEdge returns an edge as soon as there is a bus.
func awaitEdge(ctx context.Context, o edgeOptions, way entrance, log *slog.Logger) (*station, error) {
	said := false
	again := time.NewTicker(edgeRetry)
	defer again.Stop()
	for {
		st, err := newEdge(ctx, o, way, log)
		if !errors.Is(err, bus.ErrNoBus) {
			return st, err
		}
		if !said {
			log.Warn("waiting for the bus", "err", err)
			said = true
		}
		select {
		case <-again.C:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}
}

// newEdge wires an edge, as soon as there is a show on the bus.
func newEdge(ctx context.Context, o edgeOptions, way entrance, log *slog.Logger) (*station, error) {
	tb := relay.NewTimebase(1)
	s, err := newSharing(o.bus, &tb, log)
	if err != nil {
		return nil, err
	}
	s.options.Follow = true
	st, err := edgeOf(ctx, o, s, &tb, way, log)
	if err != nil {
		return nil, errors.Join(err, s.close())
	}
	return st, nil
}

func edgeOf(ctx context.Context, o edgeOptions, s *sharing, tb *relay.Timebase, way entrance, log *slog.Logger) (*station, error) {
	if err := s.open(ctx); err != nil {
		return nil, err
	}
	if err := s.bus.Await(ctx); err != nil {
		return nil, err
	}
	past := sharedPast{}
	past.begin, _ = s.bus.Beginning()
	plan, err := sharedPlan(past.begin)
	if err != nil {
		return nil, err
	}
	take := func(e relay.Event) { past.events = append(past.events, e) }
	if err := s.bus.Past(ctx, take); err != nil {
		return nil, err
	}
	*tb = relay.NewTimebaseAt(s.bus.Latest(), past.begin.Rate)
	if _, err := s.bus.Led(ctx, take); err != nil { // by now the time is exact, if anybody tells it
		return nil, err
	}
	r := past.fold(plan, tb.Now())
	s.epoch = past.begin.Epoch
	st := newStage(relay.NewAfter(r.past, r.show, *tb), *tb, log, newFigures())
	st.intakes = s.intakes
	st.share(s)
	st.serve(o.serve, way)
	return st, nil
}
