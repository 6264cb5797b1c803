// Package relay is the domain: what a show is, what may happen to it, and the
// one loop that lets it happen. It does no I/O.
//
// Read it in this order. event.go lists what may happen. board.go holds one
// game's state and Apply, the pure step from what is to what a feed now says;
// replay.go is the part of that step that replays moves, clocks and tells.
// moment.go is the other pure step, from one instant to a later one. show.go
// puts boards, feeds and prompts together. relay.go has Relay.Run, the only
// place that changes state, and subscription.go is what a viewer waits on.
//
// Every state is immutable once published. A reader takes Relay.Show, reads as
// long as it likes, and never locks.
package relay
