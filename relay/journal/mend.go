package journal

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
)

var errReplaced = errors.New("the file was damaged and has been replaced")

// mend replaces the show's file when a write tells that it is broken: what can be
// read of it goes on in a new one. It returns errReplaced if it could.
func (j *Journal) mend(cause error) error {
	before := j.next
	f, err := j.replace(always, cause)
	if err != nil {
		return fmt.Errorf("%w: %w", errRuined, err)
	}
	j.missing(uint64(max(0, before-f.next)))
	return errReplaced
}

// replace puts what can be read of the show's file into a new one, or begins a
// show, and opens it.
func (j *Journal) replace(ctx context.Context, cause error) (f finding, err error) {
	j.detach() // whatever it says, the file is given up
	found := false
	if _, err := os.Lstat(j.path); !errors.Is(err, fs.ErrNotExist) {
		if f, found, err = j.examine(ctx, cause); err != nil {
			return f, err
		}
	}
	if !found {
		if f, err = j.begin(); err != nil {
			return f, err
		}
	}
	return f, j.attach(&f)
}

// missing notes that events which were written are not there any more. If Key
// can make up for them it makes up for those that are kept, too; they would not
// fit behind it.
func (j *Journal) missing(n uint64) {
	if n == 0 {
		return
	}
	j.lost += n
	if j.o.Key != nil {
		j.lost += eventsIn(j.kept)
		j.kept, j.keptSize = nil, 0
	}
}
