package relay

import (
	"slices"
	"time"
)

// The rhythm kept of a feed.
const (
	rhythmSpan  = 5 * time.Minute
	rhythmMost  = 900 // beats
	rhythmChunk = 32
)

// BeatKind tells the beats of a rhythm apart.
type BeatKind string

// The beats.
const (
	BeatSame  BeatKind = "same"  // an answer with nothing new
	BeatNew   BeatKind = "new"   // an answer with something new
	BeatFault BeatKind = "fault" // no answer, or none of use
)

// Beat is one answer or failure.
type Beat struct {
	At   time.Time
	Kind BeatKind
}

// rhythm is when a feed was heard lately. Like everything in a Show it is never changed: with
// copies one chunk at the most, for a feed may answer ten times a second.
type rhythm struct {
	chunks [][]Beat // oldest first
	gone   int      // beats of the first of them that are too long ago
	newest []Beat
}

// with returns the rhythm with another beat, and without those that are too long ago then.
func (r rhythm) with(b Beat) rhythm {
	for first, n := r.first(); n > 0 && (b.At.Sub(first.At) > rhythmSpan || n >= rhythmMost); first, n = r.first() {
		r = r.withoutFirst()
	}
	r.newest = append(make([]Beat, 0, len(r.newest)+1), r.newest...)
	r.newest = append(r.newest, b)
	if len(r.newest) >= rhythmChunk {
		r.chunks, r.newest = append(slices.Clip(r.chunks), r.newest), nil
	}
	return r
}

// first returns the oldest beat, and how many there are.
func (r rhythm) first() (Beat, int) {
	n := len(r.newest) - r.gone
	for _, chunk := range r.chunks {
		n += len(chunk)
	}
	switch {
	case len(r.chunks) > 0:
		return r.chunks[0][r.gone], n
	case n > 0:
		return r.newest[0], n
	}
	return Beat{}, 0
}

func (r rhythm) withoutFirst() rhythm {
	switch {
	case len(r.chunks) == 0:
		r.newest = r.newest[1:]
	case r.gone+1 == len(r.chunks[0]):
		r.chunks, r.gone = r.chunks[1:], 0
	default:
		r.gone++
	}
	return r
}

// Rhythm returns when the feed was heard in the last five minutes, oldest first.
func (f *Feed) Rhythm() []Beat {
	all := slices.Concat(append(slices.Clip(f.beats.chunks), f.beats.newest)...)
	return all[f.beats.gone:]
}
