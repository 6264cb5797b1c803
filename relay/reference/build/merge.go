package build

import (
	"context"
	"errors"
	"fmt"
)

// mergeMemory is what the buffers of all runs that are merged take together, and
// mergeBuffer what the buffer of one takes at most, in bytes.
const (
	mergeMemory = 64 << 20
	mergeBuffer = 1 << 20
)

// merger gives the records of several runs in one order. The runs are a heap: none
// comes before the one at half its index.
type merger struct {
	runs []*runReader // that are not done
	all  []*runReader
}

// bufferFor returns the size of the buffer for each of so many runs.
func bufferFor(runs int) int { return min(mergeBuffer, mergeMemory/max(1, runs)) }

func openMerger(w *work, files []spilled) (*merger, error) {
	m := &merger{}
	buffer := bufferFor(len(files))
	for _, file := range files {
		r, err := openRun(w.path(file.Name), file, buffer)
		if err != nil {
			return nil, errors.Join(err, m.close())
		}
		m.all = append(m.all, r)
		if !r.done {
			m.runs = append(m.runs, r)
		}
	}
	for i := len(m.runs)/2 - 1; i >= 0; i-- {
		m.sink(i)
	}
	return m, nil
}

// fill gives the next records, fewer than batch has room for only at the end.
func (m *merger) fill(batch []record) ([]record, error) {
	batch = batch[:0]
	for len(batch) < cap(batch) && len(m.runs) > 0 {
		r := m.runs[0]
		batch = append(batch, r.head)
		if err := r.next(); err != nil {
			return nil, err
		}
		if r.done {
			n := len(m.runs) - 1
			m.runs[0] = m.runs[n]
			m.runs = m.runs[:n]
		}
		if len(m.runs) > 1 {
			m.sink(0)
		}
	}
	return batch, nil
}

// sink puts the run at index i where it belongs.
func (m *merger) sink(i int) {
	runs := m.runs
	r := runs[i]
	for {
		least := 2*i + 1
		if least >= len(runs) {
			break
		}
		if least+1 < len(runs) && runs[least+1].head.less(runs[least].head) {
			least++
		}
		if !runs[least].head.less(r.head) {
			break
		}
		runs[i] = runs[least]
		i = least
	}
	runs[i] = r
}

func (m *merger) close() error {
	var err error
	for _, r := range m.all {
		err = errors.Join(err, r.close())
	}
	return err
}

// mergeDown merges runs into longer ones until there are few enough to merge at once.
// They are not in the manifest: a build that goes on makes them again.
func (w *work) mergeDown(ctx context.Context, files []spilled, o *Options) ([]spilled, error) {
	for n := 0; len(files) > o.sizes.fanIn; n++ {
		name := fmt.Sprintf("merged-%05d.records", n)
		longer, err := w.mergeFiles(ctx, name, files[:o.sizes.fanIn])
		if err != nil {
			return nil, err
		}
		files = append(files[o.sizes.fanIn:], longer)
	}
	return files, nil
}

func (w *work) mergeFiles(ctx context.Context, name string, files []spilled) (spilled, error) {
	m, err := openMerger(w, files)
	if err != nil {
		return spilled{}, err
	}
	defer m.close()
	s, err := createSpill(w.path(name), name)
	if err != nil {
		return spilled{}, err
	}
	batch := make([]record, 0, batchRecords)
	for {
		if err = ctx.Err(); err != nil {
			break
		}
		if batch, err = m.fill(batch); err != nil || len(batch) == 0 {
			break
		}
		for _, r := range batch {
			if err = s.record(r); err != nil {
				return spilled{}, errors.Join(err, s.f.Close())
			}
		}
	}
	if err != nil {
		return spilled{}, errors.Join(err, s.f.Close())
	}
	return s.end()
}
