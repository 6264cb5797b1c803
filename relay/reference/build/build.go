package build

import (
	"context"
	"errors"
	"fmt"
	"os"
	"syscall"

	"clocktell/relay/reference"
)

// ErrNoGame says that all games were left out; the Report tells why.
var ErrNoGame = errors.New("no game is left to build a reference from")

// Run builds a reference, or goes on with a build that was interrupted. It returns what
// was done; when it fails or ctx ends, what has been read stays in the work directory
// beside the file, and the same Run goes on from there.
func Run(ctx context.Context, o Options) (Report, error) {
	o, err := o.ready()
	if err != nil {
		return Report{}, err
	}
	inputs := make([]Input, len(o.Inputs))
	for i, path := range o.Inputs {
		if inputs[i], err = identify(path); err != nil {
			return Report{}, err
		}
	}
	w, err := openWork(&o, inputs)
	if err != nil {
		return Report{}, helped(err)
	}
	report, err := finish(ctx, &o, w)
	if errors.Is(err, ErrNoGame) {
		return report, errors.Join(err, w.remove(&o))
	}
	if err != nil {
		return report, errors.Join(helped(err), w.close())
	}
	return report, w.remove(&o)
}

// finish does what is left to do in a work directory.
func finish(ctx context.Context, o *Options, w *work) (Report, error) {
	w.manifest.Report.Resumed = w.manifest.Report.Games
	if w.manifest.Report.Games > 0 {
		o.Resumed(w.manifest.Report.copy())
	}
	if !w.manifest.Read {
		if err := readInputs(ctx, o, w); err != nil {
			return w.manifest.Report, err
		}
	}
	report := w.manifest.Report
	if report.Kept == 0 {
		return report, ErrNoGame
	}
	if err := writeReference(ctx, o, w); err != nil {
		return report, err
	}
	if err := o.pass("committed"); err != nil {
		return report, err
	}
	return measured(report, o.Out)
}

// measured adds what the file itself tells.
func measured(report Report, path string) (Report, error) {
	index, err := reference.Open(path)
	if err != nil {
		return report, err
	}
	defer index.Close()
	info, err := os.Stat(path)
	if err != nil {
		return report, err
	}
	report.Positions, report.Size = index.Positions(), info.Size()
	return report, nil
}

// helped says what to do about an error that leaves the disk full.
func helped(err error) error {
	if errors.Is(err, syscall.ENOSPC) {
		return fmt.Errorf("%w: make room and give the same command again, it goes on from here", err)
	}
	return err
}
