// Package enginetest is an engine for tests, and does what no engine should. A test
// binary plays it when it is started with the arguments of Args; Play plays it over
// pipes. faults.go has the list of what it can do wrong.
package enginetest

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"golang.org/x/sync/errgroup"

	"clocktell/relay/bitboard"
)

// argument is the first argument of a test binary that is to be an engine.
const argument = "play-engine"

// Args returns the arguments with which a test binary plays the engine with a fault. Into
// folder it writes the number of each of its processes; it has the fault in the first
// lives lives only, always with 0.
func Args(fault, folder string, lives int) []string {
	return []string{argument, fault, folder, strconv.Itoa(lives)}
}

// PlayIfAsked plays the engine and ends the process, if Args says so. It is to be called
// first in TestMain.
func PlayIfAsked() {
	if len(os.Args) != 5 || os.Args[1] != argument {
		return
	}
	folder := os.Args[3]
	lives, _ := strconv.Atoi(os.Args[4])
	before, _ := filepath.Glob(filepath.Join(folder, "life-*"))
	note(folder, "life", os.Getpid())
	fault := os.Args[2]
	if lives > 0 && len(before) >= lives {
		fault = ""
	}
	if fault == "closes its input" {
		deaf()
	}
	p := &player{out: os.Stdout, fault: Faults[fault], folder: folder}
	p.run(os.Stdin)
	os.Exit(0)
}

func note(folder, kind string, pid int) {
	os.WriteFile(filepath.Join(folder, fmt.Sprintf("%s-%d", kind, pid)), nil, 0o600)
}

// Play plays the engine with a fault, "" for none, until it is told to quit or hears no
// more.
func Play(in io.Reader, out io.Writer, fault string) {
	p := &player{out: out, fault: Faults[fault]}
	if fault == Spoilt {
		p.fault = spoilt
	}
	p.run(in)
}

// player is the engine.
type player struct {
	out    io.Writer
	lines  chan string // heard; closed at the end
	fault  Fault       // nil: none
	folder string

	place    bitboard.Position
	several  int // lines
	searches int // begun
	quits    bool
}

// run reads in a goroutine of its own: a search hears what comes meanwhile.
func (p *player) run(in io.Reader) {
	p.lines, p.several, p.place = make(chan string), 1, bitboard.Start()
	quit := make(chan struct{})
	var group errgroup.Group
	group.Go(func() error {
		defer close(p.lines)
		scanner := bufio.NewScanner(in)
		for scanner.Scan() {
			select {
			case p.lines <- scanner.Text():
			case <-quit:
				return nil
			}
		}
		return nil
	})
	for line := range p.lines {
		if p.obey(strings.Fields(line)); p.quits {
			break
		}
	}
	close(quit)
	if c, ok := in.(io.Closer); ok {
		c.Close()
	}
	group.Wait()
}

func (p *player) say(format string, args ...any) { fmt.Fprintf(p.out, format+"\n", args...) }

func (p *player) obey(words []string) {
	if len(words) == 0 || p.fault != nil && p.fault(p, words) {
		return
	}
	p.does(words)
}

// does is what an engine does that is in order.
func (p *player) does(words []string) {
	switch words[0] {
	case "uci":
		p.say("id name Fault Engine\nid author nobody\noption name MultiPV type spin default 1 min 1 max 9\noption name UCI_ShowWDL type check default false\nuciok")
	case "isready":
		p.say("readyok")
	case "setoption":
		if n := len(words); n == 5 && words[2] == "MultiPV" {
			p.several, _ = strconv.Atoi(words[4])
		}
	case "position":
		p.takePosition(words[1:])
	case "go":
		p.search(words[1:])
	case "quit":
		p.quits = true
	}
}

func (p *player) takePosition(words []string) {
	moves := slices.Index(words, "moves")
	fen := words
	if moves >= 0 {
		fen, words = words[:moves], words[moves+1:]
	} else {
		words = nil
	}
	p.place, _ = bitboard.ParseFEN(strings.Join(fen[1:], " "))
	for _, text := range words {
		for _, m := range p.moves() {
			if m.String() == text {
				p.place.Make(m)
				break
			}
		}
	}
}

func (p *player) moves() []bitboard.Move {
	return p.place.Moves(make([]bitboard.Move, 0, bitboard.MaxMoves))
}

// depth is how deep it looks, or says it does.
const depth = 10

// search says all it knows at once and takes its time.
func (p *player) search(words []string) {
	p.searches++
	moves := p.moves()
	for d := 1; d <= depth; d++ {
		for i, m := range moves[:min(len(moves), p.several)] {
			p.say("info depth %d seldepth %d multipv %d score cp %d wdl 300 500 200 nodes %d nps 1000 time 1 pv %s", d, d, i+1, 50-10*i, 100*d, m)
		}
	}
	p.ponder(words)
	if len(moves) > 0 {
		p.say("bestmove %s", moves[0])
	} else {
		p.say("bestmove (none)")
	}
}

// ponder waits for the end of the search.
func (p *player) ponder(words []string) {
	var end <-chan time.Time
	if len(words) == 2 && words[0] == "movetime" {
		ms, _ := strconv.Atoi(words[1])
		end = time.After(time.Duration(ms) * time.Millisecond)
	}
	for {
		select {
		case line, ok := <-p.lines:
			switch strings.TrimSpace(line) {
			case "stop":
				return
			case "isready":
				p.say("readyok")
			}
			if !ok || line == "quit" {
				p.quits = true
				return
			}
		case <-end:
			return
		}
	}
}
