// Package wire is the protocol between relay and pages, defined once.
//
// Everything a page may read or send is a struct in wire.go. The JavaScript
// types and constants in static/lib/wire.js are generated from that file by
// TestJavaScriptTypes, and the examples in overlay/PROTOCOL.md are checked
// against it, so the three cannot drift apart.
package wire
