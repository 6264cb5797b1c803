// Package relay is the domain: what a show is, what may happen to it, and the
// one loop that lets it happen. It does no I/O.
//
// Read it in this order. event.go and byhand.go list what may happen. show.go puts
// boards, feeds and prompts together, and its After is the whole step from what is
// to what is after an event.
//
// A packet comes in by intake.go, which finds what changed in it, and packet.go and
// pair.go bring its games to their boards. There each is an Offer (offer.go): what one
// feed says of the board's game, if it can be believed. attend.go lets a board follow
// the right offer (choose.go), together with what the producer entered (hand.go,
// enter.go, answer.go), and follow.go makes one game of it.
//
// board.go holds one game's state and Apply, the pure step that shows a game;
// tags.go, replay.go, readings.go and retime.go are the parts of that step: its tags,
// its moves, its clocks, and the tells that follow from them. moment.go is the other
// pure step, from one instant to a later one. note.go and changes.go write the show
// log: what was, and what is.
//
// known.go and habit.go take what the reference says of positions and players: it is
// asked beside the loop, about what a board lacks (Unanswered), and its answers are events.
// alert.go gathers what is worth saying from tellalerts.go, clockalerts.go,
// knownalerts.go, openingalerts.go, remarkalerts.go and, for silences, pacealerts.go; prompts.go makes the panel's list of it.
//
// match.go works out how the match stands whenever a result, a player or a round of a
// board changes, from the results as the boards show them; matchwords.go says it, and
// stake.go gives each board what to raise of it.
//
// Package bitboard is a second chess core, for bulk replay, hashes, attack sets and
// exchanges; the rules of what is shown are the library's, see package notation and replay.go.
// Package match knows the score of a match and what a game means for it.
//
// Package facts says what stands on a board, on those bitboards, and package remark which
// few facts are worth saying, folded over the plies of a game: each Ply keeps the state
// after it. Neither makes sentences.
//
// atdesk.go brings what is done at the desks to package desk, which keeps what they share,
// and suggest.go says where it burns. hidden.go takes from scenes what would give away
// what viewers are asked.
//
// relay.go has Relay.Run, the only place that changes state, and subscription.go
// is what a viewer waits on. hold.go says by how much groups of scenes are held back;
// history.go keeps what scenes were shown for those: a line of states (line.go) for each board, taken apart by
// keptboard.go so that what stays the same is kept once, and one for all else (aired.go). lately.go puts shows
// together from them again.
//
// # What is entered by hand, and what the feed says
//
// An entry remembers what the feed said of the same thing when it was made, in
// Over. From then on three things can happen:
//
//   - The feed says nothing of it, or still what it said: the entry stands.
//   - The feed says the same as the entry: the entry is dropped without a word, and
//     the feed leads again. Clocks are the same within clockAgrees.
//   - The feed says something else: the producer is asked, and the board stays as
//     it is. With a move in question none of the feed's moves are taken; with a
//     clock, a name or the result, everything else goes on.
//
// While the board is frozen, or a move is in question, the feed is not heard: what is
// entered then is held against what it says once it is heard again.
//
// To answer "feed" drops the entry and all entered moves behind it. To answer
// "hand" keeps it: what the feed says now is then what it is known to say, and its
// later moves are played on from the entered one.
//
// # Which feed is followed
//
// A board follows the first feed that is in order, the primary before its backups. It
// turns to the next one that goes on from what is shown when the one it follows does
// not answer, lacks the game, has jumped back to an older state, cannot be played, or has
// lacked moves that another has for ten seconds. It comes back to a better one that has
// been in order for twenty seconds. A feed that says other moves is followed only when
// it has been in order for three quarters of a minute and the one followed says nothing
// more. A feed that has just been turned to takes nothing back by not having come as
// far. The producer can pin one.
//
// # What is not believed
//
// A text that breaks off takes nothing back, nor does one that cannot be played. A text
// that the feed has told before, with fewer moves, is an older state: it is shown only
// if the feed keeps to it, for ten seconds if it is one ply of one game, for thirty
// otherwise.
//
// # Reading a state
//
// Every state is immutable once published. A reader takes Relay.Show, reads as
// long as it likes, and never locks.
package relay
