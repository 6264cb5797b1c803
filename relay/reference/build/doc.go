// Package build makes a reference, the file of package reference, from PGN files of any
// number and size.
//
// Start with Run. The way of a game:
//
//	text      a file, unpacked                                        input.go
//	cutter    blocks of about a megabyte that begin with a game       cut.go
//	worker    headers read, moves played, positions noted; several    block.go, game.go, moves.go
//	collector in the order of the files: numbers, doubles, runs       collect.go
//	run       sorted in memory, spilled to the work directory         sort.go, run.go
//	merge     all runs at once into reference.Writer                  merge.go, write.go
//
// What a build has done stands in OUT.work beside the file: the runs, and a manifest
// that says how far the reading was when the last of them was complete. The manifest is
// replaced after everything it names is on the disk. So a build that is interrupted,
// however hard, goes on there, and makes the file it would have made at once, byte for
// byte. The file itself appears when it is whole.
//
// A game whose moves cannot all be played up to the depth is left out as a whole: half
// of it would be a game that nobody lost. Moves behind the depth are not looked at.
// Doubles are games with the same players, year, positions up to the depth and number of
// moves; games without any player's name are never doubles.
// Positions that a game reaches twice count once. Where the result at the end of the
// moves and the Result tag tell two things, the result is unknown.
package build
