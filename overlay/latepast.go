package overlay

import (
	"slices"
	"strings"
	"time"

	"clocktell/overlay/wire"
)

const (
	latePiece  = 5 * time.Second
	latePieces = 120  // ten minutes
	lateOfOne  = 1000 // figures kept of a piece; the worst is kept beyond
)

// latePast remembers how late pages drew, in pieces of wall time. The zero value
// remembers nothing.
type latePast struct {
	pieces []latePieceOf // oldest first, none missing between
}

// latePieceOf is what pages told in one piece of time.
type latePieceOf struct {
	at             int64   // which piece of time, counted from 1970
	scenes         []int64 // until it is over, when their middle takes their place
	middle         *int64  // of a piece that is over; nil: of no scene
	worst, another int64   // of scenes and of other pages, milliseconds; below 0 none
}

// middleNow is the middle of the figures of scenes so far, nil of none.
func (l *latePieceOf) middleNow() *int64 {
	if n := len(l.scenes); n > 0 {
		return &slices.Sorted(slices.Values(l.scenes))[(n-1)/2]
	}
	return l.middle
}

// add takes what a page has told.
func (l *latePast) add(page string, figures []int64, wall time.Time) {
	if len(figures) == 0 {
		return
	}
	l.reach(wall)
	piece := &l.pieces[len(l.pieces)-1]
	if !strings.HasPrefix(page, "scene/") {
		piece.another = max(piece.another, slices.Max(figures))
		return
	}
	piece.worst = max(piece.worst, slices.Max(figures))
	piece.scenes = append(piece.scenes, figures[:min(len(figures), lateOfOne-len(piece.scenes))]...)
}

// reach goes on to the piece of time that wall lies in. A clock that was set back
// goes on where it was.
func (l *latePast) reach(wall time.Time) {
	now := wall.UnixNano() / int64(latePiece)
	from := now - latePieces + 1
	if n := len(l.pieces); n > 0 {
		last := &l.pieces[n-1]
		from = max(from, last.at+1)
		if from <= now {
			middle := last.middleNow() // once, and not whenever somebody asks for the past
			last.middle, last.scenes = middle, nil
		}
	}
	for at := from; at <= now; at++ {
		l.pieces = append(l.pieces, latePieceOf{at: at, worst: -1, another: -1})
	}
	l.pieces = slices.Clone(l.pieces[max(0, len(l.pieces)-latePieces):])
}

// view returns it as it is sent, up to wall.
func (l *latePast) view(wall time.Time) wire.LatePast {
	l.reach(wall)
	past := wire.LatePast{PieceMs: latePiece.Milliseconds()}
	for _, piece := range l.pieces {
		past.SceneMiddle = append(past.SceneMiddle, piece.middleNow())
		past.SceneWorst = append(past.SceneWorst, known(piece.worst))
		past.OtherWorst = append(past.OtherWorst, known(piece.another))
	}
	return past
}

func known(ms int64) *int64 {
	if ms < 0 {
		return nil
	}
	return &ms
}
