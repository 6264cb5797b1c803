// Package journal writes down everything that reaches the relay's loop, before
// it does, so that a process that was killed comes back with the same show.
//
//	sources → in → Journal.Run → out → relay.Relay.Run
//
// What an event reports has been synced to the disk when the event leaves
// Run. Answers without news are the exception: nothing is lost with them but
// the moment at which a feed was last heard, so they go on at once and are
// written with the next commit, after 5 seconds at the latest. When the disk
// refuses to take more, the show goes on: see relay.JournalState.
//
// # Files
//
// A folder holds one SQLite file per show, named by its start in UTC:
// show-20060102T150405Z.db. While the show runs, -wal and -shm belong to it.
// lock.db keeps a second process out. What could not be read at a start is kept
// under a name with .damaged. The files may be queried while the show writes
// them, with the sqlite3 shell for instance. A process that holds a journal must
// not open its files by other means than SQLite: closing such a file would give
// up SQLite's locks.
//
// # Schema, version 1
//
//	PRAGMA application_id = 0x434C4B54; PRAGMA user_version = 1;
//
//	meta(key TEXT, value TEXT)     schema: the version, again; title; plan; began: Unix ns;
//	                               epoch: of the show on the bus, if it is shared
//
//	record(                        what happened, in order
//	  seq   INTEGER PRIMARY KEY    number of its first event; no gaps but where a segment was deleted
//	  at    INTEGER                time of its first event, show time in Unix ns
//	  kind  TEXT                   packet, failed, hand, panel, desk, known, judged, answers or segment
//	  feed  TEXT                   "" if none or several
//	  board INTEGER                0 if none
//	  n     INTEGER                how many events it holds: answers come in runs
//	  key   INTEGER                1: said again for the beginning of a segment, see below
//	  crc   INTEGER                CRC-32C over all other columns, see row.sum
//	  body  BLOB)                  packet: parts, see packet.go; answers: see answers.go;
//	                               failed: length of the reason, reason, text; hand, panel, desk and known: JSON;
//	                               judged: see judged.go; segment: number of events lost before it
//
//	log(seq INTEGER PRIMARY KEY, at INTEGER, board INTEGER, kind TEXT, ply INTEGER, was TEXT, is_ TEXT, text TEXT)
//	                               the show log: derived, can be made again from the records
//
// A version that this package does not know is refused; a kind of record that it
// does not know is left out and reported.
//
// # Segments
//
// A show is a row of segments, so that the oldest can be deleted when room runs
// out. A segment begins with a record of that kind and with key records, which
// Options.Key gives: they stand for all that came before. Readers leave key
// records out, except in the first segment there is and after a loss.
package journal
