package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/feed"
	"clocktell/relay/pgn"
)

const checkHelp = `Usage: clocktell check --config FILE

Read a configuration, read its reference whole, ask every feed once and tell what
each of its games holds: players, moves, clocks, time control, and what is broken.
The exit code is 1 if the reference cannot be used, a feed does not answer or a game
is broken.

Example:
  clocktell check --config configs/clocktell.toml

Flags:
`

func runCheck(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	flags := flag.NewFlagSet("check", flag.ContinueOnError)
	file := flags.String("config", "", "configuration `FILE`")
	if err := parseFlags(flags, checkHelp, args, stdout, stderr); err != nil {
		return err
	}
	c, err := loadConfig(*file, "check", stderr)
	if err != nil {
		return err
	}
	fmt.Fprintf(stdout, "%s: in order\n", *file)
	fine := checkReference(stdout, c.Reference)
	fine = checkEngines(ctx, stdout, c) && fine
	for _, f := range c.Feeds {
		fine = checkFeed(ctx, stdout, f, c) && fine
	}
	if !fine {
		return errTold
	}
	return nil
}

// checkReference opens the reference and reads it whole; it returns whether all was well.
func checkReference(w io.Writer, c config.Reference) bool {
	if c.File == "" {
		fmt.Fprintln(w, "reference: none; moves are not looked up. clocktell reference -h tells how to make one")
		return true
	}
	index, err := openIndex(c.File)
	if err == nil {
		err = errors.Join(index.Verify(), index.Close())
	}
	if err != nil {
		fmt.Fprintf(w, "reference: %v\n", err)
		return false
	}
	counted := c.Counted()
	if counted == "" {
		counted = "all count"
	}
	fmt.Fprintf(w, "reference: %s holds %d games to ply %d; %s\n", c.File, index.Games(), index.Depth(), counted)
	return true
}

// once is a sink that keeps the first thing heard and stops the source.
type once struct {
	stop   context.CancelFunc
	answer *feed.Answer
	fault  *feed.Fault
}

func (o *once) Answered(a feed.Answer) {
	if o.answer == nil && o.fault == nil {
		o.answer = &a
		o.stop()
	}
}

func (o *once) Failed(f feed.Fault) {
	if o.answer == nil && o.fault == nil {
		o.fault = &f
		o.stop()
	}
}

// checkFeed asks a feed once and reports; it returns whether all was well.
func checkFeed(ctx context.Context, w io.Writer, f config.Feed, c config.Config) bool {
	switch f.Kind() {
	case config.KindPush:
		fmt.Fprintf(w, "feed %s: is pushed to /push/%s while the show runs; nothing to ask now\n", f.Name, f.Name)
		return true
	case config.KindStdin:
		fmt.Fprintf(w, "feed %s: standard input, read while the show runs\n", f.Name)
		return true
	}
	source, err := newSource(f, relay.NewTimebase(1), os.Stdin, nil)
	if err != nil {
		fmt.Fprintf(w, "feed %s: %v\n", f.Name, err)
		return false
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	heard := &once{stop: stop}
	if err := source.Run(ctx, heard); err != nil {
		fmt.Fprintf(w, "feed %s: %v\n", f.Name, err)
		return false
	}
	switch {
	case heard.fault != nil:
		fmt.Fprintf(w, "feed %s: %v\n", f.Name, heard.fault.Err)
		return false
	case heard.answer == nil:
		fmt.Fprintf(w, "feed %s: interrupted before an answer came\n", f.Name)
		return false
	}
	return reportGames(w, f, heard.answer, relay.Defaults{Control: controlOf(c), Clocks: clocksOf(f)})
}

func reportGames(w io.Writer, f config.Feed, a *feed.Answer, defaults relay.Defaults) bool {
	games := pgn.Read(a.Body)
	where := f.File
	if where == "" {
		where = feed.Shown(f.URL)
	}
	fmt.Fprintf(w, "feed %s: %s answered in %v with %d bytes, %d games\n",
		f.Name, where, a.Took.Round(time.Millisecond), len(a.Body), len(games))
	broken := 0
	for i := range games {
		report := relay.Examine(&games[i], defaults)
		word := "good  "
		if !report.Good() {
			word = "BROKEN"
			broken++
		}
		fmt.Fprintf(w, "  %2d %s %s\n", i+1, word, report.Summary)
		for _, line := range report.Faults {
			fmt.Fprintf(w, "            %s\n", line)
		}
		for _, line := range report.Notes {
			fmt.Fprintf(w, "            note: %s\n", line)
		}
	}
	fmt.Fprintf(w, "  %d good, %d broken\n", len(games)-broken, broken)
	return broken == 0
}
