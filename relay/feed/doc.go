// Package feed reads PGN from where it comes: an HTTP address, a file.
//
// A [Source] blocks in Run and reports everything it hears to a [Sink]: each answer
// with its receipt time, each fault with a reason from a fixed list. It knows
// nothing of chess, keeps no state of the show and never gives up on its own:
// after a fault it waits and asks again.
//
// Begin with feed.go, which holds the contract; [HTTP] and [File] keep it.
//
// # What a source does under each fault
//
// "Doubled" is the back-off: Every after the first fault, twice as long after each
// further one, never above MaxWait, spread by a fifth either way. The next
// good answer ends it. A file is looked at again after Every whatever happened.
//
//	what goes wrong                          reason     HTTP waits            file
//	no complete answer within Timeout        timeout    doubled               -
//	refused, reset, unknown host, bad TLS    connect    doubled               -
//	429, 503 with Retry-After                status     what it asks, within  -
//	                                                    Every and MaxWait
//	any other status than 200 and 304        status     doubled               -
//	redirects beyond MaxRedirects            status     doubled               -
//	304 for a body never read                status     doubled, then asks    -
//	                                                    for the whole
//	decoded bytes beyond MaxBytes            too_large  doubled               look again
//	Check refuses the content                not_pgn    doubled, then asks    grace, then
//	                                                    for the whole         look again
//	ended before its announced length        cut        doubled               -
//	bad gzip, bad chunks, bad header         malformed  doubled               -
//	missing, no permission, a directory      file       -                     look again
//	changed while it was read                none       -                     grace, then
//	                                                                          shown anyway
//
// Grace is up to four looks during which a file may still be half written. A file
// that stays in the same state is reported once per second, a change at once.
//
// # What cannot be noticed
//
// A server that keeps its ETag although the body changed answers 304, and
// nothing in HTTP tells that from an unchanged body. An answer without an announced
// length whose connection is closed early looks complete. A file that is rewritten
// to the same size under an old modification time (some copying tools restore it),
// in place, looks unchanged. A file on a hung network share blocks Run.
package feed
