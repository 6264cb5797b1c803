package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"time"

	"clocktell/relay"
	"clocktell/relay/journal"
	"clocktell/relay/recap"
)

const recapHelp = `Usage: clocktell recap --show FILE --out DIR

Write what the editor of a show needs, from its journal: a page for every game and one
over all of them, to read, print and pass on, annotated PGN, and tell lines and diagrams as
SVG and PNG. The pages need nothing but themselves.

FILE is a file of the journal, or its folder for the newest show in it. DIR is made; what an
earlier recap wrote into it is replaced, and a folder that holds anything else is left alone.

Example:
  clocktell recap --show journal/ --out recap/

Flags:
`

func runRecap(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	flags := flag.NewFlagSet("recap", flag.ContinueOnError)
	file := flags.String("show", "", "the show: a `FILE` of the journal, or its folder")
	out := flags.String("out", "", "write into this folder `DIR`")
	if err := parseFlags(flags, recapHelp, args, stdout, stderr); err != nil {
		return err
	}
	if *out == "" || *file == "" {
		fmt.Fprintln(stderr, "clocktell recap needs --show FILE, a file of the journal or its folder, and --out DIR, where the files go")
		return errUsage
	}
	began := time.Now()
	recording, err := journal.Read(ctx, *file)
	if err != nil {
		return err
	}
	defer recording.Close()
	watch, err := recalled(recording)
	if err != nil {
		return err
	}
	if len(watch.Games()) == 0 {
		return fmt.Errorf("%s: %w", recording.File, recap.ErrNoGames)
	}
	folder, err := newRecapFolder(*out)
	if err != nil {
		return err
	}
	if err := writeAfter(watch, folder.write); err != nil {
		return fmt.Errorf("%s: %w", recording.File, err)
	}
	if err := folder.finish(); err != nil {
		return err
	}
	fmt.Fprintf(stdout, "%s: %d games, %d files, %d kB, in %.1f s. Open %s\n",
		watch.Show().Title, len(watch.Games()), len(folder.wrote), folder.bytes/1000, time.Since(began).Seconds(), folder.path("index.html"))
	return nil
}

// writeAfter writes all that is left after a show. What else the editor gets of it, such as
// cue lists, is written here too.
func writeAfter(watch *recap.Watch, to recap.Sink) error {
	return watch.Write(to)
}

// recalled lets a recorded show go by once more. What cannot be read is left out, as when it
// is restored.
func recalled(recording *journal.Recording) (*recap.Watch, error) {
	plan, err := recordedPlan(recording)
	if err != nil {
		return nil, err
	}
	watch := recap.NewWatch()
	show := relay.NewShow(plan, recording.First).After(relay.OpeningsLoaded{At: recording.First, Book: theBook()})
	for event, err := range make(intakes).events(recording.Records()) {
		if errors.Is(err, errMisfit) {
			continue
		}
		if err != nil {
			return nil, err
		}
		show = watch.After(show, event)
	}
	watch.See(show)
	return watch, nil
}
