//go:build linux || darwin || freebsd

package main

import "golang.org/x/sys/unix"

// diskFree returns how many bytes this user may still write to the disk of a folder.
func diskFree(dir string) (int64, error) {
	var disk unix.Statfs_t
	if err := unix.Statfs(dir, &disk); err != nil {
		return 0, err
	}
	return int64(disk.Bavail) * int64(disk.Bsize), nil
}
