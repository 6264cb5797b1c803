package build

import (
	"context"
	"errors"
	"os"
	"path/filepath"

	"golang.org/x/sync/errgroup"

	"clocktell/relay/bitboard"
	"clocktell/relay/reference"
)

// batchRecords are merged before they are handed on.
const batchRecords = 4096

// batchesMost are on their way from the merger to the writer.
const batchesMost = 8

// indexName is the file while it is in the work directory, whole or not.
const indexName = "index"

// writeReference makes the file of the runs, and puts it in its place when it is whole.
func writeReference(ctx context.Context, o *Options, w *work) error {
	start := bitboard.Start()
	out, err := reference.Create(w.path(indexName), reference.Head{Depth: o.Depth, Hashing: start.Hash(), Filter: o.Keep})
	if err != nil {
		return err
	}
	if err := fillReference(ctx, o, w, out); err != nil {
		return errors.Join(err, out.Abort())
	}
	if err := out.Commit(); err != nil {
		return err
	}
	if err := o.pass("index whole"); err != nil {
		return err
	}
	if err := os.Rename(w.path(indexName), o.Out); err != nil {
		return err
	}
	return syncDir(filepath.Dir(o.Out))
}

func fillReference(ctx context.Context, o *Options, w *work, out *reference.Writer) error {
	var files []spilled
	for i := range w.manifest.Runs {
		r := &w.manifest.Runs[i]
		files = append(files, r.Records)
		if err := ctx.Err(); err != nil {
			return err
		}
		err := w.eachGame(r, func(g *row) error {
			_, err := out.AddGame(g.Game)
			return err
		})
		if err != nil {
			return err
		}
	}
	if err := o.pass("games added"); err != nil {
		return err
	}
	files, err := w.mergeDown(ctx, files, o)
	if err != nil {
		return err
	}
	if err := addRecords(ctx, o, w, files, out); err != nil {
		return err
	}
	if err := o.pass("records added"); err != nil {
		return err
	}
	return addHabits(ctx, w, out)
}

// addRecords merges in one goroutine and writes in another.
func addRecords(ctx context.Context, o *Options, w *work, files []spilled, out *reference.Writer) error {
	m, err := openMerger(w, files)
	if err != nil {
		return err
	}
	defer m.close()
	full, empty := make(chan []record, batchesMost), make(chan []record, batchesMost)
	for range batchesMost {
		empty <- make([]record, 0, batchRecords)
	}
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error { return m.send(ctx, empty, full) })
	group.Go(func() error { return addBatches(ctx, o, w.manifest.Report, full, empty, out) })
	return group.Wait()
}

// send sends all records and then closes the channel.
func (m *merger) send(ctx context.Context, empty <-chan []record, full chan<- []record) error {
	defer close(full)
	for {
		batch, _, err := receive(ctx, empty)
		if err != nil {
			return err
		}
		if batch, err = m.fill(batch); err != nil || len(batch) == 0 {
			return err
		}
		if err := send(ctx, full, batch); err != nil {
			return err
		}
	}
}

// addBatches writes what comes, in any event all of it or an error.
func addBatches(ctx context.Context, o *Options, report Report, full <-chan []record, empty chan<- []record, out *reference.Writer) error {
	status := Status{Stage: Writing, Total: report.Records, Games: report.Games, Resumed: report.Resumed}
	for {
		batch, ok, err := receive(ctx, full)
		if !ok || err != nil {
			return err
		}
		for _, r := range batch {
			if err := out.Add(r.occurrence()); err != nil {
				return err
			}
		}
		status.Done += int64(len(batch))
		o.Progress(status)
		if err := o.pass("batch added"); err != nil {
			return err
		}
		empty <- batch
	}
}
