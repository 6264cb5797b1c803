//go:build unix

package build

import (
	"errors"
	"os"
	"syscall"
)

// errLocked says that another process builds the same file.
var errLocked = errors.New("another build of this file is running: let it end, or stop it")

// lockFile keeps other builds out until the file is closed; the operating system gives
// the lock up when the process ends, however it does.
func lockFile(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	if errors.Is(err, syscall.EWOULDBLOCK) {
		err = errLocked
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}
