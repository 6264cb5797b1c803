package reference

import (
	"errors"
	"fmt"
)

// What can be wrong with a file. The error that wraps one of these says what to do.
var (
	ErrNotIndex   = errors.New("not a reference index")
	ErrUnfinished = errors.New("reference index was never finished")
	ErrVersion    = errors.New("reference index of another format")
	ErrDamaged    = errors.New("reference index is damaged")
)

// What can be wrong with how a Writer or a Filter is used.
var (
	ErrUnsorted = errors.New("not in order")
	ErrPhase    = errors.New("added too late")
	ErrLimit    = errors.New("more than the format holds")
	ErrFilter   = errors.New("filter cannot be answered")
)

const again = "copy it again, or build it again with clocktell reference build"

// damaged says that a file is not as it was written, and what to do.
func damaged(format string, args ...any) error {
	return fmt.Errorf("%w: %s; %s", ErrDamaged, fmt.Sprintf(format, args...), again)
}
