// Package opinion is what a second opinion of a position is, whoever gives it:
// lines with their scores, from White's view, and how they came about while the
// search went deeper. It knows no engine and starts nothing.
package opinion
