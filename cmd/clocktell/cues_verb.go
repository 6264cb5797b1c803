package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"clocktell/relay"
	"clocktell/relay/cue"
	"clocktell/relay/journal"
)

const cuesHelp = `Usage: clocktell cues --out DIR [flags]

Write what an editor needs of a recorded show: chapters as WebVTT, a cue list as CSV, and
cut lists (EDL) with a note for every cue. They are aligned to the recording of the
programme by the start mark that the producer set during the show, or by --start-mark; and
there is a set of files for every group of scenes that was held back, for the recording of
its channel.

Examples:
  clocktell cues --out cues
  clocktell cues --show journal/show-20261126T180000Z.db --out cues --rate 29.97 --start-mark 2026-11-26T19:00:00+01:00
  clocktell cues --out cues --hold air --start-mark 2026-11-26T19:00:00+01:00 --start-timecode 10:00:00:00

Flags:
`

// cuesAsked is what the flags of cues say.
type cuesAsked struct {
	show, dir, rate, mark, timecode, group string
	cueOptions
}

func cuesFlags(a *cuesAsked) *flag.FlagSet {
	flags := flag.NewFlagSet("cues", flag.ContinueOnError)
	flags.StringVar(&a.show, "show", "journal", "the journal's `FILE`, or its folder for the newest")
	flags.StringVar(&a.dir, "out", "", "write into this `DIR`; it is made if it is not there")
	a.tapeFlags(flags)
	flags.StringVar(&a.timecode, "start-timecode", "", "with --start-mark: the `TIMECODE` of the recording's first picture, such as 10:00:00:00")
	flags.StringVar(&a.group, "hold", "", "only for the recording of this `GROUP` of scenes that was held back")
	flags.DurationVar(&a.least, "least", cue.LeastBetween, "how far apart chapters are at least")
	return flags
}

// tapeFlags are those that say how a recording runs.
func (a *cuesAsked) tapeFlags(flags *flag.FlagSet) {
	names := make([]string, len(cue.Rates))
	for i, r := range cue.Rates {
		names[i] = r.Name
	}
	flags.StringVar(&a.rate, "rate", "25", "pictures a second of the recording, one of `RATES`: "+strings.Join(names, ", ")+"; 29.97 and 59.94 are drop-frame")
	flags.StringVar(&a.mark, "start-mark", "", "when the recording began, in place of the show's start marks: a `TIME` such as 2026-11-26T19:00:00+01:00")
}

func runCues(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	var a cuesAsked
	if err := parseFlags(cuesFlags(&a), cuesHelp, args, stdout, stderr); err != nil {
		return err
	}
	if err := a.complete(); err != nil {
		fmt.Fprintf(stderr, "clocktell cues: %v\n", err)
		return errUsage
	}
	recording, err := journal.Read(ctx, a.show)
	if err != nil {
		return err
	}
	defer recording.Close()
	plan, err := recordedPlan(recording)
	if err != nil {
		return err
	}
	log, errs := collectCues(ctx, plan, recording.Records(), recording.Began)
	if ctx.Err() != nil {
		return errInterrupted
	}
	for _, err := range errs {
		fmt.Fprintf(stderr, "clocktell cues: %v\n", err)
	}
	if a.group != "" && !slices.Contains(log.Groups(), a.group) {
		return fmt.Errorf("no group %q was held back in this show; there are %q", a.group, log.Groups())
	}
	if err := os.MkdirAll(a.dir, 0o755); err != nil {
		return fmt.Errorf("cues: %w", err)
	}
	files, err := writeCues(log, a.cueOptions, func(name string, content []byte) error {
		return os.WriteFile(filepath.Join(a.dir, name), content, 0o644)
	})
	if err != nil {
		return err
	}
	if len(log.Marks) == 0 && a.marks == nil {
		fmt.Fprintf(stdout, "No start of a recording was marked: the files count from the start of the show, %s. --start-mark says otherwise.\n", log.Began.In(a.zone).Format(time.RFC3339))
	}
	fmt.Fprintf(stdout, "%d cues at %s pictures a second:\n", len(log.Cues), a.cueOptions.rate.Name)
	for _, name := range files {
		fmt.Fprintf(stdout, "  %s\n", filepath.Join(a.dir, name))
	}
	return nil
}

// complete reads what the flags say.
func (a *cuesAsked) complete() (err error) {
	a.zone = time.Local
	if a.cueOptions.rate, err = cue.RateOf(a.rate); err != nil {
		return fmt.Errorf("--rate %w", err)
	}
	switch {
	case a.dir == "":
		return errors.New("--out DIR says where the files go")
	case a.least < 0:
		return fmt.Errorf("--least %v is less than nothing", a.least)
	case a.timecode != "" && a.mark == "":
		return errors.New("--start-timecode goes with --start-mark")
	}
	if a.group != "" {
		a.groups = []string{a.group}
	}
	if a.mark == "" {
		return nil
	}
	at, err := time.Parse(time.RFC3339Nano, a.mark)
	if err != nil {
		return fmt.Errorf("--start-mark %.40q is no time; one is written 2026-11-26T19:00:00+01:00", a.mark)
	}
	if a.timecode != "" {
		if _, err := a.cueOptions.rate.Parse(a.timecode); err != nil {
			return fmt.Errorf("--start-timecode: %w", err)
		}
	}
	a.marks = []relay.StartMark{{At: at, Timecode: a.timecode}}
	return nil
}
