package journal

import (
	"encoding/binary"
	"slices"
	"time"

	"clocktell/relay"
)

// answers is a run of answers without news, which make up most events of a show:
// one a second from each feed. It becomes one record, whose body is the number
// of feeds, their names, and for each answer its feed's place among them (left
// out if there is only one) and its time less that of the answer before, in ns.
type answers struct {
	feeds []string
	which []int
	at    []int64
}

func (a *answers) add(e relay.FeedAnswered) {
	i := slices.Index(a.feeds, e.Feed)
	if i < 0 {
		i = len(a.feeds)
		a.feeds = append(a.feeds, e.Feed)
	}
	a.which = append(a.which, i)
	a.at = append(a.at, stamp(e.At))
}

func (a *answers) len() int { return len(a.at) }

// row returns the run as a row. There is at least one answer.
func (a *answers) row() row {
	body := binary.AppendUvarint(nil, uint64(len(a.feeds)))
	for _, feed := range a.feeds {
		body = appendText(body, feed)
	}
	before := a.at[0]
	for i, at := range a.at {
		if len(a.feeds) > 1 {
			body = binary.AppendUvarint(body, uint64(a.which[i]))
		}
		body = binary.AppendVarint(body, at-before)
		before = at
	}
	r := row{kind: kindAnswers, at: a.at[0], n: len(a.at), body: body}
	if len(a.feeds) == 1 {
		r.feed = a.feeds[0]
	}
	return r
}

func answersOf(r *row) ([]relay.Event, error) {
	in := reader{rest: r.body}
	n := in.uvarint()
	if n > uint64(len(in.rest)) || r.n > len(in.rest) {
		return nil, errBody // each takes a byte at least
	}
	feeds := make([]string, n)
	for i := range feeds {
		feeds[i] = in.text()
	}
	events, at, feed := make([]relay.Event, 0, r.n), r.at, uint64(0)
	for range r.n {
		if n > 1 {
			feed = in.uvarint()
		}
		if feed >= n {
			return nil, errBody
		}
		at += in.varint()
		events = append(events, relay.FeedAnswered{At: timeOf(at), Feed: feeds[feed]})
	}
	return events, in.end()
}

// lastAt returns the time of the last event of a row.
func lastAt(r *row) (time.Time, error) {
	if r.kind != kindAnswers {
		return timeOf(r.at), nil
	}
	events, err := answersOf(r)
	if err != nil || len(events) == 0 {
		return time.Time{}, errBody
	}
	return events[len(events)-1].When(), nil
}
