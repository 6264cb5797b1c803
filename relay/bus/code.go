package bus

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"clocktell/relay"
)

// item is one event of a message: {"kind":"failed","at":1792238400000000000,"event":{…}}, at
// in nanoseconds since the Unix epoch. A message is a list of items.
type item struct {
	Kind  string          `json:"kind"`
	At    int64           `json:"at"`
	Event json.RawMessage `json:"event,omitempty"`
}

// packet is relay.PacketRead as it is sent: what changed. Its texts may be in any encoding,
// so they are bytes.
type packet struct {
	Feed  string `json:"feed"`
	Parts []part `json:"parts"`
}

// failed is relay.FeedFailed: what went wrong may name a file in any encoding.
type failed struct {
	Feed   string `json:"feed"`
	Reason string `json:"reason"`
	Text   []byte `json:"text"`
}

type part struct {
	From  int    `json:"from,omitempty"`
	Count int    `json:"count,omitempty"`
	Head  int    `json:"head,omitempty"`
	Tail  int    `json:"tail,omitempty"`
	Text  []byte `json:"text,omitempty"`
}

// The kinds of events. Processes of two versions may share a show: never rename one.
const (
	kindPacket    = "packet"
	kindAnswered  = "answered"
	kindFailed    = "failed"
	kindHand      = "hand"
	kindPanel     = "panel"
	kindDesk      = "desk"
	kindReference = "reference"
	kindKnown     = "known"
	kindEngine    = "engine"
	kindJudged    = "judged"
	kindOpenings  = "openings"
	kindPassed    = "passed"
)

// errNotShared is for events that are of one process alone.
var errNotShared = errors.New("not an event that is shared")

// encode writes events as a message.
func encode(events []relay.Event) ([]byte, error) {
	items := make([]item, 0, len(events))
	for _, e := range events {
		it, err := itemOf(e)
		if err != nil {
			return nil, err
		}
		items = append(items, it)
	}
	return json.Marshal(items)
}

func itemOf(e relay.Event) (item, error) {
	kind, body := "", any(e)
	switch e := e.(type) {
	case relay.PacketRead:
		kind, body = kindPacket, packetOf(e)
	case relay.FeedAnswered:
		kind = kindAnswered
	case relay.FeedFailed:
		kind, body = kindFailed, failed{e.Feed, e.Reason, []byte(e.Text)}
	case relay.ByHand:
		kind = kindHand
	case relay.AtPanel:
		kind = kindPanel
	case relay.AtDesk:
		kind = kindDesk
	case relay.ReferenceAttached:
		kind = kindReference
	case relay.ReferenceAnswered:
		kind = kindKnown
	case relay.EngineChanged:
		kind = kindEngine
	case relay.EngineAnswered:
		kind = kindJudged
	case relay.OpeningsLoaded:
		kind, body = kindOpenings, nil // everybody has the book
	case relay.TimePassed:
		kind, body = kindPassed, nil
	default:
		return item{}, fmt.Errorf("%T: %w", e, errNotShared)
	}
	it := item{Kind: kind, At: e.When().UnixNano()}
	if body == nil {
		return it, nil
	}
	text, err := json.Marshal(body)
	it.Event = text
	return it, err
}

func packetOf(e relay.PacketRead) packet {
	p := packet{Feed: e.Feed, Parts: make([]part, len(e.Parts))}
	for i, from := range e.Parts {
		p.Parts[i] = part{from.From, from.Count, from.Head, from.Tail, []byte(from.Text)}
	}
	return p
}

// decode reads a message. Of a packet it returns what changed, as relay.Intake.Again takes it.
func decode(message []byte, book func() relay.OpeningBook) ([]relay.Event, error) {
	var items []item
	if err := json.Unmarshal(message, &items); err != nil {
		return nil, err
	}
	events := make([]relay.Event, 0, len(items))
	for _, it := range items {
		e, err := it.read(book)
		if err != nil {
			return nil, fmt.Errorf("%.20s: %w", it.Kind, err)
		}
		events = append(events, e)
	}
	return events, nil
}

func (it item) read(book func() relay.OpeningBook) (relay.Event, error) {
	at := time.Unix(0, it.At).UTC()
	switch it.Kind {
	case kindPacket:
		p, err := body[packet](it)
		return p.event(at), err
	case kindAnswered:
		e, err := body[relay.FeedAnswered](it)
		e.At = at
		return e, err
	case kindFailed:
		e, err := body[failed](it)
		return relay.FeedFailed{At: at, Feed: e.Feed, Reason: e.Reason, Text: string(e.Text)}, err
	case kindHand:
		e, err := body[relay.ByHand](it)
		e.At = at
		return e, err
	case kindPanel:
		e, err := body[relay.AtPanel](it)
		e.At = at
		return e, err
	case kindDesk:
		e, err := body[relay.AtDesk](it)
		e.At = at
		return e, err
	case kindOpenings:
		return relay.OpeningsLoaded{At: at, Book: book()}, nil
	case kindPassed:
		return relay.TimePassed{At: at}, nil
	}
	return it.readAnswer(at)
}

// readAnswer reads what took longer than a move may wait.
func (it item) readAnswer(at time.Time) (relay.Event, error) {
	switch it.Kind {
	case kindReference:
		e, err := body[relay.ReferenceAttached](it)
		e.At = at
		return e, err
	case kindKnown:
		e, err := body[relay.ReferenceAnswered](it)
		e.At = at
		return e, err
	case kindEngine:
		e, err := body[relay.EngineChanged](it)
		e.At = at
		return e, err
	case kindJudged:
		e, err := body[relay.EngineAnswered](it)
		e.At = at
		return e, err
	}
	return nil, errors.New("a kind of event that this version does not know; run the same version everywhere")
}

func body[E any](it item) (e E, err error) {
	err = json.Unmarshal(it.Event, &e)
	return e, err
}

func (p packet) event(at time.Time) relay.PacketRead {
	e := relay.PacketRead{At: at, Feed: p.Feed}
	for _, from := range p.Parts {
		e.Parts = append(e.Parts, relay.Part{From: from.From, Count: from.Count, Head: from.Head, Tail: from.Tail, Text: string(from.Text)})
	}
	return e
}
