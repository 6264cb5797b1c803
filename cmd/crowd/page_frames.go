package main

import (
	"encoding/json"
	"math/rand/v2"
	"sync"
	"time"

	"clocktell/overlay/wire"
)

// buffers are shared: few pages read a frame at the same time.
var buffers = sync.Pool{New: func() any { return new([]byte) }}

// readOne takes one frame.
func (p *page) readOne(l *line, began time.Time) error {
	if _, err := l.in.Peek(1); err != nil { // so that no buffer is held by a page that waits
		return err
	}
	buf := buffers.Get().(*[]byte)
	defer buffers.Put(buf)
	data, err := l.read(*buf)
	if err != nil {
		return err
	}
	now := p.now()
	*buf = data[:0]
	p.counts.frames.Add(1)
	p.counts.bytes.Add(uint64(len(data)))
	p.counts.wire.Add(uint64(onWire(len(data))))
	f, err := p.decoder.read(data)
	p.mu.Lock()
	defer p.mu.Unlock()
	if err != nil {
		p.breach(breachShape, "%.60s: %v", data, err)
		return nil
	}
	p.countKind(f, len(data))
	return p.take(l, f, began, now)
}

// countKind counts pongs, and boards that follow on another.
func (p *page) countKind(f *frame, size int) {
	switch {
	case f.kind == wire.TypePong:
		p.counts.pongs.Add(1)
	case f.kind == wire.TypeBoard && p.verifier.boards[f.board.Board] != nil:
		p.counts.boards.Add(1)
		p.counts.boardBytes.Add(uint64(size))
		p.counts.boardWire.Add(uint64(onWire(size)))
	}
}

// take is what the page does with a frame.
func (p *page) take(l *line, f *frame, began, now time.Time) error {
	n := p.verifier.take(f, now)
	switch f.kind {
	case wire.TypeWelcome:
		p.verifier.clock.sample(began, now, f.welcome.Now)
		p.line, p.every, p.first, p.unanswered = l, time.Duration(f.welcome.PingEveryMs)*time.Millisecond, firstPings, 0
		p.counts.open.Add(1)
		p.counts.came.Add(1)
		if p.at != nil && p.at != p.stay.place {
			p.counts.moved.Add(1)
		}
		p.at = p.stay.place
		p.came = now
		p.due = now.Add(time.Duration(rand.Int64N(int64(p.every)))) // a crowd does not come in step
		p.leave = now.Add(stayLeast + time.Duration(rand.Int64N(int64(stayMost-stayLeast))))
		return p.ping(now)
	case wire.TypePong:
		p.unanswered = 0
		p.verifier.clock.sample(p.began.Add(time.Duration(f.pong.T*float64(time.Millisecond))), now, f.pong.Now)
		if p.first--; p.first > 0 {
			return p.ping(now)
		}
	case wire.TypeBoard:
		p.measure(n, f.board.Board, now)
	}
	if n.again != 0 {
		return p.send(wire.Again{Type: wire.TypeAgain, Board: n.again})
	}
	return nil
}

// measure counts how late a board came. What is held back, or reads slowly, is late by design.
func (p *page) measure(n news, board int, now time.Time) {
	if p.verifier.want.hold > 0 || p.temper == slow {
		return
	}
	late := p.tally.lateness()
	if least, most, ok := p.verifier.clock.bounds(now); ok && n.at != 0 {
		took := least.Add(most.Sub(least) / 2).Sub(time.UnixMilli(n.at))
		late.packet.add(took)
		if p.stay.place.edge {
			late.atEdge.add(took)
		} else {
			late.atRelay.add(took)
		}
		if len(p.late) < lateMost {
			p.late = append(p.late, max(0, took.Milliseconds()))
		}
	}
	if n.at != 0 && len(p.places) > 1 {
		p.tally.race.see(board, p.verifier.boards[board].rev, p.stay.place.edge, now)
	}
	if n.at != 0 && !n.played.IsZero() {
		late.move.add(now.Sub(n.played))
	}
}

func (p *page) ping(now time.Time) error {
	t := float64(p.now().Sub(p.began).Microseconds()) / 1000 // cut off, and so never later than it was
	err := p.send(wire.Ping{Type: wire.TypePing, T: t, Late: append([]int64{}, p.late...)})
	p.late = p.late[:0]
	p.due = now.Add(p.every)
	return err
}

func (p *page) send(frame any) error {
	data, err := json.Marshal(frame)
	if err != nil {
		return err
	}
	return p.line.write(opText, data)
}
