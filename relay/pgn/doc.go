// Package pgn reads and writes chess games in Portable Game Notation (PGN), as
// the standard of 1994-03-12 describes it, with the embedded commands of its
// supplement of 2001.
//
// Read takes text as it comes in life: it never fails, keeps every game it can
// tell apart, and names what was wrong in Game.Faults. Write gives the export
// format. The package knows notation and no rules: a move is a word of the right
// shape, and whether it can be played is for others to say.
//
// Next takes a packet game by game, and StartsGame tells where the text of a game
// that has not changed still ends; so what is new in a packet can be read alone.
//
// Start with Read, then Game, then the Fault… constants.
package pgn
