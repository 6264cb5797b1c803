package overlay

import (
	"encoding/json"
	"sync"

	"clocktell/relay"
)

// frames encodes every state once, however many pages take it. It keeps the
// newest frame of each thing only.
type frames struct {
	journal string                   // where it is kept, "" for nowhere
	note    func(feed string) string // how a feed is watched

	mu     sync.Mutex // protects following
	boards map[int]*boardFrames
	others map[string]revFrame

	hidden    *frames // of what scenes are sent during the challenge hiddenFor
	hiddenFor int
	guests    *frames // of what pages are sent that must not know what the engine says
	guestsFor relay.Hidden
}

type boardFrames struct {
	state         *relay.Board
	whole, update []byte // nil until somebody needs it
}

type revFrame struct {
	rev  uint64
	data []byte
}

func newFrames(journal string, note func(feed string) string) *frames {
	return &frames{journal: journal, note: note, boards: make(map[int]*boardFrames), others: make(map[string]revFrame)}
}

// board returns the frame that brings a page from the revision it holds, 0 for
// none, to the board as it is.
func (f *frames) board(b *relay.Board, held uint64) []byte {
	f.mu.Lock()
	defer f.mu.Unlock()
	kept := f.boards[b.Number]
	if kept == nil || kept.state.Rev != b.Rev {
		kept = &boardFrames{state: b}
		f.boards[b.Number] = kept
	}
	if held != 0 && held+1 == b.Rev {
		if kept.update == nil {
			kept.update = encode(boardFrame(b, held))
		}
		return kept.update
	}
	if kept.whole == nil {
		kept.whole = encode(boardFrame(b, 0))
	}
	return kept.whole
}

func (f *frames) show(show *relay.Show) []byte {
	return f.once("show", show.HeadRev, func() any { return showFrame(show) })
}

func (f *frames) feeds(show *relay.Show) []byte {
	return f.once("feeds", show.FeedsRev, func() any { return feedsFrame(show, f.journal, f.note) })
}

func (f *frames) sources(show *relay.Show) []byte {
	return f.once("sources", show.SourcesRev, func() any { return sourcesFrame(show) })
}

func (f *frames) prompts(show *relay.Show) []byte {
	return f.once("prompts", show.Said.Rev, func() any { return promptsFrame(show) })
}

func (f *frames) table(show *relay.Show) []byte {
	return f.once("table", show.Table.Rev, func() any { return tableFrame(show) })
}

func (f *frames) caption(show *relay.Show) []byte {
	return f.once("caption", show.OnAir.Rev, func() any { return captionFrame(show) })
}

func (f *frames) holds(show *relay.Show) []byte {
	return f.once("holds", show.Holds.Rev, func() any { return holdsFrame(show) })
}

func (f *frames) air(show *relay.Show) []byte {
	return f.once("air", show.Desk.AirRev, func() any { return airFrame(show) })
}

func (f *frames) desk(show *relay.Show) []byte {
	return f.once("desk", show.Desk.Rev, func() any { return deskFrame(show) })
}

// during returns the frames of what scenes are sent during a challenge, 0 for the frames
// of every day: under the same revision a board then has less to tell.
func (f *frames) during(challenge int) *frames {
	if challenge == 0 {
		return f
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.hidden == nil || f.hiddenFor != challenge {
		f.hidden, f.hiddenFor = newFrames(f.journal, f.note), challenge
	}
	return f.hidden
}

func (f *frames) opinions(show *relay.Show) []byte {
	return f.once("opinions", show.OpinionsRev, func() any { return opinionsFrame(show) })
}

// without returns the frames of pages that are told nothing of what the engine says of a
// board: under the same revision they have less to tell.
func (f *frames) without(h relay.Hidden) *frames {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.guests == nil || f.guestsFor != h {
		f.guests, f.guestsFor = newFrames(f.journal, f.note), h
	}
	return f.guests
}

func (f *frames) once(name string, rev uint64, make func() any) []byte {
	f.mu.Lock()
	defer f.mu.Unlock()
	if kept, ok := f.others[name]; ok && kept.rev == rev {
		return kept.data
	}
	data := encode(make())
	f.others[name] = revFrame{rev, data}
	return data
}

// encode never fails: frames are structs of strings and numbers.
func encode(frame any) []byte {
	data, err := json.Marshal(frame)
	if err != nil {
		panic(err)
	}
	return data
}
