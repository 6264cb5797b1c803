// Package relay is the domain: what a show is, what may happen to it, and the
// one loop that lets it happen. It does no I/O.
//
// Read it in this order. event.go lists what may happen. board.go holds one
// game's state and Apply, the pure step from what is to what a feed now says;
// tags.go, replay.go and retime.go are the parts of that step: whose game it is,
// its moves, and the clocks and tells that follow from them. moment.go is the
// other pure step, from one instant to a later one. show.go puts boards, feeds and
// prompts together; packet.go and key.go bring the games of a packet to their
// boards. relay.go has Relay.Run, the only
// place that changes state, and subscription.go is what a viewer waits on.
//
// Every state is immutable once published. A reader takes Relay.Show, reads as
// long as it likes, and never locks.
package relay
