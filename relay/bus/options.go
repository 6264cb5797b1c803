package bus

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"regexp"
	"time"

	"clocktell/relay"
)

// Options say which show is shared, and how. Zero values mean the defaults.
type Options struct {
	URL      string // of the NATS server, or several with commas
	Token    string // that the server asks for; "" none
	Show     string // name of the show on the bus; see CheckShow
	ID       string // of this process, for people
	Follow   bool   // never leads
	Pair     bool   // another process stands by: what cannot be appended is not shown
	Replicas int    // servers of a NATS cluster that keep the stream; default 1
	MaxBytes int64  // of the stream; default 1 GiB

	BeatEvery time.Duration // how often a leader is heard at least; default 500 ms
	Lease     time.Duration // of silence, after which another may lead; default 2 s
	AckWait   time.Duration // for an append; default 1.5 s

	Now  func() time.Time         // show time
	Set  func(time.Time)          // makes it that show time now, by the leader's; nil: it is left alone
	Book func() relay.OpeningBook // names of openings, for processes that follow
	Log  *slog.Logger             // nil: none

	// Due returns in how much wall time time alone next changes the show, less than 0 for
	// never.
	Due func() time.Duration

	// Take is told of every event that is in the stream, in order, and returns it as the loop
	// is to have it: one that was read (own false) holds of a packet only what changed.
	Take func(e relay.Event, own bool) (relay.Event, error)

	// Lead does what only the leader does, until its context ends: it reads feeds. What it
	// hears goes to the channel in of Run. Everything before has been taken when it begins.
	Lead func(ctx context.Context) error

	// Deposed is told when this process leads no more, before it reads on: what Take was told
	// is all that the show has of what Lead heard.
	Deposed func()

	// Enter brings what a person entered into the show of the leader.
	Enter func(ctx context.Context, id string, e relay.Event) (relay.Entered, error)
}

// The defaults of Options, and limits.
const (
	defaultBeatEvery = 500 * time.Millisecond
	defaultLease     = 2 * time.Second
	defaultAckWait   = 1500 * time.Millisecond
	defaultMaxBytes  = 1 << 30
	DefaultShow      = "show"

	batchMost     = 64               // events of a message
	messageMost   = 32 << 20         // bytes of one: the largest packet of a feed, and what JSON makes of it
	keptMost      = 100_000          // messages that wait for the bus
	keptBytesMost = 256 << 20        // of those
	connectWait   = 5 * time.Second  // for the first connection
	askWait       = 12 * time.Second // for what became of an entry: a little longer than the leader takes
	retryEvery    = time.Second      // while the bus does not answer
	reconnectGap  = 250 * time.Millisecond
)

// Errors.
var (
	// ErrAnew says that the show was begun anew on the bus, or has been lost there: this
	// process has to start again from what is there now.
	ErrAnew = errors.New("the show was begun anew on the bus")
	// ErrLed says that another process leads the show and none was to stand by.
	ErrLed = errors.New("another process leads this show on the bus; start both with --pair, or stop that one first")
	// ErrNoBus says that the bus cannot be reached.
	ErrNoBus = errors.New("the bus does not answer")
	// ErrNoLeader is for what is entered while nobody leads.
	ErrNoLeader = errors.New("nobody leads the show at this moment; send the entry again, it will not be done twice")
	// ErrFull says that the stream has come to its limit.
	ErrFull = errors.New("the stream of the show is full; set max_bytes of [bus] higher, and start the processes again one after the other")
)

var showName = regexp.MustCompile(`^[a-z][a-z0-9-]{0,31}$`)

// CheckShow reports a name that no show can have on the bus.
func CheckShow(name string) error {
	if !showName.MatchString(name) {
		return fmt.Errorf("%.40q: the name of a show on the bus has 1 to 32 small letters, figures and hyphens, and begins with a letter", name)
	}
	return nil
}

func (o Options) withDefaults() Options {
	if o.Show == "" {
		o.Show = DefaultShow
	}
	if o.Replicas == 0 {
		o.Replicas = 1
	}
	for of, is := range map[*time.Duration]time.Duration{&o.BeatEvery: defaultBeatEvery, &o.Lease: defaultLease, &o.AckWait: defaultAckWait} {
		if *of == 0 {
			*of = is
		}
	}
	if o.MaxBytes == 0 {
		o.MaxBytes = defaultMaxBytes
	}
	if o.Book == nil {
		o.Book = func() relay.OpeningBook { return nil }
	}
	if o.Set == nil {
		o.Set = func(time.Time) {}
	}
	if o.Log == nil {
		o.Log = slog.New(slog.DiscardHandler)
	}
	return o
}
