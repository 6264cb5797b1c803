package journal

import (
	"time"

	"clocktell/relay"
)

// Options say where and how to keep a journal. Zero values mean the defaults.
type Options struct {
	Dir          string        // folder of the shows; made if it is not there
	Title        string        // of the show, for whoever lists recordings
	Plan         string        // of the show, in the words of whoever plays recordings
	MaxBytes     int64         // all files of the folder together; default 1 GiB
	SegmentBytes int64         // length of a segment; default 64 MiB, a quarter of MaxBytes at most
	ResumeWithin time.Duration // how old a show may be that is continued; default 12 hours
	Fresh        bool          // begin a new show, whatever is there
	Shared       *Shared       // the show is one on a bus, and that says what has happened; nil: it is not

	Now  func() time.Time // show time
	Wall func() time.Time // measures how long commits take; default time.Now

	// Key returns events that stand for all that Run has sent on so far: whoever
	// starts with them gets the same show. Run calls it when a segment begins,
	// between two batches. Without Key, a show whose oldest segment was deleted
	// cannot be restored.
	Key func() []relay.Event

	// Took is told how long each commit took, in wall time. It is called without any
	// lock, and may be nil.
	Took func(time.Duration)

	// Sent is told of every event that Run has sent on. It belongs to Run's
	// goroutine, as Key does, and may be nil.
	Sent func(relay.Event)
}

// The defaults of Options.
const (
	defaultMaxBytes     = 1 << 30
	defaultSegmentBytes = 64 << 20
	defaultResumeWithin = 12 * time.Hour
)

// Limits.
const (
	flushAfter         = 5 * time.Second // how long an answer without news may wait for the disk
	batchMost          = 64              // events of one commit
	answersMost        = 1000            // answers without news that may wait, and that one record holds
	unwrittenMost      = 100_000         // records kept in memory while the disk refuses them
	unwrittenBytesMost = 64 << 20        // their size
	logWaitingMost     = 10_000          // log entries that may wait for a commit
	reportLinesMost    = 20              // lines of Cut and of Dropped

	chunkRows  = 1000    // rows of one transaction that were kept in memory, or are copied
	chunkBytes = 1 << 20 // their size

	busyFor          = 100 * time.Millisecond // how long to wait for another program's lock
	checkpointMost   = 1000                   // pages in the -wal after which they are moved to the file
	checkpointShare  = 16                     // of MaxBytes, at most
	walPagesFactor   = 4                      // of that, after which a commit has to do it
	walBytesMost     = checkpointMost * walPagesFactor * (pageBytes + walFrameBytes) * 5 / 4
	pageBytes        = 4096
	walFrameBytes    = 24
	trimRows         = 500 // rows deleted at a time
	trimPages        = 256 // free pages given back at a time
	packedFrom       = 1 << 10
	packetMost       = 5 << 28 // bytes of a packet's record, unpacked: the largest packet of a feed, and some more
	segmentsPerShow  = 4       // of MaxBytes, at least
	applicationID    = 0x434C4B54
	schemaVersion    = 1
	readersMost      = 4 // connections for reading
	nameLayout       = "20060102T150405Z"
	namePrefix       = "show-"
	nameSuffix       = ".db"
	newSuffix        = ".new"
	damagedSuffix    = ".damaged"
	lockName         = "lock.db"
	damagedNamesMost = 1000
)

func (o Options) withDefaults() Options {
	if o.MaxBytes <= 0 {
		o.MaxBytes = defaultMaxBytes
	}
	if o.SegmentBytes <= 0 {
		o.SegmentBytes = defaultSegmentBytes
	}
	o.SegmentBytes = min(o.SegmentBytes, o.MaxBytes/segmentsPerShow)
	if o.ResumeWithin <= 0 {
		o.ResumeWithin = defaultResumeWithin
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Sent == nil {
		o.Sent = func(relay.Event) {}
	}
	if o.Took == nil {
		o.Took = func(time.Duration) {}
	}
	if o.Wall == nil {
		o.Wall = time.Now
	}
	return o
}

// checkpointPages is how many pages the -wal may have before they are moved.
func (o Options) checkpointPages() int64 {
	return max(1, min(checkpointMost, o.MaxBytes/checkpointShare/pageBytes))
}
