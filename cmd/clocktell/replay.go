package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"golang.org/x/sync/errgroup"

	"clocktell/overlay"
	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/journal"
)

const replayHelp = `Usage: clocktell replay FILE [flags]

Play a recorded show again, through the same loop and to the same pages, with the
times of the day it was. FILE is a file of the journal, or its folder for the newest.

Examples:
  clocktell replay journal/ --speed 4
  clocktell replay journal/show-20261017T150000Z.db --snapshot end.json

Flags:
`

// replayOptions are the flags of replay.
type replayOptions struct {
	file, address, snapshot, level string
	speed                          float64
	from                           time.Duration
	once                           bool
}

func runReplay(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	o, err := parseReplay(args, stdout, stderr)
	if err != nil {
		return err
	}
	recording, err := journal.Read(ctx, o.file)
	if err != nil {
		return err
	}
	defer recording.Close()
	plan, err := recordedPlan(recording)
	if err != nil {
		return err
	}
	if o.snapshot != "" {
		return writeSnapshot(o.snapshot, plan, recording)
	}
	return playRecording(ctx, o, plan, recording, stdout, stderr)
}

func parseReplay(args []string, stdout, stderr io.Writer) (replayOptions, error) {
	var o replayOptions
	flags := flag.NewFlagSet("replay", flag.ContinueOnError)
	flags.StringVar(&o.address, "listen", config.Default().Server.Listen, "serve pages at this `HOST:PORT`")
	flags.Float64Var(&o.speed, "speed", 1, "how many `TIMES` as fast as it was, 0.1 to 1000")
	flags.DurationVar(&o.from, "from", 0, "begin so long after the start, such as 25m; what was before is there at once")
	flags.StringVar(&o.snapshot, "snapshot", "", "do not play: write the show as it was at the end to this `FILE`, as JSON")
	flags.BoolVar(&o.once, "once", false, "end with the recording instead of keeping the pages open")
	flags.StringVar(&o.level, "log", "error", "how much to log: debug, info, warn or error")
	if len(args) > 0 && args[0] != "" && args[0][0] != '-' {
		o.file, args = args[0], args[1:]
	}
	if err := parseFlags(flags, replayHelp, args, stdout, stderr); err != nil {
		return o, err
	}
	switch {
	case o.file == "":
		fmt.Fprintln(stderr, "clocktell replay needs a FILE before its flags: a file of the journal, or its folder")
		return o, errUsage
	case !(o.speed >= 0.1 && o.speed <= 1000):
		fmt.Fprintf(stderr, "clocktell replay: --speed %v is out of range, 0.1 to 1000\n", o.speed)
		return o, errUsage
	case o.from < 0:
		fmt.Fprintf(stderr, "clocktell replay: --from %v is before the start\n", o.from)
		return o, errUsage
	}
	return o, nil
}

func writeSnapshot(file string, plan relay.Plan, recording *journal.Recording) error {
	r := restore(plan, recording.Records(), recording.Began, func(relay.Event) {})
	if err := errors.Join(r.errs...); err != nil {
		return err
	}
	if err := os.WriteFile(file, overlay.Snapshot(r.show), 0o644); err != nil {
		return fmt.Errorf("snapshot: %w", err)
	}
	return nil
}

// playRecording lets the recorded events happen again, each at its time.
func playRecording(ctx context.Context, o replayOptions, plan relay.Plan, recording *journal.Recording, stdout, stderr io.Writer) error {
	log, err := newLog(stderr, o.level)
	if err != nil {
		fmt.Fprintf(stderr, "clocktell replay: --log %v\n", err)
		return errUsage
	}
	l, err := listen(ctx, o.address)
	if err != nil {
		return err
	}
	first, last := recording.First, recording.Last
	tb := relay.NewTimebaseAt(first.Add(o.from), o.speed)
	st := newStage(relay.New(relay.NewShow(plan, first), tb), tb, log, newFigures())
	c := config.Default()
	c.Access.ThisRun = !overlay.OnlyHere(l.Addr())
	way, err := openEntrance(c)
	if err != nil {
		return errors.Join(err, l.Close())
	}
	st.serve(c, way)
	fmt.Fprintf(stdout, "%s, recorded from %s for %s, %g times as fast. Open:\n",
		plan.Title, first.Format(time.DateTime), last.Sub(first).Round(time.Second), o.speed)
	st.way.printLinks(stdout, l)
	group, ctx := errgroup.WithContext(ctx)
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	group.Go(func() error { return st.run(ctx, l) })
	group.Go(func() error {
		if err := playEvents(ctx, recording, tb, st.heard); err != nil || !o.once {
			return err
		}
		stop()
		return nil
	})
	return group.Wait()
}

// playEvents sends every recorded event when its time has come.
func playEvents(ctx context.Context, recording *journal.Recording, tb relay.Timebase, to chan<- relay.Event) error {
	timer := time.NewTimer(0)
	defer timer.Stop()
	for event, err := range make(intakes).events(recording.Records()) {
		if errors.Is(err, errMisfit) {
			continue
		}
		if err != nil {
			return fmt.Errorf("recording: %w", err)
		}
		timer.Reset(max(0, tb.Wall(event.When().Sub(tb.Now()))))
		select {
		case <-timer.C:
		case <-ctx.Done():
			return nil
		}
		select {
		case to <- event:
		case <-ctx.Done():
			return nil
		}
	}
	return nil
}
