// Package static holds everything a page loads from the relay: the pages, their
// modules and styles, the type, the pieces, and in vendor what others have made. Nothing is built: browsers can load what
// lies here as it is. The server sends each script and style as one text with what it imports.
package static

import "embed"

// FS holds the served files. The server gives /static/X the file X, and a page
// such as /scene/board its index.html. Tests of the modules are not in it.
//
//go:embed desk fonts health lib panel pieces refused scene surface vendor
var FS embed.FS
