package build

import (
	"context"
	"errors"
	"fmt"
	"io"

	"golang.org/x/sync/errgroup"
)

// reading reads the inputs into runs. One goroutine cuts blocks, some read their games,
// one puts these in order, one sorts and spills. A block that is behind is waited for;
// there are so many blocks and no more.
type reading struct {
	options *Options
	work    *work // the spiller's, once reading has begun
	inputs  []Input
	from    place
	jobs    chan *block // to the workers
	order   chan *block // the same ones, to the collector
	free    chan *block
	full    chan *pile // to the spiller
	empty   chan *pile
}

// blocksMost is how many blocks there are for each worker.
const blocksMost = 3

// pilesMost is how many piles there are: one is filled while the other is spilled.
const pilesMost = 2

// readInputs reads all that has not been read yet.
func readInputs(ctx context.Context, o *Options, w *work) error {
	n := blocksMost*o.Workers + 1
	r := &reading{
		options: o, work: w, inputs: w.manifest.Inputs, from: w.manifest.At,
		jobs: make(chan *block), order: make(chan *block, n), free: make(chan *block, n),
		full: make(chan *pile), empty: make(chan *pile, pilesMost),
	}
	for range n {
		r.free <- &block{done: make(chan struct{}, 1)}
	}
	for range pilesMost {
		r.empty <- &pile{records: make([]record, 0, o.sizes.run)}
	}
	c, err := newCollector(o, w)
	if err != nil {
		return err
	}
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error { return r.cut(ctx) })
	for range o.Workers {
		group.Go(func() error { return r.read(ctx) })
	}
	group.Go(func() error { return c.run(ctx, r) })
	group.Go(func() error { return r.spill(ctx) })
	return group.Wait()
}

// receive takes from a channel; ok is false when it is closed.
func receive[T any](ctx context.Context, from <-chan T) (value T, ok bool, err error) {
	select {
	case value, ok = <-from:
		return value, ok, nil
	case <-ctx.Done():
		return value, false, ctx.Err()
	}
}

func send[T any](ctx context.Context, to chan<- T, value T) error {
	select {
	case to <- value:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// cut cuts the inputs into blocks, from where the last run ends.
func (r *reading) cut(ctx context.Context) error {
	defer close(r.jobs)
	defer close(r.order)
	packed := int64(0)
	for i := range r.inputs {
		if i >= r.from.Input {
			if err := r.cutInput(ctx, i, packed); err != nil {
				return named(r.inputs[i].Path, err)
			}
		}
		packed += r.inputs[i].Size
	}
	return nil
}

// named says which file an error is about, unless it is about none.
func named(path string, err error) error {
	if err == context.Canceled || err == context.DeadlineExceeded {
		return err
	}
	if errors.Is(err, io.ErrUnexpectedEOF) {
		return fmt.Errorf("%s is packed and cut short: get it again, or leave it out: %w", path, err)
	}
	return fmt.Errorf("%s: %w", path, err)
}

func (r *reading) cutInput(ctx context.Context, i int, packed int64) error {
	t, err := openText(r.inputs[i].Path)
	if err != nil {
		return err
	}
	defer t.close()
	if i == r.from.Input {
		if _, err := io.CopyN(io.Discard, t, r.from.Offset); err != nil {
			return err
		}
	}
	c := &cutter{r: t, size: r.options.sizes.block, most: r.options.sizes.game}
	for {
		b, _, err := receive(ctx, r.free)
		if err != nil {
			return err
		}
		b.input, b.last = i, false
		b.cut, err = c.next(b.text)
		b.packed = packed + t.packed()
		if err == io.EOF {
			b.last, b.games, b.records = true, b.games[:0], b.records[:0]
			b.done <- struct{}{}
			return send(ctx, r.order, b)
		}
		if err != nil {
			return err
		}
		if err := send(ctx, r.order, b); err != nil {
			return err
		}
		if err := send(ctx, r.jobs, b); err != nil {
			return err
		}
	}
}

// read reads the games of blocks.
func (r *reading) read(ctx context.Context) error {
	w := newWorker(r.options)
	for {
		b, ok, err := receive(ctx, r.jobs)
		if !ok || err != nil {
			return err
		}
		w.read(b)
		b.done <- struct{}{}
	}
}

// spill sorts piles, brings them to the disk, and then says so in the manifest.
func (r *reading) spill(ctx context.Context) error {
	for {
		p, ok, err := receive(ctx, r.full)
		if !ok || err != nil {
			return err
		}
		if err := r.work.add(p, r.options); err != nil {
			return err
		}
		p.clear()
		r.empty <- p
	}
}
