package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"time"

	"golang.org/x/sync/errgroup"

	"clocktell/overlay"
	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/config"
	"clocktell/relay/prompt"
	"clocktell/testdata/demo"
)

const demoHelp = `Usage: clocktell demo [flags]

Play an invented match of two games, 10 minutes and 5 seconds a move, from a
feed inside this process through the whole of clocktell, until interrupted.

Example:
  clocktell demo --speed 20

Flags:
`

// demoStory is what to look for on board 1, with the time of the games.
var demoStory = []struct {
	at   time.Duration
	what string
}{
	{time.Minute, "Black has left preparation on move 6; White still plays from it, its clock above its start"},
	{5 * time.Minute, "White's first think: over two and a half minutes on move 15, then a move that is new to the demo's reference"},
	{13*time.Minute + 38*time.Second, "the arena enters a wrong 20th move for Black, and mends it 12 seconds later"},
	{16*time.Minute + 5*time.Second, "the feed is silent for 45 seconds: clocks are held, then everything catches up"},
	{20*time.Minute + 20*time.Second, "Black is in time trouble, and soon lives on the increment"},
}

// printStory says when on the wall each part of the story comes.
func printStory(w io.Writer, tb relay.Timebase) {
	fmt.Fprintln(w, "What to look for on board 1, by the time since the start:")
	for _, part := range demoStory {
		fmt.Fprintf(w, "  %5s  %s\n", clock.Format(tb.Wall(arenaLead+part.at)), part.what)
	}
}

// demoSpeed is how many times as fast as the wall the demo runs unless told
// otherwise: slow enough to follow, fast enough not to wait.
const demoSpeed = 5

// demoOptions is what can be chosen of a run of the demo.
type demoOptions struct {
	demoShow
	address, level string
	speed          float64
	once           bool
}

func parseDemo(args []string, stdout, stderr io.Writer) (demoOptions, error) {
	var o demoOptions
	flags := flag.NewFlagSet("demo", flag.ContinueOnError)
	flags.StringVar(&o.address, "listen", config.Default().Server.Listen, "serve pages at this `HOST:PORT`")
	flags.Float64Var(&o.speed, "speed", demoSpeed, "how many `TIMES` as fast as the wall the match runs, 0.5 to 100")
	flags.BoolVar(&o.once, "once", false, "end with the match instead of playing the next round")
	flags.StringVar(&o.level, "log", "error", "how much to log: debug, info, warn or error; the silence in the demo's feed is a warning")
	flags.StringVar(&o.language, "language", config.Default().Show.Language, "the `LANGUAGE` of what the panel says, "+strings.Join(prompt.Codes(), " or "))
	flags.StringVar(&o.journal, "journal", "", "keep the show in this folder `DIR`, for replay and recap; without it nothing is kept")
	flags.IntVar(&o.edges, "edges", 0, "share the match over a bus in this process, and serve it by this `NUMBER` of edges besides, at the ports that follow")
	flags.StringVar(&o.engine, "engine", "", "ask the UCI engine at this `PATH` for second opinions; without it there are none")
	if err := parseFlags(flags, demoHelp, args, stdout, stderr); err != nil {
		return o, err
	}
	wrong := ""
	if _, err := prompt.LanguageOf(o.language); err != nil {
		wrong = fmt.Sprintf("--language %v", err)
	} else if !(o.speed >= 0.5 && o.speed <= 100) {
		wrong = fmt.Sprintf("--speed %v is out of range, 0.5 to 100", o.speed)
	} else if o.edges < 0 || o.edges > edgesMost {
		wrong = fmt.Sprintf("--edges %d is out of range, 0 to %d", o.edges, edgesMost)
	} else if _, err := newLog(stderr, o.level); err != nil {
		wrong = fmt.Sprintf("--log %v", err)
	}
	if wrong != "" {
		fmt.Fprintf(stderr, "clocktell demo: %s\n", wrong)
		return o, errUsage
	}
	return o, nil
}

func runDemo(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	o, err := parseDemo(args, stdout, stderr)
	if err != nil {
		return err
	}
	log, err := newLog(stderr, o.level)
	if err != nil {
		return err
	}
	l, err := listen(ctx, o.address)
	if err != nil {
		return err
	}
	tb := relay.NewTimebase(o.speed)
	hall, err := newArena(demo.FS, tb.Now)
	if err != nil {
		return err
	}
	if o.once {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, tb.Wall(hall.ends()+arenaPause/2))
		defer stop()
	}
	fmt.Fprintf(stdout, "The demo plays %g times as fast as the wall. Open:\n", o.speed)
	return playDemo(ctx, hall, o.demoShow, tb, l, log, stdout)
}

// demoShow is what of the demo can be chosen.
type demoShow struct {
	language, journal, engine string
	edges                     int
}

// demoConfig is the configuration of the demo: real seconds of a show, shrunk
// with its speed.
func demoConfig(url, reference string, show demoShow, tb relay.Timebase) config.Config {
	c := config.Default()
	c.Reference.File = reference
	c.Show.Title, c.Show.Language = "Velmarin Harbour Festival, rapid", show.language
	c.Journal.Dir, c.Journal.ResumeWithin.Duration = show.journal, 0 // each demo is a show of its own
	c.Engine.Command = show.engine
	f := config.DefaultFeed()
	f.Name, f.URL = "arena", url
	for _, d := range []*config.Duration{&f.Every, &f.Timeout, &f.MaxWait, &f.LateAfter, &f.StaleAfter} {
		d.Duration = tb.Wall(d.Duration)
	}
	// The feed is asked once a second of the game, but not so often that a fast
	// demo does nothing else.
	f.Every.Duration = max(f.Every.Duration, 50*time.Millisecond)
	f.MaxWait.Duration = max(f.Every.Duration, tb.Wall(5*time.Second))
	c.Feeds = []config.Feed{f}
	c.Match = demoMatch()
	return c
}

// playDemo runs the hall and the show until ctx ends, and tells how to see it. Where other
// machines reach it, tokens are asked for that end with it.
func playDemo(ctx context.Context, hall http.Handler, show demoShow, tb relay.Timebase, l net.Listener, log *slog.Logger, stdout io.Writer) (err error) {
	feedListener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return fmt.Errorf("the demo's own feed: %w", err)
	}
	reference, forget, err := demoReference(ctx)
	if err != nil {
		return errors.Join(err, feedListener.Close())
	}
	defer func() { err = errors.Join(err, forget()) }()
	c := demoConfig("http://"+feedListener.Addr().String()+"/games.pgn", reference, show, tb)
	c.Access.ThisRun = !overlay.OnlyHere(l.Addr())
	forgetBus, err := demoBus(&c, show.edges)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, forgetBus()) }()
	st, err := newStation(ctx, c, tb, log)
	if err != nil {
		return err
	}
	edges, err := demoEdges(ctx, st, l, show.edges, log)
	if err != nil {
		return errors.Join(err, st.close())
	}
	st.way.printLinks(stdout, l)
	printEdges(stdout, edges)
	printStory(stdout, tb)
	server := &http.Server{Handler: hall, ReadHeaderTimeout: 5 * time.Second}
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error {
		if err := server.Serve(feedListener); !errors.Is(err, http.ErrServerClosed) {
			return err
		}
		return nil
	})
	group.Go(func() error {
		<-ctx.Done()
		return server.Close()
	})
	group.Go(func() error { return st.run(ctx, l) })
	for _, e := range edges {
		group.Go(func() error { return e.run(ctx) })
	}
	return group.Wait()
}
