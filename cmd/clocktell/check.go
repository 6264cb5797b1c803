package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"time"

	"clocktell/relay/config"
)

const checkHelp = `Usage: clocktell check --config FILE [flags]

Look before a show whether anything would fail in it: read the configuration, read its
reference whole, ask every feed once and tell what each of its games holds (players,
moves, clocks, time control, what is broken), compare this machine's clock with the
feed's, try the journal's folder and disk, the port and the engine, ask the bus what
there is of the show and who leads it, and list the links for the streaming software.
Nothing is changed.

The exit code is 0 if all will work, 1 if something would fail, 2 for wrong use.
Warnings do not fail. With --json the same is told as one JSON object, which the README
describes.

Example:
  clocktell check --config configs/clocktell.toml

Flags:
`

// checker goes through everything that a show needs.
type checker struct {
	config config.Config
	report checkReport
	now    func() time.Time
	free   func(dir string) (int64, error) // bytes left on a disk
}

func runCheck(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	flags := flag.NewFlagSet("check", flag.ContinueOnError)
	file := flags.String("config", "", "configuration `FILE`")
	shared := busFlags(flags)
	asJSON := flags.Bool("json", false, "tell it as JSON")
	if err := parseFlags(flags, checkHelp, args, stdout, stderr); err != nil {
		return err
	}
	c, err := loadConfig(*file, "check", stderr)
	if err != nil && (*file == "" || !*asJSON) {
		return err
	}
	if err == nil {
		if err = shared.into(&c); err != nil {
			fmt.Fprintf(stderr, "clocktell check: %v\n", err)
			return errUsage
		}
	}
	k := &checker{config: c, report: newCheckReport(*file), now: time.Now, free: diskFree}
	if err != nil {
		k.add(finding{Area: areaConfig, State: stateFails, Text: err.Error(), Do: "correct the configuration; configs/clocktell.toml explains every key"})
	} else {
		k.add(finding{Area: areaConfig, State: stateFine, Text: *file + ": in order"})
		k.all(ctx)
	}
	return k.report.tell(stdout, *asJSON)
}

// all checks everything, what takes longest last.
func (k *checker) all(ctx context.Context) {
	k.add(checkPort(k.config.Server.Listen))
	k.add(checkEntrance(k.config))
	k.checkJournal()
	k.checkBus(ctx)
	k.checkEngines(ctx)
	k.add(checkReference(k.config.Reference))
	for _, f := range k.config.Feeds {
		k.checkFeed(ctx, f)
	}
	k.checkLinks()
}

func (k *checker) add(f finding) { k.report.Checks = append(k.report.Checks, f) }

// tell writes the report and returns errTold if something would fail.
func (r *checkReport) tell(w io.Writer, asJSON bool) error {
	r.count()
	if asJSON {
		encoder := json.NewEncoder(w)
		encoder.SetIndent("", "  ")
		encoder.SetEscapeHTML(false)
		if err := encoder.Encode(r); err != nil {
			return err
		}
	} else {
		r.print(w)
	}
	if !r.Fine {
		return errTold
	}
	return nil
}
