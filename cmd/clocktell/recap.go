package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"time"

	"clocktell/relay"
	"clocktell/relay/cue"
	"clocktell/relay/journal"
	"clocktell/relay/recap"
)

const recapHelp = `Usage: clocktell recap [--show FILE] --out DIR

Write what the editor of a show needs, from its journal: a page for every game and one
over all of them, to read, print and pass on, annotated PGN, tell lines and diagrams as SVG
and PNG, and in the folder cues what "clocktell cues" writes: chapters, cue list and cut
lists. The pages need nothing but themselves.

FILE is a file of the journal, or its folder for the newest show in it. DIR is made; what an
earlier recap wrote into it is replaced, and a folder that holds anything else is left alone.

Example:
  clocktell recap --show journal/ --out recap/
  clocktell recap --show journal/ --out recap/ --rate 29.97 --start-mark 2026-11-26T19:00:00+01:00

Flags:
`

func runRecap(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	flags := flag.NewFlagSet("recap", flag.ContinueOnError)
	file := flags.String("show", "journal", "the journal's `FILE`, or its folder for the newest")
	out := flags.String("out", "", "write into this folder `DIR`")
	var asked cuesAsked
	asked.tapeFlags(flags)
	if err := parseFlags(flags, recapHelp, args, stdout, stderr); err != nil {
		return err
	}
	asked.dir = *out
	if err := asked.complete(); err != nil {
		fmt.Fprintf(stderr, "clocktell recap: %v\n", err)
		return errUsage
	}
	began := time.Now()
	recording, err := journal.Read(ctx, *file)
	if err != nil {
		return err
	}
	defer recording.Close()
	watch, log, errs, err := recalled(ctx, recording)
	if err != nil {
		return err
	}
	for _, err := range errs {
		fmt.Fprintf(stderr, "clocktell recap: left out: %v\n", err)
	}
	if len(watch.Games()) == 0 {
		return fmt.Errorf("%s: %w", recording.File, recap.ErrNoGames)
	}
	folder, err := newRecapFolder(*out)
	if err != nil {
		return err
	}
	if err := writeAfter(watch, log, asked.cueOptions, folder.writeUntil(ctx)); err != nil {
		return fmt.Errorf("%s: %w", recording.File, err)
	}
	if err := folder.finish(); err != nil {
		return err
	}
	fmt.Fprintf(stdout, "%s: %d games, %d files, %d kB, in %.1f s. Open %s\n",
		watch.Show().Title, len(watch.Games()), len(folder.wrote), folder.bytes/1000, time.Since(began).Seconds(), folder.path("index.html"))
	return nil
}

// cuesFolder is where a recap has its cues.
const cuesFolder = "cues/"

// writeAfter writes all that is left after a show: the cues, then pages that point to them.
func writeAfter(watch *recap.Watch, log *cue.Log, o cueOptions, to recap.Sink) error {
	names, err := writeCues(log, o, func(name string, content []byte) error { return to(cuesFolder+name, content) })
	if err != nil {
		return err
	}
	for i := range names {
		names[i] = cuesFolder + names[i]
	}
	return watch.Write(to, names...)
}

// errInterrupted says that somebody had no time to wait.
var errInterrupted = errors.New("interrupted")

// recalled lets a recorded show go by once more, for pages and cues. What cannot be read is
// left out and told, as when it is restored: the last error is of nothing else.
func recalled(ctx context.Context, recording *journal.Recording) (*recap.Watch, *cue.Log, []error, error) {
	plan, err := recordedPlan(recording)
	if err != nil {
		return nil, nil, nil, err
	}
	var errs []error
	watch := recap.NewWatch()
	show := relay.NewShow(plan, recording.First).After(relay.OpeningsLoaded{At: recording.First, Book: theBook()})
	cues := cue.NewCollector(show)
	for event, err := range make(intakes).events(recording.Records()) {
		if ctx.Err() != nil {
			return nil, nil, nil, errInterrupted
		}
		if err != nil {
			if len(errs) < errsMost {
				errs = append(errs, err)
			}
			continue
		}
		show = show.Through(event, watch.See, cues.See)
	}
	watch.See(show)
	return watch, cues.Log(), errs, nil
}
