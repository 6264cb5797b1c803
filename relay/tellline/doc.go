// Package tellline draws the tell line in Go: the track of a game's time, two lanes, one a
// side, filled while that side's clock runs.
//
// It is the drawing of the pages (static/lib/tellline.js and the modules behind it), for
// pictures and papers that are made without a browser. Every measure and rule here is theirs:
// TestSameAsPages runs both over many games and compares what they draw, shape by shape. What
// moves on pages stands still here: the present is where it was when the drawing was made.
package tellline
