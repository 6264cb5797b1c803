package overlay

import (
	"reflect"
	"slices"
	"sync"
	"sync/atomic"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// sourceRows is where every board comes from, a row for each with when it last changed: a page is
// sent those rows that are others than it holds, so that a move costs what its board has to tell
// and not what the hall has. Changes are counted here and not in a show's revisions: a page may
// come with a show that is older than the one before.
type sourceRows struct {
	count *atomic.Uint64 // of encodings, of the whole server

	mu      sync.Mutex // protects following
	rev     uint64     // of the sources that the rows are of
	changes uint64     // so often there were others
	rows    []sourceRow
	newest  sentRows // what a page was sent last, for those that hold the same
}

// sourceRow is one board's; board n has index n-1.
type sourceRow struct {
	board *relay.Board // that the row is of
	row   wire.BoardSources
	since uint64 // the change that made it so
}

// sourcesHeld is what a page holds. The zero value holds nothing.
type sourcesHeld struct {
	rev     uint64 // of the sources
	changes uint64 // as far as which it has the rows
	errors  uint64 // as far as which it has the errors of running clocks, by their number
}

// sentRows is a frame that brings pages from what they hold to what there is.
type sentRows struct {
	from, to sourcesHeld
	frame    message
}

// newRows returns the frame that brings a page from what it holds to the sources of a show,
// and notes that it holds them. Pages that hold the same are sent the same frame.
func (s *sourceRows) newRows(held *sourcesHeld, show *relay.Show) message {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.newest.from != *held || s.newest.to.rev != show.SourcesRev {
		frame, to := s.after(*held, show)
		s.newest = sentRows{from: *held, to: to, frame: framed(encode(frame))}
		s.count.Add(1)
	}
	*held = s.newest.to
	return s.newest.frame
}

// after returns what newRows encodes, and what a page holds with it.
func (s *sourceRows) after(held sourcesHeld, show *relay.Show) (wire.Sources, sourcesHeld) {
	if s.rev != show.SourcesRev {
		s.look(show)
	}
	frame := wire.Sources{
		Type: wire.TypeSources, Base: held.rev, Rev: s.rev, Items: []wire.BoardSources{},
		Errors: clockErrors(show.ClockErrorsAfter(held.errors)),
	}
	for _, row := range s.rows {
		if row.since > held.changes {
			frame.Items = append(frame.Items, row.row)
		}
	}
	return frame, sourcesHeld{rev: s.rev, changes: s.changes, errors: show.ClockErrorsTold()}
}

// look brings the rows up to a show.
func (s *sourceRows) look(show *relay.Show) {
	s.rev = show.SourcesRev
	s.changes++
	s.rows = s.rows[:min(len(s.rows), len(show.Boards))]
	for i, b := range show.Boards {
		switch {
		case i == len(s.rows):
			s.rows = append(s.rows, sourceRow{board: b, row: boardSources(show, b), since: s.changes})
		case !s.rows[i].stands(show, b):
			s.rows[i].turn(b, boardSources(show, b), s.changes)
		}
	}
}

// stands reports that a row is as it was: it tells of its board, and what is thought of its offers
// in the light of their feeds.
func (r *sourceRow) stands(show *relay.Show, b *relay.Board) bool {
	return b == r.board && slices.EqualFunc(b.Offers, r.row.Offers, func(o *relay.Offer, view wire.Offer) bool {
		return show.OfferDoubt(o) == view.Text
	})
}

// turn makes a row that of a board, which may have changed in other things.
func (r *sourceRow) turn(b *relay.Board, row wire.BoardSources, change uint64) {
	r.board = b
	if !reflect.DeepEqual(row, r.row) {
		r.row, r.since = row, change
	}
}
