package cue

import (
	"fmt"
	"time"

	"clocktell/relay"
)

// Tape is a recording of one channel.
type Tape struct {
	Group   string // of scenes; "" a channel that is not held back
	Channel Channel
	Rate    Rate
	Start   time.Time // of its first picture
	First   int64     // that picture's number, as its timecode counts
	Ends    time.Time // when the next recording begins, or the channel has shown the whole show
}

// Tapes returns the recordings of a group's channel, the earliest first: one for each of
// the marks that are meant for it. Without any the recording begins with the show. The
// error names a mark whose timecode there is not at that rate.
func (l *Log) Tapes(rate Rate, group string, marks []relay.StartMark) ([]Tape, error) {
	var out []Tape
	for _, m := range marks {
		if m.Group != "" && m.Group != group {
			continue
		}
		tape := Tape{Group: group, Channel: l.Channel(group), Rate: rate, Start: m.At}
		if m.Timecode != "" {
			var err error
			if tape.First, err = rate.Parse(m.Timecode); err != nil {
				return nil, fmt.Errorf("the recording from %s on: %w", m.At.Format(time.RFC3339), err)
			}
		}
		if n := len(out); n > 0 && out[n-1].Start.Equal(tape.Start) {
			out[n-1] = tape // of this group, behind that of any
			continue
		}
		out = append(out, tape)
	}
	if len(out) == 0 {
		out = []Tape{{Group: group, Channel: l.Channel(group), Rate: rate, Start: l.Began}}
	}
	for i := range out {
		if out[i].Ends = out[i].Channel.Aired(l.Ended); i+1 < len(out) && out[i+1].Start.Before(out[i].Ends) {
			out[i].Ends = out[i+1].Start.Add(-1) // what is shown at that instant is in the next
		}
	}
	return out, nil
}

// Placed is a cue with its place in a recording.
type Placed struct {
	Cue
	After time.Duration // since the first picture
	Frame int64         // on screen then, as the timecode counts
}

// Place returns those cues that the recording has, the earliest first.
func (t Tape) Place(cues []Cue) []Placed {
	var out []Placed
	for _, c := range cues {
		aired := t.Channel.Aired(c.At)
		if aired.Before(t.Start) || aired.After(t.Ends) {
			continue
		}
		after := aired.Sub(t.Start)
		out = append(out, Placed{Cue: c, After: after, Frame: t.First + t.Rate.Frames(after)})
	}
	return out
}
