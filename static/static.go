// Package static holds everything a page loads from the relay: the pages, their
// modules and styles, the type and the pieces. Nothing is built: what lies here is
// what browsers get, less comments and layout.
package static

import "embed"

// FS holds the served files. The server gives /static/X the file X, and a page
// such as /scene/board its index.html. Tests of the modules are not in it.
//
//go:embed desk fonts health lib panel pieces scene surface
var FS embed.FS
