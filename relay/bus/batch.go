package bus

import "clocktell/relay"

// batch returns an event and those that wait behind it.
func batch(first relay.Event, in <-chan relay.Event) []relay.Event {
	events := []relay.Event{first}
	for len(events) < batchMost {
		select {
		case e := <-in:
			events = append(events, e)
		default:
			return events
		}
	}
	return events
}
