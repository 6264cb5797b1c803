// Package match is the arithmetic of a match: the score, what each result of a game
// would mean for it, what is still needed, which colours are to come, and what the
// ratings expect. It says what must follow whatever is played, never how likely
// anything is.
//
// Start with Match, the plan of a match with the results so far. Match.Take adds the
// results of a feed, Match.Standing tells the score, Match.Meaning what one game is
// worth to one side, Match.Forecast what the ratings expect of the rest.
//
// # What a match is
//
// A match is a list of stages: the games planned and then the tie-breaks. A stage is
// won with more than half of its points; a level one leads to the next stage; after
// the last one the match is drawn, unless its rules favour a side. Two teams play the
// same way, on several boards at once, and what counts is the sum of board points over
// all rounds.
//
// # What must follow
//
// Every statement is one about all results that are still open, in every order and on
// every board. So "a draw is enough" holds on a board only if it holds whatever
// happens on the others. A tie-break that has not been played is open both ways.
//
// The package is pure and sees no text of a feed but names, rounds and results.
package match
