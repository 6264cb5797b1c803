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

func runDemo(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	flags := flag.NewFlagSet("demo", flag.ContinueOnError)
	address := flags.String("listen", config.Default().Server.Listen, "serve pages at this `HOST:PORT`")
	speed := flags.Float64("speed", demoSpeed, "how many `TIMES` as fast as the wall the match runs, 0.5 to 100")
	once := flags.Bool("once", false, "end with the match instead of playing the next round")
	level := flags.String("log", "error", "how much to log: debug, info, warn or error; the silence in the demo's feed is a warning")
	language := flags.String("language", config.Default().Show.Language, "the `LANGUAGE` of what the panel says, "+strings.Join(prompt.Codes(), " or "))
	kept := flags.String("journal", "", "keep the show in this folder `DIR`, for replay and recap; without it nothing is kept")
	engine := flags.String("engine", "", "ask the UCI engine at this `PATH` for second opinions; without it there are none")
	if err := parseFlags(flags, demoHelp, args, stdout, stderr); err != nil {
		return err
	}
	if _, err := prompt.LanguageOf(*language); err != nil {
		fmt.Fprintf(stderr, "clocktell demo: --language %v\n", err)
		return errUsage
	}
	if !(*speed >= 0.5 && *speed <= 100) {
		fmt.Fprintf(stderr, "clocktell demo: --speed %v is out of range, 0.5 to 100\n", *speed)
		return errUsage
	}
	log, err := newLog(stderr, *level)
	if err != nil {
		fmt.Fprintf(stderr, "clocktell demo: --log %v\n", err)
		return errUsage
	}
	l, err := listen(ctx, *address)
	if err != nil {
		return err
	}
	tb := relay.NewTimebase(*speed)
	hall, err := newArena(demo.FS, tb.Now)
	if err != nil {
		return err
	}
	if *once {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, tb.Wall(hall.ends()+arenaPause/2))
		defer stop()
	}
	fmt.Fprintf(stdout, "The demo plays %g times as fast as the wall. Open:\n", *speed)
	return playDemo(ctx, hall, demoShow{*language, *kept, *engine}, tb, l, log, stdout)
}

// demoShow is what of the demo can be chosen.
type demoShow struct{ language, journal, engine string }

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
	st, err := newStation(ctx, c, tb, log)
	if err != nil {
		return err
	}
	st.way.printLinks(stdout, l)
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
	return group.Wait()
}
