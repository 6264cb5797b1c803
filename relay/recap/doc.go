// Package recap makes of a show what its editor needs afterwards: a page for every game, one
// over all of them, annotated PGN, and the diagrams and tell lines as pictures.
//
// A Watch sees every state of a show go by, and keeps what the last state no longer tells:
// games that made room for others, sentences that were said, side lines and questions that
// were on the air. Write makes the files of what it has seen. Nothing here reads a clock or
// opens a file: where the files go is the Sink's affair.
package recap
