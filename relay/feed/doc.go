// Package feed reads PGN from where it comes: an HTTP address that is polled, or whose
// response goes on growing; a file, or a folder of files; whoever pushes it; an input
// such as standard input.
//
// A [Source] blocks in Run and reports everything it hears to a [Sink]: each answer
// with its receipt time, each fault with a reason from a fixed list. It knows
// nothing of chess, keeps no state of the show and never gives up on its own:
// after a fault it waits and tries again.
//
// Begin with feed.go, which holds the contract; [HTTP], [Growing], [File], [Folder],
// [Push] and [Reader] keep it.
//
// # What a source does under each fault
//
//	what goes wrong                   reason     HTTP       Growing    File       Folder     Push   Reader
//	no complete answer in Timeout     timeout    doubled    doubled¹   -          -          408    -
//	refused, reset, no host, bad TLS  connect    doubled    doubled    -          -          -      -
//	429, 503 with Retry-After         status     as asked   as asked   -          -          -      -
//	another status, but 200 and 304   status     doubled    doubled    -          -          -      -
//	304 for a body never read         status     doubled²   doubled    -          -          -      -
//	redirects beyond MaxRedirects     status     doubled    doubled    -          -          -      -
//	decoded bytes beyond MaxBytes     too_large  doubled    doubled    look       left out³  413    reads on⁴
//	files beyond MaxFiles             too_large  -          -          -          left out³  -      -
//	Check refuses the content         not_pgn    doubled²   grace⁵     grace      grace³     400    grace⁵
//	shorter than what was delivered   none       taken      grace      grace      grace      taken  -
//	ended before its announced end    cut        doubled    doubled⁶   -          -          400    -
//	bad gzip, bad chunks, bad header  malformed  doubled    doubled    -          -          400    -
//	a coding that is not read here    malformed  doubled    doubled    -          -          415    -
//	missing, no permission, no file   file       -          -          look       kept³      -      -
//	changed while it was read         none       -          -          grace      grace      -      -
//	no watcher to be had              none       -          -          Note       Note       -      -
//	no byte for QuietMost             none       -          asks anew  -          -          -      -
//	ended, as announced               none       -          asks anew  -          -          -      -
//	ended, or broken                  ended      -          -          -          -          -      waits⁶
//	no token, or a wrong one          refused    -          -          -          -          401    -
//	neither PUT nor POST              none       -          -          -          -          405    -
//	no show, or a busy one            none       -          -          -          -          503    -
//
// "Doubled" is the back-off: Every after the first fault, twice as long after each
// further one, never above MaxWait, spread by a fifth either way. The next good answer
// ends it. "As asked" is what Retry-After says, within Every and MaxWait. "Look" is to
// look again after Every, or a notice. "Grace" is up to a second: for a file, during
// which it may still be half written and is looked at again; for a response or an
// input, without a byte. Only then is what is refused a fault, and what is shorter
// taken. A file that stays in the same state is reported once per second, a change at
// once; of faults in pushes, one of a kind per second. A number is the status a push
// is answered with. "Asks anew" comes after Every, or a tenth of it if the response
// has gone on for as long, and is no fault.
//
//	¹ until the header is complete
//	² and the next poll asks for the whole
//	³ reported as [Fault].Partial, while the other files go on; a file keeps the content
//	  it had, but for one that is too large; one that was always empty is no fault; what
//	  is gone stays for the grace
//	⁴ and keeps no more of it, so that whoever writes it is not held up
//	⁵ or, while bytes flow, after Timeout (ten seconds for an input); then each Every
//	⁶ what came before the break is delivered, up to its last white space, if it is longer
//	  than what was delivered
//
// # What cannot be noticed
//
// A server that keeps its ETag although the body changed answers 304, and nothing in
// HTTP tells that from an unchanged body. (A Last-Modified that is younger than a
// second, or lies in the future, is not asked with.) An answer without an announced
// length whose connection is closed early looks complete, and one that is longer than
// announced ends where it was announced to.
//
// A growing response whose line is dead looks quiet until QuietMost, and an input
// whose writer hangs looks quiet for ever. A pause within a move looks like its end.
//
// A file that is rewritten to the same size under an old modification time (some
// copying tools restore it), in place, looks unchanged. Whether a folder on a network
// share sends notices cannot be told, so that the looks never stop; a file that a
// symbolic link names in another folder is noticed by a look alone. A file on a hung
// network share blocks Run.
//
// That nobody pushes is no fault and reported as nothing at all. Which of two pushes
// that overlap is the later one is not known: the one taken last stays.
package feed
