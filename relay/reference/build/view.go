package build

import "unsafe"

// view returns bytes as text without copying them. They must not change while the text
// is in use.
func view(b []byte) string { return unsafe.String(unsafe.SliceData(b), len(b)) }
