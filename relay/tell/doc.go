// Package tell says what the clocks give away of each side: whether it still plays
// from preparation or thinks for itself, how long is long for it, and how near time
// trouble is.
//
// Start with New and Filter.Next, which takes one move after the other; then ask
// Call, Running, LongThinkAfter, Trouble, Projection, Lead and Closing. A Filter is a
// value: copying it keeps a snapshot, so a game taken back is a game replayed from an
// older copy. Nothing here knows the time of day, and the same moves give the same calls.
//
// What comes out is a chance, never a fact about a player. No published games mark
// where their players' preparation ended, so the calls have not been checked against
// people; and most of a move's time is explained by what it replies to and by the
// player's tempo.
//
// The model is in model.go with its constants in params.go, what is announced in
// verdict.go, all wording in words.go, reasons.go and troublewords.go.
//
// The constants that params.go calls fitted come from
//
//	go test ./relay/tell -run TestFit -v
//
// which fits them to the real clocks of a library's test games, prints them and fails
// where params.go says something else. How good the calls are is printed by
//
//	go test ./relay/tell -run Assess -v
//
// on drawn games whose changes are known (-games 10000 for smaller errors), on held-out
// real clocks against simpler rivals, and for the forecast of time trouble and of the
// clock; goals missed are marked so. What each kind of evidence and each rule is worth,
// and what was tried and left out, by
//
//	go test ./relay/tell -run 'TestTrials|TestAttempts' -v -trials
package tell
