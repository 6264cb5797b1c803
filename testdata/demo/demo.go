// Package demo carries the games that clocktell demo plays, and the script of
// what goes wrong with their feed.
package demo

import "embed"

// FS holds game1.pgn, game2.pgn and script.toml.
//
//go:embed game1.pgn game2.pgn script.toml
var FS embed.FS
