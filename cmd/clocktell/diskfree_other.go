//go:build !(linux || darwin || freebsd)

package main

import "errors"

func diskFree(string) (int64, error) {
	return 0, errors.New("how much room a disk has is not known on this system")
}
