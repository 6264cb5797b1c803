//go:build unix

package reference

import (
	"os"

	"golang.org/x/sys/unix"
)

// mapFile maps a file into memory. Looks go everywhere: the system is told not
// to read ahead, which would be megabytes for each block.
func mapFile(file *os.File, size int64) ([]byte, error) {
	if size != int64(int(size)) {
		return nil, nil // larger than the addresses of a small machine
	}
	b, err := unix.Mmap(int(file.Fd()), 0, int(size), unix.PROT_READ, unix.MAP_SHARED)
	if err != nil {
		return nil, os.NewSyscallError("mmap", err)
	}
	// A hint: where it is not known, looks are slower, and right.
	_ = unix.Madvise(b, unix.MADV_RANDOM)
	return b, nil
}

func unmapFile(b []byte) error { return unix.Munmap(b) }
