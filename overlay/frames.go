package overlay

import (
	"encoding/json"
	"sync"
	"sync/atomic"

	"clocktell/relay"
)

// frames encodes every state once, however many pages take it. It keeps the two newest
// states of each thing only: while some pages take the one, others may still be at the
// one before. Looking up what is encoded takes no lock, for thousands do it at once.
type frames struct {
	count *atomic.Uint64 // of encodings, of the whole server

	boards atomic.Pointer[[]*thing] // board n at index n-1
	parts  [partsMost]thing
	log    atomic.Pointer[logFrames]

	mu        sync.Mutex // protects following, and the growth of boards
	hidden    *frames    // of what scenes are sent during the challenge hiddenFor
	hiddenFor int
	guests    *frames // of what pages are sent that must not know what the engine says
	guestsFor relay.Hidden
}

func newFrames(count *atomic.Uint64) *frames {
	f := &frames{count: count}
	f.boards.Store(&[]*thing{})
	return f
}

// board returns the frame that brings a page from the revision it holds, 0 for
// none, to the board as it is.
func (f *frames) board(b *relay.Board, held uint64) message {
	state := f.boardThing(b.Number).at(b.Rev)
	if held != 0 && held+1 == b.Rev {
		return state.update.of(func() message { return f.encode(boardFrame(b, held)) })
	}
	return state.whole.of(func() message { return f.encode(boardFrame(b, 0)) })
}

func (f *frames) boardThing(number int) *thing {
	if boards := *f.boards.Load(); number <= len(boards) {
		return boards[number-1]
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	boards := *f.boards.Load()
	for len(boards) < number {
		boards = append(boards[:len(boards):len(boards)], new(thing)) // others read the one before
	}
	f.boards.Store(&boards)
	return boards[number-1]
}

// part returns the frame of a part of the show as it is.
func (f *frames) part(p part, show *relay.Show) message {
	return f.parts[p].at(parts[p].rev(show)).whole.of(func() message { return f.encode(parts[p].view(show)) })
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
		f.hidden, f.hiddenFor = newFrames(f.count), challenge
	}
	return f.hidden
}

// without returns the frames of pages that are told nothing of what the engine says of a
// board: under the same revision they have less to tell.
func (f *frames) without(h relay.Hidden) *frames {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.guests == nil || f.guestsFor != h {
		f.guests, f.guestsFor = newFrames(f.count), h
	}
	return f.guests
}

func (f *frames) encode(view any) message {
	f.count.Add(1)
	return framed(encode(view))
}

// thing is something of which pages are sent the newest state. The zero value has none.
type thing struct {
	states atomic.Pointer[twoStates]
	mu     sync.Mutex // of who makes a state
}

type twoStates struct{ newer, older *state }

// state is what has been encoded of one revision.
type state struct {
	rev           uint64
	whole, update encoding
}

func (s *twoStates) at(rev uint64) *state {
	switch {
	case s == nil:
		return nil
	case s.newer.rev == rev:
		return s.newer
	case s.older != nil && s.older.rev == rev:
		return s.older
	}
	return nil
}

// at returns the state of a revision, which need not be the newest: pages that are held
// back alike may yet be at two.
func (t *thing) at(rev uint64) *state {
	if s := t.states.Load().at(rev); s != nil {
		return s
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	kept := t.states.Load()
	if s := kept.at(rev); s != nil {
		return s
	}
	next := &twoStates{newer: &state{rev: rev}}
	if kept != nil {
		next.older = kept.newer
	}
	t.states.Store(next)
	return next.newer
}

// encoding is made by the first who needs it; others who come meanwhile wait for it.
type encoding struct {
	once    sync.Once
	message message
}

func (e *encoding) of(encode func() message) message {
	e.once.Do(func() { e.message = encode() })
	if e.message == nil {
		panic("a frame that could not be encoded") // for who came first, it was
	}
	return e.message
}

// encode never fails: frames are structs of strings and numbers.
func encode(frame any) []byte {
	data, err := json.Marshal(frame)
	if err != nil {
		panic(err)
	}
	return data
}
