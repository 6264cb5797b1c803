package bus

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"

	"github.com/nats-io/nats.go"
	"golang.org/x/sync/errgroup"

	"clocktell/relay"
)

// Limits of what is entered at other processes.
const (
	askedMost   = 256 // entries that wait for the leader
	askedAtOnce = 64
)

// question brings an entry to the leader.
type question struct {
	ID    string `json:"id"`
	Entry item   `json:"entry"`
}

// reply says what became of an entry; Wrong: nobody knows.
type reply struct {
	Entered relay.Entered `json:"entered"`
	Wrong   string        `json:"wrong,omitempty"`
}

// Ask brings what a person entered here to the leader, and returns what became of it. The
// error says that nobody knows; the entry may be sent again under its ID.
func (b *Bus) Ask(ctx context.Context, id string, e relay.Event) (relay.Entered, error) {
	entry, err := itemOf(e)
	if err != nil {
		return relay.Entered{}, err
	}
	text, err := json.Marshal(question{ID: id, Entry: entry})
	if err != nil {
		return relay.Entered{}, err
	}
	ctx, cancel := context.WithTimeout(ctx, askWait)
	defer cancel()
	m, err := b.stream.conn.RequestWithContext(ctx, b.stream.subject+ofEnter, text)
	if errors.Is(err, nats.ErrNoResponders) {
		return relay.Entered{}, ErrNoLeader
	}
	if err != nil {
		return relay.Entered{}, fmt.Errorf("%w; send the entry again, it will not be done twice", noBus(err))
	}
	var r reply
	if err := json.Unmarshal(m.Data, &r); err != nil {
		return relay.Entered{}, fmt.Errorf("the leader's answer: %w", err)
	}
	if r.Wrong != "" {
		return relay.Entered{}, errors.New(r.Wrong)
	}
	return r.Entered, nil
}

// answer takes what is entered at other processes while this one leads.
func (b *Bus) answer(ctx context.Context) error {
	asked := make(chan *nats.Msg, askedMost) // past it the library drops: who asked is told that nobody answered
	subscription, err := b.stream.conn.ChanSubscribe(b.stream.subject+ofEnter, asked)
	if err != nil {
		return err
	}
	defer subscription.Unsubscribe()
	var group errgroup.Group
	group.SetLimit(askedAtOnce)
	for {
		select {
		case m := <-asked:
			group.Go(func() error {
				b.reply(ctx, m)
				return nil
			})
		case <-ctx.Done():
			return group.Wait()
		}
	}
}

func (b *Bus) reply(ctx context.Context, m *nats.Msg) {
	r := b.enter(ctx, m.Data)
	text, err := json.Marshal(r)
	if err == nil {
		err = m.Respond(text)
	}
	if err != nil {
		b.o.Log.Warn("what became of an entry could not be told", "err", err) // it can be sent again
	}
}

func (b *Bus) enter(ctx context.Context, text []byte) reply {
	var q question
	if err := json.Unmarshal(text, &q); err != nil {
		return reply{Wrong: "the entry cannot be read: " + err.Error()}
	}
	e, err := q.Entry.read(b.o.Book)
	if err != nil {
		return reply{Wrong: "the entry cannot be read: " + err.Error()}
	}
	switch e.(type) {
	case relay.ByHand, relay.AtPanel, relay.AtDesk:
	default:
		return reply{Wrong: "nothing that a person enters"}
	}
	entered, err := b.o.Enter(ctx, q.ID, e)
	if ctx.Err() != nil && err != nil {
		return reply{Wrong: "the process that was asked leads no more; send the entry again, it will not be done twice"}
	}
	if err != nil {
		return reply{Wrong: err.Error()}
	}
	return reply{Entered: entered}
}
