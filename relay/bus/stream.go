package bus

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"clocktell/relay"
)

// stream is the show's stream on the bus. It belongs to one goroutine.
type stream struct {
	o       *Options
	conn    *nats.Conn
	js      jetstream.JetStream
	subject string // of all messages, without their kind
	name    string
	epoch   string // of the show: each message bears it
	last    uint64 // number of the last message that this process knows
}

// Kinds of messages, the last part of their subjects.
const (
	ofBegin = ".begin"
	ofLead  = ".lead"
	ofEvent = ".event"
	ofPart  = ".part"  // the beginning of an event's message, which goes on in the next one
	ofEnter = ".enter" // no stream keeps it
)

// errElse says that somebody else has written since.
var errElse = errors.New("another process has written")

// connect reaches the bus. From then on the connection mends itself.
func connect(o *Options) (*stream, error) {
	conn, err := nats.Connect(o.URL,
		nats.Name("clocktell "+o.ID), nats.Token(o.Token), nats.Timeout(connectWait), nats.MaxReconnects(-1), nats.ReconnectWait(reconnectGap), nats.ReconnectJitter(reconnectGap/2, reconnectGap/2),
		nats.ReconnectBufSize(-1), // what waited for the bus is nobody's wish any more when it is back
		nats.PingInterval(time.Second), nats.MaxPingsOutstanding(2),
		nats.ErrorHandler(func(_ *nats.Conn, _ *nats.Subscription, err error) { o.Log.Warn("the line to the bus", "err", err) }), // else it writes to standard error
	)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNoBus, err)
	}
	if most := conn.MaxPayload(); most < payloadLeast {
		conn.Close()
		return nil, fmt.Errorf("it takes messages of up to %d bytes; max_payload has to be %d or more", most, payloadLeast)
	}
	js, err := jetstream.New(conn, jetstream.WithDefaultTimeout(o.AckWait))
	if err != nil {
		conn.Close()
		return nil, err
	}
	return &stream{o: o, conn: conn, js: js, subject: "clocktell." + o.Show, name: "clocktell-" + o.Show}, nil
}

// make makes the stream if it is not there.
func (s *stream) make(ctx context.Context) error {
	_, err := s.js.CreateOrUpdateStream(ctx, jetstream.StreamConfig{
		Name: s.name, Description: "a show of clocktell", Subjects: []string{s.subject + ofBegin, s.subject + ofLead, s.subject + ofEvent, s.subject + ofPart},
		Storage: jetstream.FileStorage, Retention: jetstream.LimitsPolicy, Discard: jetstream.DiscardNew,
		MaxBytes: s.o.MaxBytes, Replicas: s.o.Replicas, Duplicates: s.o.Lease, AllowDirect: false, // whoever looks has to see what was written last
	})
	if refused := new(jetstream.APIError); errors.As(err, &refused) && refused.ErrorCode == codeNoRoom {
		return fmt.Errorf("the bus has no room for %d bytes: give its disk more, or set max_bytes of [bus] lower", s.o.MaxBytes)
	}
	return err
}

// end returns the number of the last message there is; found is false where there is no stream.
func (s *stream) end(ctx context.Context) (last uint64, found bool, err error) {
	there, err := s.js.Stream(ctx, s.name)
	if errors.Is(err, jetstream.ErrStreamNotFound) {
		return 0, false, nil
	}
	if err != nil {
		return 0, false, fmt.Errorf("%w: %w", ErrNoBus, err)
	}
	return there.CachedInfo().State.LastSeq, true, nil
}

// lastOf returns the last message of a kind; nil: there is none.
func (s *stream) lastOf(ctx context.Context, kind string) (*jetstream.RawStreamMsg, error) {
	there, err := s.js.Stream(ctx, s.name)
	if errors.Is(err, jetstream.ErrStreamNotFound) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNoBus, err)
	}
	m, err := there.GetLastMsgForSubject(ctx, s.subject+kind)
	if errors.Is(err, jetstream.ErrMsgNotFound) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNoBus, err)
	}
	return m, nil
}

// first returns the number of the first message there is.
func (s *stream) first(ctx context.Context) (uint64, error) {
	there, err := s.js.Stream(ctx, s.name)
	if err != nil {
		return 0, err
	}
	return there.CachedInfo().State.FirstSeq, nil
}

// append writes a message behind the last one that this process knows. The error is errElse
// when there is another behind that, ErrFull, or says that nobody knows whether it was written.
func (s *stream) append(ctx context.Context, kind string, data []byte) error {
	seq, err := s.put(ctx, message{kind, data}, s.last)
	if err == nil {
		s.last = seq
	}
	return err
}

// put is append behind a message of that number, and returns the number of this one. It may be called
// beside others.
func (s *stream) put(ctx context.Context, of message, behind uint64) (uint64, error) {
	ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), s.o.AckWait) // what has begun is finished: who leaves has to know the last number
	defer cancel()
	m := &nats.Msg{Subject: s.subject + of.kind, Data: of.data, Header: nats.Header{headerEpoch: {s.epoch}}}
	ack, err := s.js.PublishMsg(ctx, m, jetstream.WithExpectLastSequence(behind), jetstream.WithRetryAttempts(0))
	if err == nil {
		return ack.Sequence, nil
	}
	refused := new(jetstream.APIError)
	if errors.As(err, &refused) {
		switch refused.ErrorCode {
		case jetstream.JSErrCodeStreamWrongLastSequence, jetstream.JSErrCodeStreamWrongLastSequenceConstant:
			return 0, errElse
		case codeStoreFailed:
			if strings.Contains(refused.Description, "maximum bytes") {
				return 0, ErrFull
			}
		}
	}
	return 0, noBus(err)
}

// noBus is ErrNoBus with its reason.
func noBus(err error) error {
	if errors.Is(err, nats.ErrReconnectBufExceeded) {
		return fmt.Errorf("%w: there is no connection", ErrNoBus) // what the library says of it is of no use to people
	}
	return fmt.Errorf("%w: %w", ErrNoBus, err)
}

// message is one that is to be appended.
type message struct {
	kind string
	data []byte
}

// messages are what events make: one, or several where the bus takes none so long.
func (s *stream) messages(events []relay.Event) ([]message, error) {
	data, err := encode(events)
	if err != nil {
		return nil, err
	}
	var out []message
	for most := max(int(s.conn.MaxPayload())-headerMost, headerMost); len(data) > most; data = data[most:] {
		out = append(out, message{ofPart, data[:most]})
	}
	return append(out, message{ofEvent, data}), nil
}

// headerEpoch is the header of a message that tells which show it is of.
const headerEpoch = "Clocktell-Epoch"

const (
	headerMost   = 1 << 10        // bytes that the bus counts besides those of a message
	payloadLeast = 2 * headerMost // bytes of a message that a bus has to take
)

// codeStoreFailed is what the server says when it cannot keep a message, so when a stream that
// discards nothing is full; the client library has no name for it. Seen of nats-server 2.15.
const codeStoreFailed = 10077

// codeNoRoom is what it says when its disk has not so much room as a stream may take; seen likewise.
const codeNoRoom = 10047

// readAfter reads messages from the one after a number on, and returns how many there are now.
func (s *stream) readAfter(ctx context.Context, seq uint64) (messages jetstream.MessagesContext, are uint64, err error) {
	ctx, cancel := context.WithTimeout(ctx, s.o.AckWait)
	defer cancel()
	// Not one of the library's that mend themselves: they do so for up to ten seconds, and tell nobody.
	consumer, err := s.js.CreateConsumer(ctx, s.name, jetstream.ConsumerConfig{
		DeliverPolicy: jetstream.DeliverByStartSequencePolicy, OptStartSeq: seq + 1, AckPolicy: jetstream.AckNonePolicy,
		MemoryStorage: true, Replicas: 1, InactiveThreshold: 4*s.o.Lease + time.Second,
	})
	if err != nil {
		return nil, 0, err
	}
	messages, err = consumer.Messages()
	return messages, consumer.CachedInfo().NumPending, err
}

// get returns the message of a number.
func (s *stream) get(ctx context.Context, seq uint64) (*jetstream.RawStreamMsg, error) {
	there, err := s.js.Stream(ctx, s.name)
	if err != nil {
		return nil, err
	}
	return there.GetMsg(ctx, seq)
}

// forget takes everything before a number from the stream.
func (s *stream) forget(ctx context.Context, before uint64) error {
	there, err := s.js.Stream(ctx, s.name)
	if err != nil {
		return err
	}
	return there.Purge(ctx, jetstream.WithPurgeSequence(before))
}

// kindOf is the kind of a message of that subject.
func (s *stream) kindOf(subject string) string { return strings.TrimPrefix(subject, s.subject) }

func (s *stream) close() { s.conn.Close() }
