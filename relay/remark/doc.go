// Package remark says what is worth saying of a position: of all the facts that stand on
// the board, the few that are right, new and likely to last, or a real chance for the
// side on the move. It is pure and makes no sentences.
//
// Start with Begin and State.Next, a fold over the plies of a game: the State after a ply
// follows from that before it, the move and the two positions, so a game whose moves are
// taken back goes on from the State it had. State.Remarks are what has been found worth
// saying and still holds exactly as it was said: the same men on the same squares.
//
// Each Rule is defined where it is declared, by the facts of package facts it rests on.
// No number and no choice of rules has a source: common practice, no source.
//
// # When a rule speaks
//
// A finding is what a rule sees on the board. It becomes a remark when it has stood for
// the rule's wait, so that the obvious reply has come and not settled it, and when the
// rule's conditions on the moment hold; what could not be said within the rule's window is
// old and never said. Rules that are Calm (rulecalm.go) only fill a silence: each speaks once of a game
// or side, as a rule, and the panel lets them wait until nothing else is fresh. A ply brings one remark, the one of the highest rank, and those of
// the background keep their distance from the last one. What was said of a man, or with
// some rules of a side, is not said again for the rule's rest, although it went and came; the
// man is followed as it moves. Nothing is said of threats of mate, of material and of passed pawns
// when one side has its king alone.
package remark
