package journal

import (
	"encoding/binary"
	"encoding/json"
	"fmt"

	"clocktell/relay"
)

// isWritten tells whether an event is written down. Others, such as the opening
// names, come anew with each start.
func isWritten(event relay.Event) bool {
	switch event.(type) {
	case relay.PacketRead, relay.FeedAnswered, relay.FeedFailed, relay.ByHand, relay.AtPanel, relay.AtDesk, relay.ReferenceAnswered, relay.EngineAnswered:
		return true
	}
	return false
}

// rowOf returns the row of an event; false if it is none that is written down.
// Answers without news go another way, see answers.
func (p *packer) rowOf(event relay.Event) (row, bool) {
	switch e := event.(type) {
	case relay.PacketRead:
		return row{kind: kindPacket, at: stamp(e.At), feed: e.Feed, n: 1, body: p.pack(e.Parts)}, true
	case relay.FeedFailed:
		body := append(appendText(nil, e.Reason), e.Text...)
		return row{kind: kindFailed, at: stamp(e.At), feed: e.Feed, n: 1, body: body}, true
	case relay.ByHand:
		return row{kind: kindHand, at: stamp(e.At), board: e.Board, n: 1, body: bodyOf(e)}, true
	case relay.AtPanel:
		return row{kind: kindPanel, at: stamp(e.At), n: 1, body: bodyOf(e)}, true
	case relay.AtDesk:
		return row{kind: kindDesk, at: stamp(e.At), n: 1, body: bodyOf(e)}, true
	case relay.ReferenceAnswered:
		return row{kind: kindKnown, at: stamp(e.At), board: e.Board, n: 1, body: bodyOf(e)}, true
	case relay.EngineAnswered:
		return row{kind: kindJudged, at: stamp(e.At), board: e.Board, n: 1, body: judgedBody(e)}, true
	}
	return row{}, false
}

func eventOr(err error, e relay.Event) ([]relay.Event, error) {
	if err != nil {
		return nil, errBody
	}
	return []relay.Event{e}, nil
}

// bodyOf returns an event of texts and numbers only as JSON.
func bodyOf(e relay.Event) []byte {
	body, err := json.Marshal(e)
	if err != nil {
		panic(err)
	}
	return body
}

// segmentRow returns the row that begins a segment, after a loss of that many
// events.
func segmentRow(at int64, lost uint64) row {
	return row{kind: kindSegment, at: at, n: 1, body: binary.AppendUvarint(nil, lost)}
}

func lostOf(r *row) (uint64, error) {
	in := reader{rest: r.body}
	return in.uvarint(), in.end()
}

// unknownKind is a kind of record that a later version wrote.
type unknownKind string

func (k unknownKind) Error() string {
	return fmt.Sprintf("records of kind %q are not known", string(k))
}

// eventsOf returns the events of a row, or an unknownKind. A segment has none.
func (u *unpacker) eventsOf(r *row) ([]relay.Event, error) {
	switch r.kind {
	case kindAnswers:
		return answersOf(r)
	case kindSegment:
		return nil, nil
	case kindPacket:
		parts, err := u.unpack(r.body)
		return []relay.Event{relay.PacketRead{At: timeOf(r.at), Feed: r.feed, Parts: parts}}, err
	case kindFailed:
		in := reader{rest: r.body}
		e := relay.FeedFailed{At: timeOf(r.at), Feed: r.feed, Reason: in.text(), Text: string(in.rest)}
		in.rest = nil
		return []relay.Event{e}, in.end()
	case kindHand:
		e := relay.ByHand{}
		err := json.Unmarshal(r.body, &e)
		e.At = timeOf(r.at)
		return eventOr(err, e)
	case kindPanel:
		e := relay.AtPanel{}
		err := json.Unmarshal(r.body, &e)
		e.At = timeOf(r.at)
		return eventOr(err, e)
	case kindDesk:
		e := relay.AtDesk{}
		err := json.Unmarshal(r.body, &e)
		e.At = timeOf(r.at)
		return eventOr(err, e)
	case kindKnown:
		e := relay.ReferenceAnswered{}
		err := json.Unmarshal(r.body, &e)
		e.At = timeOf(r.at)
		return eventOr(err, e)
	case kindJudged:
		return judgedOf(r)
	}
	return nil, unknownKind(r.kind)
}
