// Package opinion is what a second opinion of a position is, whoever gives it:
// lines with their scores, from White's view, and how they came about while the
// search went deeper. It knows no engine and starts nothing.
//
// What it is worth saying is told by calls, each defined where it is declared: Moment.Swing,
// Moment.MissedMate and Moment.FirstChoice of a move, Opinion.OnlyMove, Opinion.Refutation,
// Opinion.Choice and Opinion.Quiet of a position. They count in Points and Outlooks, in which a
// bound reaches to the end of the scale, so that it supports only what it proves; and they need
// an opinion that is deep, for some of them settled or firm over its last depths.
//
// Their margins were judged by reading what was called over thirty rapid games of a library's test
// data, each position searched for 200,000 nodes with three lines, against ten times that.
package opinion
