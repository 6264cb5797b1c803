// Package clock knows what a chess clock may say: the time control, one reading
// of a clock, and what a move cost.
//
// Start with ParseControl, which reads the TimeControl tag of PGN, and with
// Control.After, which turns the readings behind one move into time left and time
// spent, each with the quality of its source. The package is pure: it never asks
// for the time of day.
package clock
