package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/reference/build"
)

const referenceBuildHelp = `Usage: clocktell reference build --out FILE [flags] GAMES.pgn ...

Make a reference from PGN files of any number and size, plain or packed (.zst, .gz,
.bz2). A broken game is left out and told of; it never stops the build. Interrupt it
whenever you like: the same command goes on where it was.

Examples:
  clocktell reference build --out games.ref games/*.pgn.zst
  clocktell reference build --out masters.ref --min-rating 2400 --from-year 2010 --time-class standard games.pgn

Flags:
`

func runReferenceBuild(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	o, err := parseReferenceBuild(args, stdout, stderr)
	if err != nil {
		return err
	}
	bar := newBuildProgress(stderr, time.Now)
	o.Progress, o.Resumed = bar.tell, bar.resumed
	report, err := build.Run(ctx, o)
	took := bar.end()
	switch {
	case errors.Is(err, context.Canceled):
		fmt.Fprintf(stderr, "interrupted: the same command goes on from what has been read, which is in %s.work\n", o.Out)
		return errTold
	case errors.Is(err, build.ErrNoGame):
		writeSkipped(stdout, report)
		return fmt.Errorf("reference build: %w", err)
	case err != nil:
		return fmt.Errorf("reference build: %w", err)
	}
	writeBuildReport(stdout, o.Out, report, took)
	return nil
}

func parseReferenceBuild(args []string, stdout, stderr io.Writer) (build.Options, error) {
	var o build.Options
	var class string
	flags := flag.NewFlagSet("reference build", flag.ContinueOnError)
	flags.StringVar(&o.Out, "out", "", "write the reference to this `FILE`")
	flags.IntVar(&o.Depth, "depth", build.DepthDefault, "follow each game for so many `PLIES`")
	flags.IntVar(&o.Keep.MinRating, "min-rating", 0, "only games in which both players have this `RATING`, in whole hundreds")
	flags.IntVar(&o.Keep.FromYear, "from-year", 0, "only games of this `YEAR` and later")
	flags.IntVar(&o.Keep.ToYear, "to-year", 0, "only games of this `YEAR` and earlier")
	flags.BoolVar(&o.Keep.OnlyOverTheBoard, "over-the-board", false, "only games whose Mode tag says that they were played at a board")
	flags.StringVar(&class, "time-class", "", "only games of this `CLASS` by their time control: blitz, rapid or standard")
	flags.BoolVar(&o.KeepDoubles, "keep-doubles", false, "count a game as often as it comes; otherwise once for the same players, year and moves")
	flags.BoolVar(&o.Restart, "restart", false, "throw away what an interrupted build has left, and begin anew")
	files, err := parseMixed(flags, referenceBuildHelp, args, stdout, stderr)
	if err != nil {
		return o, err
	}
	o.Inputs = files
	if o.Out == "" || len(files) == 0 {
		fmt.Fprintln(stderr, "clocktell reference build needs --out FILE and the PGN files to read")
		return o, errUsage
	}
	if class != "" {
		if o.Keep.Class = classNamed(class); o.Keep.Class == clock.ClassUnknown {
			fmt.Fprintf(stderr, "clocktell reference build: time class %q is none of blitz, rapid and standard\n", class)
			return o, errUsage
		}
	}
	return o, nil
}

func classNamed(name string) clock.Class {
	for _, class := range []clock.Class{clock.ClassBlitz, clock.ClassRapid, clock.ClassStandard} {
		if class.String() == name {
			return class
		}
	}
	return clock.ClassUnknown
}

// parseMixed parses flags and the arguments that may stand before, between and behind
// them, which it returns.
func parseMixed(flags *flag.FlagSet, text string, args []string, stdout, stderr io.Writer) ([]string, error) {
	var plain []string
	for {
		flags.SetOutput(io.Discard)
		flags.Usage = func() {}
		if err := flags.Parse(args); err != nil {
			return nil, parseFlags(flags, text, args, stdout, stderr)
		}
		args = flags.Args()
		if len(args) == 0 {
			return plain, nil
		}
		plain, args = append(plain, args[0]), args[1:]
	}
}
