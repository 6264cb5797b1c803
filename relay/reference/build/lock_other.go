//go:build !unix

package build

import "os"

// lockFile opens the file; these systems are not asked to keep other builds out.
func lockFile(path string) (*os.File, error) {
	return os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o644)
}
