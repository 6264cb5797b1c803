// Package clock knows what a chess clock may say: the time control, one reading
// of a clock, and what a move cost.
//
// Start with ParseControl, which reads the TimeControl tag of PGN, and with
// Control.After, which turns the readings behind one move into time left and time
// spent, each with the quality of its source. Before a side's clock is reckoned with,
// Control.For gives the control as it is for that side, and Control.Before what an
// hourglass has given it meanwhile. What a feed does with its clocks is found by
// Control.ReadsBefore, StepOf and Mend; when a clock began to run, by Locate.
//
// # What a reading is held to
//
//   - Only what cannot be is doubted: a clock that rises by more than its increment,
//     falls by more than it had, repeats itself although the receipts tell of a long
//     move, or is not what emt or egt beside it say. Two clocks cut to whole steps may
//     contradict each other by a step.
//   - Time left that was read stands, because arbiters change clocks; the time spent is
//     then estimated from the receipts, or unknown. Only a repeated reading does not.
//   - Clocks on the wrong side are put right where emt or the receipts show it. Without
//     those they are left, since the clocks alone would fit several ways.
//   - A move inside a delay leaves no trace; its time is an estimate.
//
// The package is pure: it never asks for the time of day. Times beyond 10,000 hours
// either way are taken for that much, so no sum overflows.
package clock
