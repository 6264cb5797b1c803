package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"net"
	"time"

	"golang.org/x/sync/errgroup"

	"clocktell/overlay"
	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/config"
	"clocktell/relay/feed"
	"clocktell/relay/metrics"
	"clocktell/static"
)

// eventsWaiting is how many events may wait for the loop; feeds block beyond.
const eventsWaiting = 64

// station is a whole show: sources, relay and server, wired.
type station struct {
	relay   *relay.Relay
	server  *overlay.Server
	sources map[string]feed.Source
	time    relay.Timebase
	log     *slog.Logger
}

// newStation wires a show from a configuration. Nothing runs yet.
func newStation(c config.Config, tb relay.Timebase, log *slog.Logger) (*station, error) {
	st := &station{time: tb, log: log, sources: make(map[string]feed.Source)}
	plan := relay.Plan{Title: c.Show.Title, MaxBoards: c.Show.MaxBoards, Control: controlOf(c)}
	for _, f := range c.Feeds {
		plan.Feeds = append(plan.Feeds, feedPlan(f, tb))
	}
	st.relay = relay.New(plan, tb)
	for _, f := range c.Feeds {
		source, err := newSource(f, tb)
		if err != nil {
			return nil, fmt.Errorf("feed %s: %w", f.Name, err)
		}
		st.sources[f.Name] = source
	}
	collector := metrics.New(st.relay, func() metrics.Pages { return metrics.Pages(st.server.Pages()) }, reasons())
	st.server = overlay.New(overlay.Options{
		Relay: st.relay, Time: tb, Static: static.FS, Metrics: collector.Handler(), Log: log,
		MaxPages: c.Server.MaxPages, Late: collector.PacketToPage,
	})
	return st, nil
}

// run lets the show go on until ctx ends.
func (st *station) run(ctx context.Context, l net.Listener) error {
	events := make(chan relay.Event, eventsWaiting)
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error { return st.relay.Run(ctx, events) })
	group.Go(func() error { return st.server.Serve(ctx, l) })
	group.Go(func() error { return loadOpenings(ctx, st.time.Now, events) })
	for name, source := range st.sources {
		sink := &sink{ctx: ctx, feed: name, intake: relay.NewIntake(name), events: events, log: st.log.With("feed", name)}
		group.Go(func() error {
			if err := source.Run(ctx, sink); err != nil {
				return fmt.Errorf("feed %s: %w", name, err)
			}
			return nil
		})
	}
	return group.Wait()
}

func controlOf(c config.Config) clock.Control {
	control, err := clock.ParseControl(c.Show.TimeControl)
	if err != nil {
		return clock.Control{} // "" is no control; the configuration has checked the rest
	}
	return control
}

// feedPlan says a feed's times in show time.
func feedPlan(f config.Feed, tb relay.Timebase) relay.FeedPlan {
	plan := relay.FeedPlan{
		Name: f.Name, Kind: "http", Address: feed.Shown(f.URL),
		Every: inShow(f.Every, tb), Late: inShow(f.LateAfter, tb), Stale: inShow(f.StaleAfter, tb),
	}
	if f.File != "" {
		plan.Kind, plan.Address, plan.Every = "file", f.File, inShow(config.Duration{Duration: time.Second}, tb)
	}
	return plan
}

func inShow(d config.Duration, tb relay.Timebase) time.Duration {
	return time.Duration(float64(d.Duration) * tb.Rate)
}

func newSource(f config.Feed, tb relay.Timebase) (feed.Source, error) {
	if f.File != "" {
		return feed.NewFile(feed.FileOptions{Path: f.File, MaxBytes: f.MaxBytes, Check: relay.HoldsGames, Now: tb.Now})
	}
	return feed.NewHTTP(feed.HTTPOptions{
		URL: f.URL, Every: f.Every.Duration, Timeout: f.Timeout.Duration, MaxBytes: f.MaxBytes, MaxWait: f.MaxWait.Duration,
		Bearer: f.Token, User: f.User, Password: f.Password, Check: relay.HoldsGames, Now: tb.Now,
	})
}

func reasons() []string {
	words := make([]string, len(feed.Reasons))
	for i, reason := range feed.Reasons {
		words[i] = string(reason)
	}
	return words
}

// listen opens the address where pages are served.
func listen(address string) (net.Listener, error) {
	l, err := net.Listen("tcp", address)
	if err != nil {
		return nil, fmt.Errorf("serve pages at %s: %w; choose another address with --listen, such as 127.0.0.1:0 for any free port", address, err)
	}
	return l, nil
}

// printLinks tells which addresses to open.
func printLinks(w io.Writer, l net.Listener) {
	base := "http://" + l.Addr().String()
	if addr, ok := l.Addr().(*net.TCPAddr); ok && addr.IP.IsUnspecified() {
		base = fmt.Sprintf("http://127.0.0.1:%d", addr.Port)
		fmt.Fprintf(w, "  (from other machines: this machine's name or address instead of 127.0.0.1)\n")
	}
	fmt.Fprintf(w, "  board scene  %s/scene/board   for the streaming software, 1920 x 1080, transparent\n", base)
	fmt.Fprintf(w, "  panel        %s/panel         for the co-host\n", base)
	fmt.Fprintf(w, "  health       %s/health        for the producer; /metrics beside it\n", base)
}
