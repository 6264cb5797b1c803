package main

import (
	"archive/zip"
	"bytes"
	"context"
	"io"
	"sync"

	"clocktell/relay"
	"clocktell/relay/recap"
)

// recaps can tell at any time what is left of the show so far. Of states that came within
// the same moment it may miss all but the last; a recap from the journal misses none.
type recaps struct {
	mu    sync.Mutex // protects following
	watch *recap.Watch

	writing sync.Mutex // one archive is made at a time: each takes a core for seconds
}

// seen returns what was seen so far, so that the show is seen on while that is written.
func (r *recaps) seen() *recap.Watch {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.watch.Clone()
}

// see takes the show as it is now. It is looked at under the lock, so that no older one comes
// behind a newer one.
func (r *recaps) see(now func() *relay.Show) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.watch.See(now())
}

// zip writes the files of a recap as an archive. Nothing is written before all of them
// have been made; so the error may still be told in place of them.
func (r *recaps) zip(ctx context.Context, w io.Writer) error {
	var out bytes.Buffer
	archive := zip.NewWriter(&out)
	if err := r.write(ctx, archive); err != nil {
		return err
	}
	if err := archive.Close(); err != nil {
		return err
	}
	_, err := w.Write(out.Bytes())
	return err
}

func (r *recaps) write(ctx context.Context, archive *zip.Writer) error {
	r.writing.Lock()
	defer r.writing.Unlock()
	return r.seen().Write(func(name string, content []byte) error {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		file, err := archive.Create("recap/" + name)
		if err != nil {
			return err
		}
		_, err = file.Write(content)
		return err
	})
}

// watchShow lets the recap see the show go by until ctx ends.
func (st *station) watchShow(ctx context.Context) error {
	changes := st.relay.Subscribe()
	defer changes.Close()
	for {
		select {
		case <-changes.C:
			st.recaps.see(st.relay.Show)
		case <-ctx.Done():
			return nil
		}
	}
}

// recap writes the archive of the show as it is now.
func (st *station) recap(ctx context.Context, w io.Writer) error {
	st.recaps.see(st.relay.Show)
	return st.recaps.zip(ctx, w)
}
