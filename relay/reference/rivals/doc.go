// Command rivals measures package reference beside three embedded engines on
// the same grouped payload, and prints the table that its package document
// carries:
//
//	go run . [-games 500000] [-plies 40] [-repeat 3] [-only index,pebble,bbolt,sqlite] [-dir FOLDER]
//
// It is a module of its own, so that the engines are no dependency of clocktell.
// It needs a disk with room for a few GB and memory for 16 bytes an occurrence
// (sorting, before anything is measured).
//
// The payload is a made-up tree of games, see package referencetest. An engine
// gets a key of 8 bytes for each position and as its value the games that reached
// it, grouped by move: number, and the distances between them as varints. It
// holds nothing else. The index holds the games, their names and summaries, too;
// and its look is a whole answer, while an engine's is fetching the value, with
// nothing counted. Both differences are in favour of the engines.
//
// Each build and each round of looks is a process of its own, whose peak memory
// is the system's figure (ru_maxrss). The stores take turns, -repeat times; the
// table has the medians. Hits are positions drawn evenly from all different
// ones, misses their neighbours. Warm: after a round that is not counted. Cold:
// the store is closed, the system is told to forget its files (posix_fadvise,
// DONTNEED, after a sync), the store is opened and looked at 20 times; what lies
// below the system's cache, such as a host's, stays warm.
package main
