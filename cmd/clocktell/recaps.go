package main

import (
	"archive/zip"
	"bytes"
	"context"
	"io"
	"sync"
)

// recaps makes archives of what is left of the show so far.
type recaps struct {
	recall recall
	mu     sync.Mutex // one archive is made at a time: each takes a core for seconds
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
	r.mu.Lock()
	defer r.mu.Unlock()
	watch, err := r.recall(ctx)
	if err != nil {
		return err
	}
	return watch.Write(func(name string, content []byte) error {
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
