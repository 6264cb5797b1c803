package overlay

import (
	"fmt"
	"slices"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/clock"
)

// parseByHand reads what the producer enters.
func parseByHand(body []byte, at time.Time) (string, relay.Event, error) {
	var entry wire.Entry
	if err := decodeEntry(body, &entry); err != nil {
		return "", nil, err
	}
	e := relay.ByHand{
		At: at, ID: entry.ID, Board: entry.Board, Act: relay.Act(entry.Act), Ply: entry.Ply, SAN: entry.SAN,
		Side: entry.Side, Text: entry.Text, Feed: entry.Feed, Keep: entry.Keep, Asked: entry.Asked, Timecode: entry.Timecode,
	}
	var err error
	switch {
	case !slices.Contains(relay.Acts, e.Act):
		err = fmt.Errorf("there is no act %q; the acts are %v", e.Act, relay.Acts)
	case e.Act == relay.ActClock:
		e.Left, err = clock.ParseReading(entry.Clock)
	case e.Act == relay.ActHold:
		e.For, err = relay.ParseHold(entry.Hold)
	case e.Act == relay.ActRecording && entry.Mark == "":
		e.Mark = at // for good: an entry's own time changes where a recording's beginning is deleted
	case e.Act == relay.ActRecording:
		if e.Mark, err = time.Parse(time.RFC3339Nano, entry.Mark); err != nil {
			err = fmt.Errorf("%.40q is no time; one is written 2026-11-26T19:00:00+01:00", entry.Mark)
		}
	}
	return e.ID, e, err
}
