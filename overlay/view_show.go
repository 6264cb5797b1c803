package overlay

import (
	"sync/atomic"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

func showFrame(show *relay.Show) wire.Show {
	return wire.Show{
		Type: wire.TypeShow, Rev: show.HeadRev, Title: show.Title, Lang: show.Language(), Boards: len(show.Boards),
		Quiet: show.Quiet, Match: matchView(show.Match), Reference: referenceView(show.Reference),
	}
}

// feedsFrame says how the feeds do, and the journal that is kept at a place, "" for
// none. Note tells how a feed is watched; nil: nothing is worth telling.
func feedsFrame(show *relay.Show, kept string, note func(feed string) string) wire.Feeds {
	frame, _ := newFeedsLedger(nil, kept, note).since(ledgerHeld{}, show)
	return frame
}

// feedsLedger tells how every feed does.
type feedsLedger = ledger[*relay.Feed, wire.FeedItem, wire.Feeds]

// newFeedsLedger has it told with the journal kept at a place, and how each feed is watched; see
// Options.
func newFeedsLedger(count *atomic.Uint64, kept string, note func(feed string) string) *feedsLedger {
	if note == nil {
		note = func(string) string { return "" }
	}
	return &feedsLedger{
		count: count, rev: feedsRev,
		things: func(s *relay.Show) []*relay.Feed { return s.Feeds },
		row:    func(_ *relay.Show, f *relay.Feed) wire.FeedItem { return feedView(f, note(f.Name)) },
		stands: func(_ *relay.Show, f *relay.Feed, row wire.FeedItem) bool { return note(f.Name) == row.Note },
		frame: func(s *relay.Show, base uint64, rows []wire.FeedItem) wire.Feeds {
			verdict, fine := s.Verdict()
			return wire.Feeds{
				Type: wire.TypeFeeds, Rev: feedsRev(s), Base: base, Verdict: verdict, Fine: fine, Journal: journalView(s, kept),
				Items: rows, Engine: engineView(s.Engine), Second: engineView(s.Second),
				Bus: wire.Bus{Role: string(s.Bus.Role), Leader: s.Bus.Leader, Wrong: s.Bus.Wrong, Waiting: s.Bus.Waiting},
			}
		},
	}
}

// feedsRev grows with whatever feedsFrame tells: the verdict is of where the boards come from as well.
func feedsRev(show *relay.Show) uint64 { return show.FeedsRev + show.HereRev + show.SourcesRev }

func journalView(show *relay.Show, kept string) wire.Journal {
	switch {
	case show.Journal != "":
		return wire.Journal{State: wire.JournalFailing, Text: show.Journal}
	case kept != "":
		return wire.Journal{State: wire.JournalKept, Text: kept}
	}
	return wire.Journal{State: wire.JournalOff}
}

func feedView(f *relay.Feed, note string) wire.FeedItem {
	item := wire.FeedItem{
		Name: f.Name, Kind: f.Kind, BackupOf: f.BackupOf, Address: f.Address, State: string(f.State),
		EveryMs: f.Every.Milliseconds(), StaleMs: f.Stale.Milliseconds(), Games: f.Games,
		LastGood: milli(f.LastGood), LastNew: milli(f.LastNew), Faults: f.Faults,
		Reading: append([]string{}, f.Reading...), Rhythm: []wire.Beat{}, Followed: []wire.Span{}, Note: note,
	}
	if fault := f.LastFault; fault != nil {
		item.LastFault = &wire.FeedFault{At: fault.At.UnixMilli(), Reason: fault.Reason, Text: fault.Text}
	}
	if f.Learnt.Known() {
		late := f.Learnt.Late().Milliseconds()
		item.LateMs = &late
	}
	for _, beat := range f.Rhythm() {
		item.Rhythm = append(item.Rhythm, wire.Beat{At: beat.At.UnixMilli(), Kind: string(beat.Kind)})
	}
	for _, span := range f.Followed {
		item.Followed = append(item.Followed, wire.Span{From: milli(span.From), To: milli(span.To)})
	}
	return item
}

// milli is an instant on the wire; zero stays zero.
func milli(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMilli()
}
