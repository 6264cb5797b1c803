package main

import (
	"encoding/json"
	"fmt"
	"hash/maphash"
	"slices"
	"time"

	"clocktell/overlay/wire"
)

// take takes a frame; watch.mu is held.
func (p *watched) take(data []byte) {
	var head struct {
		Type string
		Rev  uint64
	}
	if err := json.Unmarshal(data, &head); err != nil {
		p.w.wrong("%s: %v", p.name, err)
		return
	}
	p.w.frames++
	switch head.Type {
	case wire.TypeWelcome:
		p.welcome(read[wire.Welcome](data))
	case wire.TypeBoard:
		p.board(read[wire.Board](data))
	case wire.TypeLog:
		p.log(read[wire.Log](data))
	case wire.TypeFeeds:
		p.feeds = read[wire.Feeds](data) // of one process alone
	case wire.TypePong:
		pong, came := read[wire.Pong](data), time.Now()
		p.clocks = append(p.clocks, clockSeen{came: came, now: time.UnixMilli(pong.Now), roundTrip: came.Sub(watchBegan) - time.Duration(pong.T)*time.Millisecond})
	case wire.TypeTable:
		p.table = read[wire.Table](data)
		p.notes()
		fallthrough
	case wire.TypePrompts, wire.TypeShow, wire.TypeCaption:
		p.newer(head.Type, head.Rev, string(data))
	}
}

func read[F any](data []byte) (frame F) {
	if err := json.Unmarshal(data, &frame); err != nil {
		panic(err) // the head was read already
	}
	return frame
}

// welcome: another run is another show, of which the page knows nothing.
func (p *watched) welcome(f wire.Welcome) {
	if f.Run != p.run {
		p.run, p.line, p.seen, p.pliesAt = f.Run, 0, 0, nil
		p.ran++
		p.behind = make(map[string]time.Time)
		clear(p.revs)
		if !slices.Contains(p.w.runs, f.Run) {
			p.w.runs = append(p.w.runs, f.Run)
			p.w.lines[f.Run] = make(map[uint64]wire.LogLine)
		}
	}
}

var seed = maphash.MakeSeed()

// newer holds a frame of a revision against what this page was shown before, and against
// what others were shown of that revision.
func (p *watched) newer(what string, rev uint64, content string) {
	if p.moves {
		p.seeBehind(what, rev < p.revs[what])
	} else if rev < p.revs[what] {
		p.w.wrong("%s: %s of revision %d after %d", p.name, what, rev, p.revs[what])
	}
	p.revs[what] = max(p.revs[what], rev)
	key, sum := fmt.Sprintf("%s %s %d", p.run, what, rev), fmt.Sprint(maphash.String(seed, content))
	if was, known := p.w.shown[key]; known && was[:len(sum)] != sum && len(p.w.faults) < 20 {
		p.w.wrong("%s: %s %d differs from what another page was shown:\n%.1200s\nand\n%.1200s", p.name, what, rev, content, was[min(len(was), len(sum)):])
	} else if !known {
		p.w.shown[key] = sum + content[:min(len(content), 1200)]
	}
}

// behindMost is how long a page that has moved may be shown what is older than what it was
// shown where it came from: processes read the bus at their own pace.
const behindMost = 500 * time.Millisecond

func (p *watched) seeBehind(what string, older bool) {
	since, was := p.behind[what]
	switch {
	case older && !was:
		p.behind[what] = time.Now()
	case !older && was:
		delete(p.behind, what)
		p.older = max(p.older, time.Since(since))
		if time.Since(since) > behindMost {
			p.w.wrong("%s: was shown an older %s for %v after it had moved", p.name, what, time.Since(since))
		}
	}
}

func (p *watched) board(b wire.Board) {
	held, holds := p.boards[b.Board]
	switch {
	case b.Base == 0 && b.Keep == 0:
	case !holds || held.Rev != b.Base || b.Keep > len(held.Plies):
		p.w.wrong("%s: board %d of revision %d follows %d, the page holds %d", p.name, b.Board, b.Rev, b.Base, held.Rev)
		return
	default:
		b.Plies = append(slices.Clip(held.Plies[:b.Keep]), b.Plies...)
	}
	if was := sans(held); holds && (len(b.Plies) < len(was) || !slices.Equal(sans(b)[:len(was)], was)) {
		p.w.wrong("%s: board %d had %d plies and has %d, although nobody took anything back", p.name, b.Board, len(was), len(b.Plies))
	}
	p.newer(fmt.Sprint("board ", b.Board), b.Rev, heldEqual(b))
	p.boards[b.Board], p.seen = b, max(p.seen, b.At)
	p.countPlies()
}

// log: a page leaves out the lines that it has. Of the others none is missing, unless more
// have come meanwhile than it is sent when it comes.
func (p *watched) log(f wire.Log) {
	lines := p.w.lines[p.run]
	for _, line := range f.Items {
		if line.Seq <= p.line {
			if p.moves {
				p.w.wrong("%s: line %d comes twice", p.name, line.Seq)
			}
			if was, known := lines[line.Seq]; known && was != line {
				p.w.wrong("%s: line %d is %+v, and was %+v", p.name, line.Seq, line, was)
			}
			continue
		}
		if missed := line.Seq - p.line - 1; p.line > 0 && missed > 0 {
			p.w.wrong("%s: line %d after %d", p.name, line.Seq, p.line)
		}
		p.line = line.Seq
		p.w.told++
		if was, known := lines[line.Seq]; known && was != line {
			p.w.wrong("%s: line %d is %+v, elsewhere %+v", p.name, line.Seq, line, was)
		}
		lines[line.Seq] = line
	}
}

// notes: those at the table are numbered by who wrote them; none is missing, none is there twice.
func (p *watched) notes() {
	last := -1
	for _, note := range p.table.Notes {
		var n int
		if _, err := fmt.Sscanf(note.Text, "note %d", &n); err != nil {
			continue
		}
		if last >= 0 && n != last+1 {
			p.w.wrong("%s: note %d after %d", p.name, n, last)
		}
		last = n
	}
}
