package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"hash/maphash"
	"strconv"
	"sync"

	"clocktell/overlay/wire"
)

// frame is as much of a frame as a page is verified by.
type frame struct {
	kind    string
	rev     uint64 // of the state that it carries; 0: it carries none
	base    uint64 // revision that the feeds or the sources follow on; 0: none
	board   *boardFrame
	lines   []uint64 // numbers of lines of the log
	welcome wire.Welcome
	pong    wire.Pong
}

// boardFrame is as much of a wire.Board.
type boardFrame struct {
	Board  int
	Base   uint64
	Rev    uint64
	At     int64
	Round  string
	Table  string
	Keep   int
	Plies  []struct{ SAN string }
	Result string
}

var errShape = errors.New("a frame of a shape that PROTOCOL.md does not have")

// revved are the frames that carry a state; their revision only rises.
var revved = map[string]bool{
	wire.TypeShow: true, wire.TypePrompts: true, wire.TypeTable: true, wire.TypeCaption: true, wire.TypeAir: true, wire.TypeDesk: true,
	wire.TypeFeeds: true, wire.TypeSources: true, wire.TypeHolds: true, wire.TypeOpinions: true,
}

// based are those that follow on the one before, the first of them on none.
var based = map[string]bool{wire.TypeFeeds: true, wire.TypeSources: true}

var unrevved = map[string]bool{
	wire.TypeWelcome: true, wire.TypeBoard: true, wire.TypeLog: true, wire.TypePong: true, wire.TypeTime: true, wire.TypePages: true, wire.TypePeople: true,
}

// decode reads a frame. What only this page got is read each time, see decoder.
func decode(data []byte) (*frame, error) {
	kind := kindOf(data)
	f := &frame{kind: kind}
	var err error
	switch {
	case kind == wire.TypeWelcome:
		err = json.Unmarshal(data, &f.welcome)
	case kind == wire.TypePong:
		err = json.Unmarshal(data, &f.pong)
	case kind == wire.TypeBoard:
		f.board = new(boardFrame)
		err = json.Unmarshal(data, f.board)
	case kind == wire.TypeLog:
		err = f.readLog(data)
	case based[kind]:
		var head struct{ Rev, Base uint64 }
		err = json.Unmarshal(data, &head)
		f.rev, f.base = head.Rev, head.Base
	case revved[kind]:
		f.rev, err = revOf(data, kind)
	case !unrevved[kind]:
		return nil, errShape
	}
	if err == nil && !json.Valid(data) {
		err = errShape
	}
	return f, err
}

func (f *frame) readLog(data []byte) error {
	var log struct{ Items []struct{ Seq uint64 } }
	if err := json.Unmarshal(data, &log); err != nil {
		return err
	}
	for _, line := range log.Items {
		f.lines = append(f.lines, line.Seq)
	}
	return nil
}

// The relay writes a frame's fields in the order of wire.go: type first, then rev.
const typeHead, revHead = `{"type":"`, `","rev":`

func kindOf(data []byte) string {
	rest, ok := bytes.CutPrefix(data, []byte(typeHead))
	end := bytes.IndexByte(rest, '"')
	if !ok || end < 0 {
		return ""
	}
	return string(rest[:end])
}

func revOf(data []byte, kind string) (uint64, error) {
	rest, ok := bytes.CutPrefix(data[len(typeHead)+len(kind):], []byte(revHead))
	end := bytes.IndexByte(rest, ',')
	if !ok || end < 0 {
		return 0, errShape
	}
	return strconv.ParseUint(string(rest[:end]), 10, 64)
}

// generationMost is how many frames a decoder keeps before it begins to forget the oldest.
const generationMost = 2000

// decoder reads each frame once, however many pages got it, as the relay encodes it once:
// frames of the same bytes are the same. It keeps the last frames, in two generations.
type decoder struct {
	seed maphash.Seed

	mu       sync.Mutex // protects following
	new, old map[uint64]*frame
}

func newDecoder() *decoder {
	return &decoder{seed: maphash.MakeSeed(), new: make(map[uint64]*frame), old: make(map[uint64]*frame)}
}

// read returns a frame that nobody may change.
func (d *decoder) read(data []byte) (*frame, error) {
	switch kindOf(data) {
	case wire.TypePong, wire.TypeWelcome, wire.TypePages:
		return decode(data) // another one for every page
	}
	key := maphash.Bytes(d.seed, data)
	d.mu.Lock()
	f := d.new[key]
	if f == nil {
		f = d.old[key]
	}
	d.mu.Unlock()
	if f != nil {
		return f, nil
	}
	f, err := decode(data)
	if err != nil {
		return nil, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.new) >= generationMost {
		d.new, d.old = make(map[uint64]*frame), d.new
	}
	d.new[key] = f
	return f, nil
}
