package overlay

import (
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
	verdict, fine := show.Verdict()
	frame := wire.Feeds{
		Type: wire.TypeFeeds, Rev: feedsRev(show), Verdict: verdict, Fine: fine, Journal: journalView(show, kept), Items: []wire.FeedItem{}, Engine: engineView(show.Engine), Second: engineView(show.Second),
		Bus: wire.Bus{Role: string(show.Bus.Role), Leader: show.Bus.Leader, Wrong: show.Bus.Wrong, Waiting: show.Bus.Waiting},
	}
	for _, f := range show.Feeds {
		item := feedView(f)
		if note != nil {
			item.Note = note(f.Name)
		}
		frame.Items = append(frame.Items, item)
	}
	return frame
}

// feedsRev grows with whatever feedsFrame tells.
func feedsRev(show *relay.Show) uint64 { return show.FeedsRev + show.HereRev }

func journalView(show *relay.Show, kept string) wire.Journal {
	switch {
	case show.Journal != "":
		return wire.Journal{State: wire.JournalFailing, Text: show.Journal}
	case kept != "":
		return wire.Journal{State: wire.JournalKept, Text: kept}
	}
	return wire.Journal{State: wire.JournalOff}
}

func feedView(f *relay.Feed) wire.FeedItem {
	item := wire.FeedItem{
		Name: f.Name, Kind: f.Kind, BackupOf: f.BackupOf, Address: f.Address, State: string(f.State),
		EveryMs: f.Every.Milliseconds(), StaleMs: f.Stale.Milliseconds(), Games: f.Games,
		LastGood: milli(f.LastGood), LastNew: milli(f.LastNew), Faults: f.Faults,
		Reading: append([]string{}, f.Reading...), Rhythm: []wire.Beat{}, Followed: []wire.Span{},
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
