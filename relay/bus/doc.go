// Package bus lets several processes share one show over NATS JetStream.
//
// # One stream is the show
//
// A show is a fold over its events, so whoever has the events in their order has the show.
// The stream of a show holds them: each message is a batch of events, and the state of every
// process is the fold over the messages up to one of them. Nobody shows what is not in the
// stream. Time passes by events too (relay.TimePassed), so that it passes in the same steps
// everywhere: all processes have the same revisions, the same numbers in the show log, and a
// page may go from one to another. Each reads at its own pace: who comes, or has been cut off, tells
// its show how the bus is when it has all that the bus held as it began to read, and pages wait for that.
//
//	sources → in ─┐                           ┌─ out → journal → relay
//	              ├→ append, if it leads ─────┤
//	stream ───────┴→ read, if it follows ─────┘
//
// # Who leads
//
// One process leads: it reads the feeds, and appends. Every message is appended under the
// condition that the last one of the stream is the one that its writer knows. The stream is
// so both the lease and the fence: the leader says that it lives by what it appends, at least
// every BeatEvery; who has heard nothing for Lease appends that it leads now; and whoever
// finds that another has written does not write again before it has read that. Two never
// write the same show, however wrong their clocks are and however long they were stopped.
//
// A message that bears another epoch than the beginning of the show is not of it, and all leave
// it out: an outsider wrote it, or a process that led another show when the bus lost that.
//
// An append that is not answered may have been written or not. The process then follows from
// where it was: if it was written, it comes back as a message like any other.
//
// # Alone
//
// A process that has no other to stand by for it (Options.Pair is false) does not stop for the
// bus: what cannot be appended is kept, up to a limit, the show goes on, and it is appended
// when the bus is back. Nobody may stand by for it: two shows would come of it when the bus
// fails. So Beginning and Lead say whether a leader is alone.
//
// # Names and messages
//
// The stream of a show NAME is clocktell-NAME, its subjects clocktell.NAME.begin, with a
// Beginning in JSON; clocktell.NAME.lead, with a Lead; clocktell.NAME.event, see code.go; and
// clocktell.NAME.part, with the beginning of an event's message that is too long for the bus and
// goes on in the next one. What people enter at a process that does not lead goes to the leader
// as a request on clocktell.NAME.enter, and who sits where is told on clocktell.NAME.people;
// no stream keeps these.
//
// # Whom it trusts
//
// Everybody who may use the bus. A client of it can write anything into the show that its
// processes can, enter in anybody's name past all roles of the pages, end every process by a
// message that none can read, and read all that is said, at once and whatever scenes hold back.
package bus
