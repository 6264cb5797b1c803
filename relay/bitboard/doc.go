// Package bitboard is the second chess core: positions as sets of squares, for what
// the rules library of the live path does not offer or is too slow for. It replays
// games in bulk from their SAN, gives every position a hash, and tells attack sets,
// pins and exchanges. It is pure: no I/O, no goroutine, nothing beyond the standard
// library.
//
// Start with Position, then ParseSAN, Make and Hash for replay, Moves and SAN for
// what can be played, Attacks, Attackers, Pinned and Exchange for what stands on the
// board.
//
// # How a position is kept
//
// Four sets hold the whole board: three have the bits of each square's PieceType, the
// fourth the Black pieces. A Position so fits one cache line and is copied like a
// number; there is no unmake, keep a copy of the position before Make instead.
//
// Sliding attacks are found by subtraction: along a file or a diagonal, taking twice
// the slider's square from the occupied squares flips all bits up to the first piece,
// and the same with the ranks' order reversed serves the other direction. A rank is
// looked up by its six inner squares. All tables together take about 15 kB and are
// filled in a few microseconds when the program starts.
//
// # Castling
//
// A right to castle is kept as the square of its rook, and a castling move as the
// king's own move (e1g1). Only standard chess is played: kings castle from the e-file
// with rooks of the a- and h-files. Shuffled starting positions could be added without
// another representation, the move then being the king onto its own rook's square.
package bitboard
